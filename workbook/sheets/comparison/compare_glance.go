package comparison

import (
	"fmt"
	"strings"

	"railbook/grading/whatif"
	"railbook/rules/address"
	"railbook/rules/phrase"
	"railbook/workbook/sheets/fair"
	"railbook/workbook/sheets/kit"
	"railbook/workbook/words"
	"railbook/workbook/xlsx"

	"github.com/shopspring/decimal"
)

// The charts stand side by side on a page of their own, in the units of the library, which counts 18 pixels for a row.
const (
	chartsWide  = 470
	chartsHigh  = 22 // rows
	reckonedRow = 18
)

var glanceWidths = []float64{30, 15, 15, 14, 13, 13, 14, 14}

// mostMovers is how many of those that move are named on the first sheet.
const mostMovers = 12

// writeGlance writes the first sheet: what changes in a sentence, in sums, by class, who moves, and the charts.
func (s *comparisonSheets) writeGlance() {
	page := s.glance
	page.Across(s.inASentence(), kit.Body, 1, len(glanceWidths))
	page.Skip(1)
	s.sums(page)
	page.Skip(1)
	first, last := s.byClass(page)
	page.Skip(1)
	s.movers(page)
	page.Skip(1)
	page.Across("Placed by the rulebooks alone: what a judge ruled at the fair is left out. Grades are computed estimates and prices are for teaching; the inspector, the official grader, the judge and the fair's own rules come first.", kit.Note, 1, len(glanceWidths))
	page.BreakPage()
	page.Skip(1) // so that no frame lies on the border of the pages
	s.charts(page, first, last)
	s.Close(page)
}

// inASentence says what a board member asks first.
func (s *comparisonSheets) inASentence() string {
	old, new := s.All()
	moved, repriced := s.Counts()
	var names []string
	for _, fair := range s.Fairs {
		names = append(names, fair.Name)
	}
	text := fmt.Sprintf("Of %s of %s, %s elsewhere under %s than under %s, and %s another price.",
		phrase.Plural(old.Carcasses, "carcass", "carcasses"), strings.Join(names, ", "), phrase.Plural(moved, "stands", "stand"), s.NewName, s.OldName,
		phrase.Plural(repriced, "brings", "bring"))
	if change := new.Value.Sub(old.Value); !change.IsZero() {
		more := "more"
		if change.IsNegative() {
			more, change = "less", change.Neg()
		}
		text += fmt.Sprintf(" All of them together are worth %s %s.", kit.DollarWords(change), more)
	}
	return text
}

// sums writes the totals. The value is the sum of the classes on the sheet of carcasses.
func (s *comparisonSheets) sums(page *kit.Page) {
	old, new := s.All()
	page.Write(kit.Entry{Value: "All classes together", Style: kit.Style{Role: kit.Heading}}, kit.NumberHeading(s.OldName), kit.NumberHeading(s.NewName), kit.NumberHeading("Change"))
	row := func(words string, was, is any, format, change string, difference decimal.Decimal) {
		at := page.Row + 1
		page.Write(kit.Entry{Value: words, Style: kit.Style{Role: kit.Body, Wrap: true}}, kit.Entry{Value: was, Style: kit.Style{Role: kit.Body, Format: format}}, kit.Entry{Value: is, Style: kit.Style{Role: kit.Body, Format: format}},
			kit.Entry{Value: kit.Live{Formula: roundedDifference(at), Value: difference}, Style: kit.Style{Role: kit.Body, Format: change}})
	}
	money := func(words string, was, is decimal.Decimal) {
		row(words, was, is, moneyFormat, changeFormat, is.Sub(was))
	}
	count := func(words string, was, is int) {
		row(words, was, is, kit.NumberFormat(0), stepFormat, decimal.NewFromInt(int64(is-was)))
	}
	row("Value of all that have a price, $", kit.Live{Formula: s.sumOf(oldValueColumn), Value: old.Value}, kit.Live{Formula: s.sumOf(newValueColumn), Value: new.Value},
		moneyFormat, changeFormat, new.Value.Sub(old.Value))
	money("Premiums paid, $", old.Premiums, new.Premiums)
	money("Discounts taken, $", old.Discounts, new.Discounts)
	money("Highest price less lowest, $/cwt", old.PriceSpread(), new.PriceSpread())
	money("Highest value less lowest, $", old.ValueSpread(), new.ValueSpread())
	count("Carcasses with a price", old.Priced, new.Priced)
	count("Carcasses placed", old.Placed, new.Placed)
	count("Carcasses within the limits", old.Eligible, new.Eligible)
	count("Places shared", old.SharedPlaces, new.SharedPlaces)
	count("Carcasses in a shared place", old.InSharedPlace, new.InSharedPlace)
	page.Across("A value is rounded to the cent once for each carcass, and each premium and discount by itself: their sums may differ by cents.", kit.Note, 1, 4)
}

