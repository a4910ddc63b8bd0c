package fair

import (
	"fmt"
	"slices"
	"strings"

	"railbook/grading"
	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/workbook/record"
	"railbook/workbook/result"
	"railbook/workbook/sheets/kit"
	"railbook/workbook/words"
)

// placingsTable is the one table that all classes of the Placings sheet are printed in.
type placingsTable struct {
	*Press
	page     *kit.Page
	slots    int  // columns for measures
	names    bool // somebody's exhibitor is known
	clubs    bool // somebody has a club
	prices   bool // somebody has a price
	groups   bool // somebody has a group or an award
	shared   bool // every class shows the same measures, so the headings can be repeated on each page
	awards   map[*grading.Graded][]string
	measures map[result.KindOfClass][]measure.ID
}

// writePlacings writes every class in order with what decided it, the carcasses without a place, and the awards.
func (p *Press) writePlacings() error {
	t := p.planPlacings()
	widths := t.widths()
	layout := kit.Plan{
		Name: record.PlacingsSheet, Mark: record.PlacingsMark, Title: "Placings: " + p.Status(),
		Subtitle: p.FairWords(), Widths: widths, Landscape: true, Tab: kit.FirstTab,
		RepeatFrom: 1, RepeatTo: 1, FreezeRows: 1, FreezeColumns: 2,
	}
	if t.shared {
		layout.RepeatFrom, layout.RepeatTo, layout.FreezeRows = 4, 4, 4
	}
	t.page = p.open(layout)
	t.page.Do(func() error { return p.Book.Front(t.page.Name) })
	words := p.StatusWords()
	if !t.prices {
		words += " No carcass has a price: see the Value grid."
	}
	t.page.Across(words, kit.Body, 1, len(widths))
	if t.shared {
		t.page.Write(t.Headings(p.Placings.Classes[0])...)
	}
	for i, class := range p.Placings.Classes {
		if i > 0 && !t.shared {
			t.page.BreakPage()
		}
		t.class(class)
	}
	t.awardLists()
	t.signature()
	kit.WriteCautions(t.page, len(widths))
	return t.page.Close()
}

