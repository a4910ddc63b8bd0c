package writing

import (
	"fmt"
	"slices"
	"strings"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/workbook/reading"
)

// placingsTable is the one table that all classes of the Placings sheet are printed in.
type placingsTable struct {
	*press
	page     *page
	slots    int  // columns for measures
	names    bool // somebody's exhibitor is known
	clubs    bool // somebody has a club
	prices   bool // somebody has a price
	groups   bool // somebody has a group or an award
	shared   bool // every class shows the same measures, so the headings can be repeated on each page
	awards   map[*grading.Graded][]string
	measures map[kindOfClass][]measure.ID
}

// writePlacings writes every class in order with what decided it, the carcasses without a place, and the awards.
func (p *press) writePlacings() error {
	t := p.planPlacings()
	widths := t.widths()
	layout := plan{
		Name: reading.PlacingsSheet, Mark: reading.PlacingsMark, Title: "Placings: " + p.status(),
		Subtitle: p.fairWords(), Widths: widths, Landscape: true, Tab: firstTab,
		RepeatFrom: 1, RepeatTo: 1, FreezeRows: 1, FreezeColumns: 2,
	}
	if t.shared {
		layout.RepeatFrom, layout.RepeatTo, layout.FreezeRows = 4, 4, 4
	}
	t.page = p.open(layout)
	t.page.do(func() error { return p.Book.Front(t.page.Name) })
	words := p.statusWords()
	if !t.prices {
		words += " No carcass has a price: see the Value grid."
	}
	t.page.across(words, body, 1, len(widths))
	if t.shared {
		t.page.write(t.headings(p.Placings.Classes[0])...)
	}
	for i, class := range p.Placings.Classes {
		if i > 0 && !t.shared {
			t.page.breakPage()
		}
		t.class(class)
	}
	t.awardLists()
	t.signature()
	writeCautions(t.page, len(widths))
	return t.page.close()
}

func (p *press) planPlacings() *placingsTable {
	t := &placingsTable{press: p, awards: awardsOf(p.Placings.Awards), measures: make(map[kindOfClass][]measure.ID), shared: true}
	t.groups = len(t.awards) > 0
	var first []measure.ID
	for i, class := range p.Placings.Classes {
		kind := kindOfClass{class.Species, class.Basis}
		if t.measures[kind] == nil {
			t.measures[kind] = p.shownMeasures(kind)
		}
		if i == 0 {
			first = t.measures[kind]
		}
		t.shared = t.shared && slices.Equal(first, t.measures[kind]) && class.Basis == p.Placings.Classes[0].Basis
		t.slots = max(t.slots, len(t.measures[kind]))
		for _, one := range everyCarcass(class) {
			t.names = t.names || textOf(one, measure.Exhibitor) != ""
			t.clubs = t.clubs || textOf(one, measure.Club) != ""
			_, priced := one.Figure(measure.Price)
			t.prices = t.prices || priced
		}
		for _, placed := range class.Placed {
			t.groups = t.groups || placed.Group != "" || placed.Paid
		}
	}
	t.shared = t.shared && len(p.Placings.Classes) > 0
	return t
}

func (t *placingsTable) widths() []float64 {
	widths := []float64{7, 8}
	if t.names {
		widths = append(widths, 17)
	}
	if t.clubs {
		widths = append(widths, 14)
	}
	for i := range t.slots {
		widths = append(widths, t.slotWidth(i))
	}
	if t.prices {
		widths = append(widths, 8.5, 10.5)
	}
	if t.groups {
		widths = append(widths, 13)
	}
	return append(widths, 36)
}

// slotWidth is wide enough for a grade's words where any class shows a grade in that column.
func (t *placingsTable) slotWidth(slot int) float64 {
	longest := 0
	for kind, measures := range t.measures {
		if slot >= len(measures) {
			continue
		}
		for _, word := range strings.Fields(kind.heading(measures[slot])) {
			longest = max(longest, len(word))
		}
		if definition, _ := measure.Define(measures[slot]); definition.Kind != measure.KindNumber {
			return 11
		}
	}
	return wordWidth(longest)
}

// wordWidth is wide enough for the longest word of a bold heading.
func wordWidth(letters int) float64 { return max(8.5, 1+float64(letters)*0.95) }

func (t *placingsTable) headings(class grading.ClassPlacing) []entry {
	plain := style{Role: heading, Wrap: true}
	headings := []entry{{"Place", plain}, {"Tag", plain}}
	if t.names {
		headings = append(headings, entry{"Exhibitor", plain})
	}
	if t.clubs {
		headings = append(headings, entry{"Club", plain})
	}
	kind := kindOfClass{class.Species, class.Basis}
	measures := t.measures[kind]
	for i := range t.slots {
		if i < len(measures) {
			headings = append(headings, awayFromNumbers(kind.measureHeading(measures[i])))
		} else {
			headings = append(headings, entry{"", plain})
		}
	}
	if t.prices {
		headings = append(headings, kind.measureHeading(measure.Price), kind.measureHeading(measure.CarcassValue))
	}
	if t.groups {
		headings = append(headings, awayFromNumbers(entry{"Group and awards", plain}))
	}
	return append(headings, awayFromNumbers(entry{"Why here", plain}))
}