// sumOf adds up a column over the sums of the classes.
func (s *comparisonSheets) sumOf(column int) string {
	var cells []string
	for _, block := range s.blocks {
		cells = append(cells, comparedSheet+"!"+address.Cell(column, block.total))
	}
	if len(cells) == 0 {
		return "0"
	}
	return "ROUND(" + strings.Join(cells, "+") + ",2)"
}

// byClass writes a line a class and gives the first and last row, for the chart.
func (s *comparisonSheets) byClass(page *kit.Page) (first, last int) {
	page.Write(kit.Entry{Value: "By class", Style: kit.Style{Role: kit.Heading}},
		kit.NumberHeading("Value $ was"), kit.NumberHeading("Value $ is"), kit.NumberHeading("Change"),
		kit.NumberHeading("Carcasses"), kit.NumberHeading("Stand elsewhere"+gap), kit.Entry{Value: "First was", Style: kit.Style{Role: kit.Heading}}, kit.Entry{Value: "First is", Style: kit.Style{Role: kit.Heading}})
	first = page.Row + 1
	for _, block := range s.blocks {
		at := page.Row + 1
		from := func(column int) string {
			return comparedSheet + "!" + address.Cell(column, block.total)
		}
		was, is := block.class.Old.Value, block.class.New.Value
		page.Write(
			kit.Entry{Value: block.class.Name(), Style: kit.Style{Role: kit.Strong, Wrap: true}},
			kit.Entry{Value: kit.Live{Formula: from(oldValueColumn), Value: was}, Style: kit.Style{Role: kit.Body, Format: moneyFormat}},
			kit.Entry{Value: kit.Live{Formula: from(newValueColumn), Value: is}, Style: kit.Style{Role: kit.Body, Format: moneyFormat}},
			kit.Entry{Value: kit.Live{Formula: roundedDifference(at), Value: is.Sub(was)}, Style: kit.Style{Role: kit.Body, Format: changeFormat}},
			fair.CountOf(len(block.class.Rows), kit.Body), kit.Entry{Value: countMoved(block.class), Style: kit.Style{Role: kit.Body, Format: kit.NumberFormat(0) + `"  "`}},
			kit.Entry{Value: firstTags(block.class, false), Style: kit.Style{Role: kit.Body, Wrap: true}}, kit.Entry{Value: firstTags(block.class, true), Style: kit.Style{Role: kit.Body, Wrap: true}})
	}
	return first, page.Row
}

// roundedDifference is the new figure of a row less the old one.
func roundedDifference(row int) string {
	return "ROUND(" + address.Cell(3, row) + "-" + address.Cell(2, row) + ",2)"
}

func countMoved(class ComparedClass) (moved int) {
	for _, row := range class.Rows {
		if row.Moved() {
			moved++
		}
	}
	return moved
}

// firstTags names who stands first.
func firstTags(class ComparedClass, isNew bool) string {
	var tags []string
	for _, row := range class.Rows {
		if outcome := map[bool]whatif.Outcome{false: row.Old, true: row.New}[isNew]; outcome.Place == 1 {
			tags = append(tags, row.Tag)
		}
	}
	if len(tags) == 0 {
		return "nobody"
	}
	return strings.Join(tags, ", ")
}

// movers names those that stand elsewhere, the first of each class first.
func (s *comparisonSheets) movers(page *kit.Page) {
	page.Write(kit.Entry{Value: "Who moves", Style: kit.Style{Role: kit.Heading}}, centredHeading("Place was"), centredHeading("Place is"), kit.Entry{Value: "Why", Style: kit.Style{Role: kit.Heading}},
		kit.Entry{Value: "", Style: kit.Style{Role: kit.Heading}}, kit.Entry{Value: "", Style: kit.Style{Role: kit.Heading}}, kit.Entry{Value: "", Style: kit.Style{Role: kit.Heading}}, kit.Entry{Value: "", Style: kit.Style{Role: kit.Heading}})
	named, all := 0, 0
	for _, class := range s.Classes() {
		for _, row := range class.Rows {
			if !row.Moved() {
				continue
			}
			if all++; all > mostMovers {
				continue
			}
			named++
			s.mover(page, class, row)
		}
	}
	switch {
	case all == 0:
		page.Across("Nobody: every carcass stands where it stood.", kit.Body, 1, len(glanceWidths))
	case all > named:
		page.Across(fmt.Sprintf("And %d more: see the sheet %s.", all-named, comparedSheet), kit.Note, 1, len(glanceWidths))
	}
}

