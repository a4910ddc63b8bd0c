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
	"railbook/validate"
	"railbook/workbook/ahead"
	"railbook/workbook/record"
	"railbook/workbook/result"
	"railbook/workbook/sheets/kit"
	"railbook/workbook/words"
)

// placingsTable is the one table that all classes of the Placings sheet are printed in.
type placingsTable struct {
	*Writer
	page     *kit.Page
	slots    int  // columns for measures
	names    bool // somebody's exhibitor is known
	prices   bool // somebody has a price
	shared   bool // every class shows the same measures, so the headings can be repeated on each page
	measures map[result.KindOfClass][]measure.ID
	accepted []*validate.Finding // past what the rulebook holds possible
	under    []kit.Entry         // the line under a carcass
}

// writePlacings writes every class in order with what decided it, the carcasses without a place, and the awards.
func (p *Writer) writePlacings() error {
	t := p.planPlacings()
	t.begin(record.PlacingsMark)
	t.page.Do(func() error { return p.Book.Front(t.page.Name) })
	lines, stop := ahead.Pull(t.placedLines)
	defer stop()
	sheets, first := 1, 0 // the first class of the sheet
	for i, class := range p.Placings.Classes {
		if i > first && t.page.Row+mostRowsOf(class) > mostRowsOfClasses {
			if err := t.page.Close(); err != nil {
				return err
			}
			sheets, first = sheets+1, i
			t.begin(numbered(record.PlacingsMark, sheets))
		}
		if i > first && !t.shared {
			t.page.BreakPage()
		}
		t.class(class, lines)
	}
	t.awardLists()
	t.signature()
	kit.WriteCautions(t.page, len(t.page.Widths))
	return t.page.Close()
}

// mostRowsOfClasses is how many rows of classes stand on one sheet, which has room for the awards behind them. It is changed by tests
// alone.
var mostRowsOfClasses = kit.MostRows - 1<<14

// mostRowsOf is how many rows a class takes at most: two for each carcass that is placed, one for each that is not, and its head.
func mostRowsOf(class placing.ClassPlacing) int {
	return 2*len(class.Placed) + len(class.NotPlaced) + 8
}

// begin opens the sheet, or another one where the classes take more rows than a sheet has.
func (t *placingsTable) begin(mark string) {
	layout := kit.PageSetup{
		Name: record.PlacingsSheet, Mark: mark, Title: "Placings: " + t.Status(),
		Subtitle: t.FairWords(), Widths: t.widths(), Tab: kit.FirstTab,
		RepeatFrom: 1, RepeatTo: 1, FreezeRows: 1, FreezeColumns: 2,
	}
	if t.shared {
		layout.RepeatFrom, layout.RepeatTo, layout.FreezeRows = 4, 5, 5
	}
	t.page = t.open(layout)
	words := t.StatusWords()
	if !t.prices {
		words += " No carcass has a price: see the Value grid."
	}
	t.page.Across(words, kit.Body, 1, len(layout.Widths))
	if t.shared {
		t.headings(t.Placings.Classes[0])
	}
}

// headings writes the headings of the figures, and of the line below them.
func (t *placingsTable) headings(class placing.ClassPlacing) {
	plain := kit.Style{Role: kit.Heading, Wrap: true}
	headings := []kit.Entry{{Value: "Place", Style: plain}, {Value: "Tag", Style: plain}}
	if t.names {
		headings = append(headings, kit.Entry{Value: "Exhibitor", Style: plain})
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
		headings = append(headings, kit.MeasureHeading(kind, measure.CarcassValue))
	}
	t.page.Write(headings...)
	t.page.Spanning(0, 2, len(t.page.Widths), kit.Entry{Value: "", Style: kit.Style{Role: kit.Note}},
		kit.Entry{Value: "Below each: club, group and awards, and why it stands here, before the next one.", Style: kit.Style{Role: kit.Note, Wrap: true}})
}

func (t *placingsTable) class(class placing.ClassPlacing, lines func() placedLines) {
	width := len(t.page.Widths)
	name := kit.ClassName(class.Class)
	if kinds := t.KindsOfClasses(); len(kinds) > 1 || class.Basis == rules.LiveScan {
		name += " · " + result.KindOfClass{Species: class.Species, Basis: class.Basis}.Words()
	}
	t.page.Keep(110) // a class begins with its first carcasses
	t.page.Across(fmt.Sprintf("%s · %d placed, %d not placed", name, len(class.Placed), len(class.NotPlaced)), kit.Band, 1, width)
	ranked := words.RankingWords(class.Ranking)
	if class.Split != "" {
		ranked += " " + class.Split
	}
	if percents := words.PercentWords(class, t.measures[result.KindOfClass{Species: class.Species, Basis: class.Basis}]); percents != "" {
		ranked += " " + percents
	}
	t.page.Across(ranked, kit.Note, 1, width)
	if !t.shared {
		t.headings(class)
	}
	for range class.Placed {
		t.placed(lines())
	}
	for _, notPlaced := range class.NotPlaced {
		t.left(notPlaced)
	}
	t.page.Skip(1)
}

