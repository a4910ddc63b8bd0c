package cards

import (
	"fmt"
	"slices"
	"strings"

	"railbook/grading/placing"
	"railbook/rules/phrase"
	"railbook/workbook/names"
	"railbook/workbook/sheets/kit"
)

// mostCalled is how many places of a class are called out where the rulebook names no places paid.
const mostCalled = 5

// calls writes the announcer's page: class by class from the last place called to the first (common practice), then the
// champions, the reserve before its champion. A name is spoken only where there is consent.
func (p *public) calls() error {
	widths := []float64{30, 14, 44}
	page := p.openSheet(kit.PageSetup{
		Name: callSheet, Title: "Announcer: " + p.Status(), Subtitle: "In the order in which they are called out",
		Widths: widths, RepeatFrom: 1, RepeatTo: 1,
	})
	page.Across(p.publicStatus(), kit.Body, 1, len(widths))
	for at, class := range p.Placings.Classes {
		called := p.calledIn(class)
		if len(called) == 0 {
			continue
		}
		page.Across(p.className(at, class), kit.Band, 1, len(widths))
		for _, placed := range called {
			p.call(page, phrase.Capital(phrase.Ordinal(placed.Place))+" place"+ribbon(placed.Group), placed)
		}
	}
	for _, list := range p.Placings.Awards {
		if len(list.Winners) == 0 {
			continue
		}
		name := p.Safe(list.Name, "Award")
		page.Across(name, kit.Band, 1, len(widths))
		for _, reserve := range list.Reserve {
			p.call(page, "Reserve", reserve)
		}
		for _, winner := range slices.Backward(list.Winners) {
			words := name
			if len(list.Winners) > 1 {
				words = fmt.Sprintf("%s: %s", name, phrase.Ordinal(winner.Place))
			}
			p.call(page, words, winner)
		}
	}
	page.PrintTo(len(widths))
	return page.Close()
}

// calledIn gives the carcasses of a class that are called out, the last place first.
func (p *public) calledIn(class placing.ClassPlacing) (called []placing.Placed) {
	most := class.Rule.PlacesPaid
	if most == 0 {
		most = mostCalled
	}
	for _, placed := range slices.Backward(class.Placed) {
		if placed.Place <= most {
			called = append(called, placed)
		}
	}
	return called
}

func ribbon(group string) string {
	if group == "" {
		return ""
	}
	return ", " + strings.ToLower(group)
}

// call writes one line to be read aloud, large enough to be read at a stand.
func (p *public) call(page *kit.Page, words string, placed placing.Placed) {
	who := names.Spoken(p.Name(placed.Graded))
	if who == "" {
		who = "the exhibitor of tag " + p.tag(placed.Graded)
	}
	large := kit.Style{Role: kit.Listed, Wrap: true}
	page.Write(kit.Entry{Value: words, Style: large}, kit.Entry{Value: "Tag " + p.tag(placed.Graded), Style: large}, kit.Entry{Value: who, Style: large})
}