func (t *placingsTable) class(class grading.ClassPlacing) {
	width := len(t.page.Widths)
	name := className(class.Class)
	if kinds := t.kindsOfClasses(); len(kinds) > 1 || class.Basis == rules.LiveScan {
		name += " · " + kindOfClass{class.Species, class.Basis}.words()
	}
	t.page.across(fmt.Sprintf("%s · %d placed, %d not placed", name, len(class.Placed), len(class.Left)), band, 1, width)
	ranked := rankingWords(class.Ranking)
	if class.Split != "" {
		ranked += " " + class.Split
	}
	if percents := percentWords(class, t.measures[kindOfClass{class.Species, class.Basis}]); percents != "" {
		ranked += " " + percents
	}
	t.page.across(ranked, note, 1, width)
	if !t.shared {
		t.page.write(t.headings(class)...)
	}
	for _, placed := range class.Placed {
		t.placed(class, placed)
	}
	for _, left := range class.Left {
		t.left(left)
	}
	t.page.skip(1)
}

func (t *placingsTable) placed(class grading.ClassPlacing, placed grading.Placed) {
	of := body
	if placed.Paid {
		of = strong
	}
	row := append([]entry{placeEntry(placed)}, t.who(placed.Graded)...)
	kind := kindOfClass{class.Species, class.Basis}
	measures := t.measures[kind]
	for i := range t.slots {
		if i < len(measures) {
			row = append(row, awayFromNumbers(figureEntry(placed.Graded, measures[i], body)))
		} else {
			row = append(row, entry{"", style{Role: body}})
		}
	}
	if t.prices {
		row = append(row, figureEntry(placed.Graded, measure.Price, body), figureEntry(placed.Graded, measure.CarcassValue, of))
	}
	if t.groups {
		row = append(row, awayFromNumbers(entry{t.groupWords(placed), style{Role: body, Wrap: true}}))
	}
	t.page.write(append(row, awayFromNumbers(entry{whyWords(placed), style{Role: body, Wrap: true}}))...)
}

func whyWords(placed grading.Placed) string { return sentence(placed.Why) }

func (t *placingsTable) who(graded *grading.Graded) []entry {
	wrapped := style{Role: body, Wrap: true}
	row := []entry{{tagWords(graded.Tag), style{Role: strong}}}
	if t.names {
		row = append(row, entry{textOf(graded, measure.Exhibitor), wrapped})
	}
	if t.clubs {
		row = append(row, entry{textOf(graded, measure.Club), wrapped})
	}
	return row
}

func (t *placingsTable) groupWords(placed grading.Placed) string {
	var words []string
	if placed.Group != "" {
		words = append(words, placed.Group)
	}
	if placed.Paid {
		words = append(words, "paid")
	}
	return strings.Join(append(words, t.awards[placed.Graded]...), " · ")
}

// left writes a carcass without a place: in place of its figures stands the reason.
func (t *placingsTable) left(left grading.Left) {
	row := append([]entry{{"–", style{Role: body, Align: "left"}}}, t.who(left.Graded)...)
	from, to := len(row)+1, len(t.page.Widths)
	wide := 0.0
	for _, width := range t.page.Widths[from-1:] {
		wide += width
	}
	reason := "Not placed: " + left.Reason
	for range to - from + 1 {
		row = append(row, entry{"", style{Role: flagged, Wrap: true}})
	}
	row[from-1].value = reason
	row[from-1].style.Across = true
	t.page.mergeAcross(t.page.writeHigh(heightOf(reason, wide, flagged), row...), from, to)
}

func (t *placingsTable) awardLists() {
	if len(t.Placings.Awards) == 0 {
		return
	}
	width := len(t.page.Widths)
	t.page.across("Awards", band, 1, width)
	for _, list := range t.Placings.Awards {
		ranking := t.ranking(list.Award.Ranking)
		t.page.across(list.Award.Name+": "+rankingWords(ranking), strong, 1, width)
		if len(list.Winners) == 0 {
			t.page.across("No award. "+sentence(list.Reason), body, 1, width)
		}
		for _, winner := range list.Winners {
			t.winner(winner, ranking)
		}
	}
	t.page.skip(1)
}

func (t *placingsTable) winner(winner grading.Placed, ranking rules.Ranking) {
	row := append([]entry{placeEntry(winner)}, t.who(winner.Graded)...)
	from, to := len(row)+1, len(t.page.Widths)
	figures := []string{className(winner.Class)}
	for _, key := range ranking.Keys {
		if text := FigureText(winner.Graded, key.Measure); text != "" {
			figures = append(figures, key.Name()+" "+text)
		}
	}
	for range to - from + 1 {
		row = append(row, entry{"", style{Role: body, Wrap: true}})
	}
	row[from-1] = entry{strings.Join(figures, " · "), style{Role: body, Across: true}}
	t.page.mergeAcross(t.page.write(row...), from, to)
}

func (p *press) ranking(name string) rules.Ranking {
	for _, ranking := range p.Rules.Rankings {
		if ranking.Name == name {
			return ranking
		}
	}
	return rules.Ranking{Name: name}
}

// signature is the block that is signed by hand: the printed seal is kept with it.
func (t *placingsTable) signature() {
	width := len(t.page.Widths)
	if t.status() != reading.Signed {
		return
	}
	t.page.across("Signatures", band, 1, width)
	t.page.writeHigh(30, entry{"Judge: " + t.Run.Judge + "   " + strings.Repeat("_", 40), style{Role: strong}})
	t.page.writeHigh(30, entry{"Superintendent:   " + strings.Repeat("_", 40), style{Role: strong}})
	t.page.across("Seal: "+t.Run.Seal, body, 1, width)
}