// placedLines are the two lines of a carcass: its figures, and why it stands where it does.
type placedLines struct {
	figures []kit.Entry
	why     string
}

// placedLines gives the lines of every carcass that is placed, class by class.
func (t *placingsTable) placedLines(yield func(placedLines) bool) {
	for i := range t.Placings.Classes {
		for at := range t.Placings.Classes[i].Placed {
			if !yield(t.linesOf(&t.Placings.Classes[i], at)) {
				return
			}
		}
	}
}

func (t *placingsTable) linesOf(class *placing.ClassPlacing, at int) placedLines {
	placed := class.Placed[at]
	of := kit.Body
	if placed.Paid {
		of = kit.Strong
	}
	row := append(append(make([]kit.Entry, 0, len(t.page.Widths)), kit.PlaceEntry(placed)), t.who(placed.Graded)...)
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
		row = append(row, kit.FigureEntry(placed.Graded, measure.CarcassValue, of))
	}
	why := strings.Join(slices.DeleteFunc([]string{result.TextOf(placed.Graded, measure.Club), t.groupWords(placed), t.markedWords(class, at)},
		func(text string) bool { return text == "" }), " · ")
	if why != "" {
		for i := range row {
			if row[i].Style.Role != kit.Flagged {
				row[i].Style.Open = true
			}
		}
	}
	return placedLines{row, why}
}

func (t *placingsTable) placed(lines placedLines) {
	t.page.Keep(t.page.HeightOfRow(lines.figures...) + t.page.HeightOf(lines.why, t.whyWidth(), kit.Body))
	t.page.Write(lines.figures...)
	if lines.why != "" {
		under := kit.Style{Role: kit.Body, Wrap: true}
		t.under = append(t.under[:0], kit.Entry{Value: "", Style: under}, kit.Entry{Value: lines.why, Style: under})
		t.under = slices.Grow(t.under, len(t.page.Widths))
		t.page.Spanning(0, 2, len(t.page.Widths), t.under...)
	}
}

// whyWidth is how wide the line under a carcass is.
func (t *placingsTable) whyWidth() float64 {
	wide := 0.0
	for _, width := range t.page.Widths[1:] {
		wide += width
	}
	return wide
}

// markedWords says why a carcass stands where it does, and marks one that stands there by a value that the judge accepted past
// what the rulebook holds possible.
func (t *placingsTable) markedWords(class *placing.ClassPlacing, at int) string {
	why := phrase.Sentence(words.Why(class, at))
	for _, finding := range t.accepted {
		if finding.Carcass == class.Placed[at].Carcass {
			why = fmt.Sprintf("! With %s %s, past what the rulebook holds possible, accepted by the judge. %s", finding.Measure, finding.Read, why)
		}
	}
	return strings.TrimSpace(why)
}

func (t *placingsTable) who(graded *grading.Graded) []kit.Entry {
	row := []kit.Entry{{Value: kit.TagWords(graded.Tag), Style: kit.Style{Role: kit.Strong}}}
	if t.names {
		row = append(row, kit.Entry{Value: result.TextOf(graded, measure.Exhibitor), Style: kit.Style{Role: kit.Body, Wrap: true}})
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
	return strings.Join(append(words, t.Of(placed.Carcass).Standing.Awards...), " · ")
}

// left writes a carcass without a place: in place of its figures stands the reason.
func (t *placingsTable) left(notPlaced placing.NotPlaced) {
	row := append([]kit.Entry{{Value: "–", Style: kit.Style{Role: kit.Body, Align: "left"}}}, t.who(notPlaced.Graded)...)
	from, to := len(row)+1, len(t.page.Widths)
	wide := 0.0
	for _, width := range t.page.Widths[from-1:] {
		wide += width
	}
	reason := "Not placed: " + notPlaced.Reason
	for range to - from + 1 {
		row = append(row, kit.Entry{Value: "", Style: kit.Style{Role: kit.Flagged, Wrap: true}})
	}
	row[from-1].Value = reason
	row[from-1].Style.Across = true
	if club := result.TextOf(notPlaced.Graded, measure.Club); club != "" {
		reason = club + " · " + reason
		row[from-1].Value = reason
	}
	t.page.MergeAcross(t.page.WriteHigh(t.page.HeightOf(reason, wide, kit.Flagged), row...), from, to)
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

func (p *Writer) ranking(name string) rules.Ranking {
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
	t.page.Spanning(30, 1, width, kit.Entry{Value: "Judge: " + t.Run.Judge + "   " + strings.Repeat("_", 40), Style: kit.Style{Role: kit.Strong}})
	t.page.Spanning(30, 1, width, kit.Entry{Value: "Superintendent:   " + strings.Repeat("_", 40), Style: kit.Style{Role: kit.Strong}})
	t.page.Across("Seal: "+t.Run.Seal, kit.Body, 1, width)
}