func (p *Press) planPlacings() *placingsTable {
	t := &placingsTable{Press: p, awards: kit.AwardsOf(p.Placings.Awards), measures: make(map[result.KindOfClass][]measure.ID), shared: true}
	t.groups = len(t.awards) > 0
	var first []measure.ID
	for i, class := range p.Placings.Classes {
		kind := result.KindOfClass{Species: class.Species, Basis: class.Basis}
		if t.measures[kind] == nil {
			t.measures[kind] = p.ShownMeasures(kind)
		}
		if i == 0 {
			first = t.measures[kind]
		}
		t.shared = t.shared && slices.Equal(first, t.measures[kind]) && class.Basis == p.Placings.Classes[0].Basis
		t.slots = max(t.slots, len(t.measures[kind]))
		for _, one := range result.EveryCarcass(class) {
			t.names = t.names || result.TextOf(one, measure.Exhibitor) != ""
			t.clubs = t.clubs || result.TextOf(one, measure.Club) != ""
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
		for _, word := range strings.Fields(kind.Heading(measures[slot])) {
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

func (t *placingsTable) Headings(class placing.ClassPlacing) []kit.Entry {
	plain := kit.Style{Role: kit.Heading, Wrap: true}
	headings := []kit.Entry{{Value: "Place", Style: plain}, {Value: "Tag", Style: plain}}
	if t.names {
		headings = append(headings, kit.Entry{Value: "Exhibitor", Style: plain})
	}
	if t.clubs {
		headings = append(headings, kit.Entry{Value: "Club", Style: plain})
	}
	kind := result.KindOfClass{Species: class.Species, Basis: class.Basis}
	measures := t.measures[kind]
	for i := range t.slots {
		if i < len(measures) {
			headings = append(headings, kit.AwayFromNumbers(kit.MeasureHeading(kind, measures[i])))
		} else {
			headings = append(headings, kit.Entry{Value: "", Style: plain})
		}
	}
	if t.prices {
		headings = append(headings, kit.MeasureHeading(kind, measure.Price), kit.MeasureHeading(kind, measure.CarcassValue))
	}
	if t.groups {
		headings = append(headings, kit.AwayFromNumbers(kit.Entry{Value: "Group and awards", Style: plain}))
	}
	return append(headings, kit.AwayFromNumbers(kit.Entry{Value: "Why here", Style: plain}))
}

func (t *placingsTable) class(class placing.ClassPlacing) {
	width := len(t.page.Widths)
	name := kit.ClassName(class.Class)
	if kinds := t.KindsOfClasses(); len(kinds) > 1 || class.Basis == rules.LiveScan {
		name += " · " + result.KindOfClass{Species: class.Species, Basis: class.Basis}.Words()
	}
	t.page.Across(fmt.Sprintf("%s · %d placed, %d not placed", name, len(class.Placed), len(class.Left)), kit.Band, 1, width)
	ranked := words.RankingWords(class.Ranking)
	if class.Split != "" {
		ranked += " " + class.Split
	}
	if percents := words.PercentWords(class, t.measures[result.KindOfClass{Species: class.Species, Basis: class.Basis}]); percents != "" {
		ranked += " " + percents
	}
	t.page.Across(ranked, kit.Note, 1, width)
	if !t.shared {
		t.page.Write(t.Headings(class)...)
	}
	for _, placed := range class.Placed {
		t.placed(class, placed)
	}
	for _, left := range class.Left {
		t.left(left)
	}
	t.page.Skip(1)
}

func (t *placingsTable) placed(class placing.ClassPlacing, placed placing.Placed) {
	of := kit.Body
	if placed.Paid {
		of = kit.Strong
	}
	row := append([]kit.Entry{kit.PlaceEntry(placed)}, t.who(placed.Graded)...)
	kind := result.KindOfClass{Species: class.Species, Basis: class.Basis}
	measures := t.measures[kind]
	for i := range t.slots {
		if i < len(measures) {
			row = append(row, kit.AwayFromNumbers(kit.FigureEntry(placed.Graded, measures[i], kit.Body)))
		} else {
			row = append(row, kit.Entry{Value: "", Style: kit.Style{Role: kit.Body}})
		}
	}
	if t.prices {
		row = append(row, kit.FigureEntry(placed.Graded, measure.Price, kit.Body), kit.FigureEntry(placed.Graded, measure.CarcassValue, of))
	}
	if t.groups {
		row = append(row, kit.AwayFromNumbers(kit.Entry{Value: t.groupWords(placed), Style: kit.Style{Role: kit.Body, Wrap: true}}))
	}
	t.page.Write(append(row, kit.AwayFromNumbers(kit.Entry{Value: whyWords(placed), Style: kit.Style{Role: kit.Body, Wrap: true}}))...)
}

func whyWords(placed placing.Placed) string { return phrase.Sentence(placed.Why) }

func (t *placingsTable) who(graded *grading.Graded) []kit.Entry {
	wrapped := kit.Style{Role: kit.Body, Wrap: true}
	row := []kit.Entry{{Value: kit.TagWords(graded.Tag), Style: kit.Style{Role: kit.Strong}}}
	if t.names {
		row = append(row, kit.Entry{Value: result.TextOf(graded, measure.Exhibitor), Style: wrapped})
	}
	if t.clubs {
		row = append(row, kit.Entry{Value: result.TextOf(graded, measure.Club), Style: wrapped})
	}
	return row
}

func (t *placingsTable) groupWords(placed placing.Placed) string {
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
func (t *placingsTable) left(left placing.Left) {
	row := append([]kit.Entry{{Value: "–", Style: kit.Style{Role: kit.Body, Align: "left"}}}, t.who(left.Graded)...)
	from, to := len(row)+1, len(t.page.Widths)
	wide := 0.0
	for _, width := range t.page.Widths[from-1:] {
		wide += width
	}
	reason := "Not placed: " + left.Reason
	for range to - from + 1 {
		row = append(row, kit.Entry{Value: "", Style: kit.Style{Role: kit.Flagged, Wrap: true}})
	}
	row[from-1].Value = reason
	row[from-1].Style.Across = true
	t.page.MergeAcross(t.page.WriteHigh(kit.HeightOf(reason, wide, kit.Flagged), row...), from, to)
}

func (t *placingsTable) awardLists() {
	if len(t.Placings.Awards) == 0 {
		return
	}
	width := len(t.page.Widths)
	t.page.Across("Awards", kit.Band, 1, width)
	for _, list := range t.Placings.Awards {
		ranking := t.ranking(list.Award.Ranking)
		t.page.Across(list.Award.Name+": "+words.RankingWords(ranking), kit.Strong, 1, width)
		if len(list.Winners) == 0 {
			t.page.Across("No award. "+phrase.Sentence(list.Reason), kit.Body, 1, width)
		}
		for _, winner := range list.Winners {
			t.winner(winner, ranking)
		}
	}
	t.page.Skip(1)
}

func (t *placingsTable) winner(winner placing.Placed, ranking rules.Ranking) {
	row := append([]kit.Entry{kit.PlaceEntry(winner)}, t.who(winner.Graded)...)
	from, to := len(row)+1, len(t.page.Widths)
	figures := []string{kit.ClassName(winner.Class)}
	for _, key := range ranking.Keys {
		if text := kit.FigureText(winner.Graded, key.Measure); text != "" {
			figures = append(figures, key.Name()+" "+text)
		}
	}
	for range to - from + 1 {
		row = append(row, kit.Entry{Value: "", Style: kit.Style{Role: kit.Body, Wrap: true}})
	}
	row[from-1] = kit.Entry{Value: strings.Join(figures, " · "), Style: kit.Style{Role: kit.Body, Across: true}}
	t.page.MergeAcross(t.page.Write(row...), from, to)
}

func (p *Press) ranking(name string) rules.Ranking {
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
	if t.Status() != record.Signed {
		return
	}
	t.page.Across("Signatures", kit.Band, 1, width)
	t.page.WriteHigh(30, kit.Entry{Value: "Judge: " + t.Run.Judge + "   " + strings.Repeat("_", 40), Style: kit.Style{Role: kit.Strong}})
	t.page.WriteHigh(30, kit.Entry{Value: "Superintendent:   " + strings.Repeat("_", 40), Style: kit.Style{Role: kit.Strong}})
	t.page.Across("Seal: "+t.Run.Seal, kit.Body, 1, width)
}