func (s *comparisonSheets) mover(page *kit.Page, class ComparedClass, row whatif.Compared) {
	const whyFrom = 4
	wide := 0.0
	for _, width := range glanceWidths[whyFrom-1:] {
		wide += width
	}
	why := phrase.Sentence(words.PlaceWhy(row))
	entries := []kit.Entry{
		{Value: row.Tag + ", " + class.Name(), Style: kit.Style{Role: kit.Strong, Wrap: true}},
		outcomePlace(row.Old, kit.Body), outcomePlace(row.New, kit.Body),
		{Value: why, Style: kit.Style{Role: kit.Body, Wrap: true, Across: true}},
	}
	for range glanceWidths[whyFrom:] {
		entries = append(entries, kit.Entry{Value: "", Style: kit.Style{Role: kit.Body}})
	}
	at := page.WriteHigh(page.HeightOf(why, wide, kit.Body), entries...)
	page.MergeAcross(at, whyFrom, len(glanceWidths))
}

// The fills and marks of the charts differ in darkness and shape, so that they read in black and white.
var (
	oldColour   = "C9C1B4"
	newColour   = "5A2A27"
	markSymbols = []string{"circle", "square", "triangle", "diamond", "x", "plus"}
	markColours = []string{"262626", "8C8478", "5A2A27", "1F4E79", "262626", "8C8478"}
)

// charts draws old against new value, by class and by carcass.
func (s *comparisonSheets) charts(page *kit.Page, first, last int) {
	if last < first {
		return
	}
	top := page.Row + 1
	bars := kit.NewChart(xlsx.ColumnChart, "Value by class, old and new rulebook", "Class", "Value, $")
	bars.Legend = "bottom"
	zero := 0.0
	bars.Up.Lowest = &zero // bars compare by their length
	for i, column := range []int{2, 3} {
		bars.Series = append(bars.Series, xlsx.Series{
			Name: kit.CellRange(glanceSheet, column, first-1, first-1), Across: kit.CellRange(glanceSheet, 1, first, last),
			Up: kit.CellRange(glanceSheet, column, first, last), Colour: []string{oldColour, newColour}[i],
		})
	}
	bars.Width, bars.Height = chartsWide, chartsHigh*reckonedRow
	page.Draw(address.Cell(1, top), bars)
	page.SkipHigh(chartsHigh+1, kit.ChartRowHeight)
	page.PrintTo(len(glanceWidths)) // what follows is for the chart alone
	s.scatter(page, top)
}

// scatter sets each carcass's new value against its old one. On the line nothing changed; above it the carcass brings
// more.
func (s *comparisonSheets) scatter(page *kit.Page, top int) {
	lowest, highest := s.ends()
	if lowest.Equal(highest) {
		return
	}
	chart := kit.NewChart(xlsx.DotChart, "Each carcass: on the line nothing changed, above it brings more", "Value under the old rulebook, $", "Value under the new rulebook, $")
	chart.Legend = "bottom"
	for i, block := range s.blocks {
		if block.class.Old.Priced == 0 || block.class.New.Priced == 0 {
			continue
		}
		chart.Series = append(chart.Series, xlsx.Series{
			Name:   kit.CellRange(comparedSheet, 1, block.band, block.band),
			Across: kit.CellRange(comparedSheet, oldValueColumn, block.first, block.total-1),
			Up:     kit.CellRange(comparedSheet, newValueColumn, block.first, block.total-1),
			Marker: markSymbols[i%len(markSymbols)], Colour: markColours[i%len(markColours)],
		})
	}
	page.Write(kit.Entry{Value: "The line of no change", Style: kit.Style{Role: kit.Note}}, kit.Entry{Value: lowest, Style: kit.Style{Role: kit.Note, Format: moneyFormat}}, kit.Entry{Value: highest, Style: kit.Style{Role: kit.Note, Format: moneyFormat}})
	at := page.Row
	row := address.Sheet(glanceSheet) + "!" + address.FixedSpan(2, at, 3, at)
	chart.Series = append(chart.Series, xlsx.Series{Name: kit.CellRange(glanceSheet, 1, at, at), Across: row, Up: row, Line: 1, Colour: kit.RuleColour})
	low, high := lowest.InexactFloat64(), highest.InexactFloat64()
	chart.Across.Lowest, chart.Across.Highest, chart.Up.Lowest, chart.Up.Highest = &low, &high, &low, &high
	chart.Width, chart.Height = chartsWide, chartsHigh*reckonedRow
	page.Draw(address.Cell(4, top), chart)
}

// ends frames all values in round hundreds.
func (s *comparisonSheets) ends() (lowest, highest decimal.Decimal) {
	old, new := s.All()
	if old.Priced == 0 || new.Priced == 0 {
		return decimal.Zero, decimal.Zero
	}
	step := decimal.NewFromInt(100)
	low := decimal.Min(old.LowestValue.Decimal, new.LowestValue.Decimal)
	high := decimal.Max(old.HighestValue.Decimal, new.HighestValue.Decimal)
	return low.Div(step).Floor().Mul(step), high.Div(step).Floor().Add(decimal.NewFromInt(1)).Mul(step)
}
