package writing

import (
	"bytes"
	"fmt"
	"slices"

	"github.com/xuri/excelize/v2"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/workbook/reading"
)

// The sheets of the public workbook.
const (
	publicSheet  = "Public placings"
	auctionSheet = "Sale order"
)

// WritePublic gives the bytes of the workbook for the newspaper and the sale: placings and measures, with a name only
// where there is consent. It is made afresh, and nothing that a person wrote about a carcass goes into it but its tag and
// its class.
func WritePublic(results *Results) ([]byte, error) {
	file := excelize.NewFile()
	defer file.Close()
	if err := ownProperties(file, "Placings"); err != nil {
		return nil, err
	}
	if err := file.SetSheetName("Sheet1", publicSheet); err != nil {
		return nil, err
	}
	public := &public{press: &press{Results: results, look: newLook(file, false)}, file: file, consents: consentsOf(results)}
	named, _ := PublicNames(results)
	public.named = named > 0
	for _, write := range []func() error{public.placings, public.auction} {
		if err := write(); err != nil {
			return nil, err
		}
	}
	var data bytes.Buffer
	err := file.Write(&data)
	return data.Bytes(), err
}

// public writes the sheets that anybody may see.
type public struct {
	*press
	*consents
	file  *excelize.File
	named bool // somebody may be named
}

func (p *public) sheet(name, _ string) (string, error) {
	if name == publicSheet {
		return name, nil
	}
	_, err := p.file.NewSheet(name)
	return name, err
}

func (p *public) openSheet(wanted plan) *page {
	wanted.Status, wanted.Tab = p.status(), firstTab
	return openPage(p.sheet, p.look, wanted)
}

// publicStatus says what the status means for a reader, without naming anybody.
func (p *public) publicStatus() string {
	words := "Provisional: places may still change until the judge has signed."
	if p.status() == reading.Signed {
		words = "Signed by the judge"
		if p.Run.Date != "" {
			words += ", " + p.Run.Date
		}
		words += "."
	}
	return words + " A name stands here only where the fair has consent to print it."
}

// PublicNames counts the placed carcasses that the public sheet names with consent, and those it gives by tag alone.
func PublicNames(results *Results) (named, tagged int) {
	consents := consentsOf(results)
	for _, class := range results.Placings.Classes {
		for _, placed := range class.Placed {
			if consents.may(placed.Graded) {
				named++
			} else {
				tagged++
			}
		}
	}
	return named, tagged
}

// publicMeasures is how many measures a line of the public sheet shows, besides price and value.
const publicMeasures = 9

// leastMeasures keeps the sheet wide enough for its title and sentences.
const leastMeasures = 6

func (p *public) placings() error {
	widths := []float64{8, 10}
	if p.named {
		widths = append(widths, 22)
	}
	most := 0
	for _, class := range p.Placings.Classes {
		most = max(most, len(p.shownHere(class)))
	}
	most = max(most, 1)
	widths = append(widths, slices.Repeat([]float64{11.5 * float64(max(most, leastMeasures)) / float64(most)}, most)...)
	layout := plan{
		Name: publicSheet, Title: "Carcass placings: " + p.status(), Subtitle: "Best first in each class",
		Widths: widths, Landscape: true, RepeatFrom: 1, RepeatTo: 1, FreezeRows: 1,
	}
	shared := p.sameMeasures()
	if shared {
		layout.RepeatFrom, layout.RepeatTo, layout.FreezeRows = 4, 4, 4
	}
	page := p.openSheet(layout)
	page.across(p.publicStatus(), body, 1, len(widths))
	if shared {
		page.write(p.headings(p.Placings.Classes[0])...)
	}
	for at, class := range p.Placings.Classes {
		if at > 0 && !shared {
			page.breakPage()
		}
		p.class(page, at, class, shared)
	}
	for _, caution := range cautions[:2] {
		page.across(caution, note, 1, len(widths))
	}
	page.printTo(len(widths))
	return page.close()
}

// className names a class, by its number where its own name may not be published.
func (p *public) className(at int, class grading.ClassPlacing) string {
	return p.safe(className(class.Class), fmt.Sprintf("Class %d", at+1))
}

// sameMeasures reports whether every class shows the same measures, so that one row of headings does for every page.
func (p *public) sameMeasures() bool {
	for _, class := range p.Placings.Classes {
		if first := p.Placings.Classes[0]; class.Basis != first.Basis || !slices.Equal(p.shownHere(class), p.shownHere(first)) {
			return false
		}
	}
	return len(p.Placings.Classes) > 0
}

func (p *public) headings(class grading.ClassPlacing) []entry {
	plain := style{Role: heading, Wrap: true}
	row := []entry{{"Place", plain}, {"Tag", plain}}
	if p.named {
		row = append(row, entry{"Exhibitor", plain})
	}
	for _, id := range p.shownHere(class) {
		row = append(row, centredWords(kindOfClass{class.Species, class.Basis}.measureHeading(id)))
	}
	return row
}

func (p *public) class(page *page, at int, class grading.ClassPlacing, shared bool) {
	width := len(page.Widths)
	measures := p.shownHere(class)
	if !shared {
		page.skip(1)
	}
	page.across(fmt.Sprintf("%s · %s · %d placed", p.className(at, class), kindOfClass{class.Species, class.Basis}.words(), len(class.Placed)), band, 1, width)
	if percents := percentWords(class, measures); percents != "" {
		page.across(percents, note, 1, width)
	}
	if !shared {
		page.write(p.headings(class)...)
	}
	for _, placed := range class.Placed {
		row := []entry{placeEntry(placed), {p.tag(placed.Graded), style{Role: strong}}}
		if p.named {
			row = append(row, entry{p.name(placed.Graded), style{Role: body, Wrap: true}})
		}
		for _, id := range measures {
			row = append(row, centredWords(figureEntry(placed.Graded, id, body)))
		}
		page.write(row...)
	}
	if left := len(class.Left); left > 0 {
		page.across(plural(left, "carcass is", "carcasses are")+" not placed.", note, 1, width)
	}
}

// auctionWeight is the heading of the weights that are sold by: those of scanned animals are estimates.
func (p *public) auctionWeight() string {
	scanned, carcasses := false, false
	for _, class := range p.Placings.Classes {
		if class.Basis == rules.LiveScan {
			scanned = true
		} else {
			carcasses = true
		}
	}
	words := headingOf(measure.HotCarcassWeight)
	switch {
	case scanned && carcasses:
		words += " (scanned: estimated)"
	case scanned:
		words = "Estimated carcass weight, lb"
	}
	return words
}

// centredWords keeps the words of a grade away from the numbers on both sides.
func centredWords(one entry) entry {
	if _, isText := one.value.(string); isText && one.style.Align == "" {
		one.style.Align, one.style.Wrap = "center", one.style.Role == heading
	}
	return one
}

// shownHere are the measures of a class that somebody in it has; the value stands last.
func (p *public) shownHere(class grading.ClassPlacing) []measure.ID {
	has := func(id measure.ID) bool {
		return slices.ContainsFunc(class.Placed, func(placed grading.Placed) bool {
			_, ok := placed.Figure(id)
			return ok
		})
	}
	var shown []measure.ID
	for _, id := range p.shownMeasures(kindOfClass{class.Species, class.Basis}) {
		if has(id) {
			shown = append(shown, id)
		}
	}
	shown = shown[:min(len(shown), publicMeasures)]
	if has(measure.CarcassValue) {
		shown = append(shown, measure.CarcassValue)
	}
	return shown
}

func (p *public) tag(graded *grading.Graded) string { return p.safe(tagWords(graded.Tag), "–") }

// auction writes every placed carcass once, numbered in the order of the classes and places, with room to write the sale.
func (p *public) auction() error {
	widths := []float64{7, 30, 8, 10, 26, 15, 26, 14}
	page := p.openSheet(plan{
		Name: auctionSheet, Title: "Sale order: " + p.status(), Subtitle: "By class and place; buyer and price are written by hand",
		Widths: widths, Landscape: true, RepeatFrom: 4, RepeatTo: 4, FreezeRows: 4,
	})
	page.across(p.publicStatus(), body, 1, len(widths))
	plain := style{Role: heading, Wrap: true}
	page.write(entry{"Lot", plain}, entry{"Class", plain}, entry{"Place", plain}, entry{"Tag", plain}, entry{"Exhibitor", plain},
		numberHeading(p.auctionWeight()), awayFromNumbers(entry{"Buyer", plain}), entry{"Price", plain})
	lot := 0
	wrapped := style{Role: body, Wrap: true}
	for at, class := range p.Placings.Classes {
		for _, placed := range class.Placed {
			lot++
			page.writeHigh(22, entry{lot, style{Role: strong, Align: "left"}}, entry{p.className(at, class), wrapped}, entry{placed.Place, style{Role: body, Align: "left"}},
				entry{p.tag(placed.Graded), style{Role: strong}}, entry{p.name(placed.Graded), wrapped}, figureEntry(placed.Graded, measure.HotCarcassWeight, body),
				entry{"", style{Role: input}}, entry{"", style{Role: input}})
		}
	}
	page.printTo(len(widths))
	return page.close()
}
