package writing

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"
	"github.com/xuri/excelize/v2"

	"railbook/grading"
)

var glanceWidths = []float64{30, 15, 15, 14, 13, 13, 14, 14}

// mostMovers is how many of those that move are named on the first sheet.
const mostMovers = 12

// writeGlance writes the first sheet: what changes in a sentence, in sums, by class, who moves, and the charts.
func (s *comparisonSheets) writeGlance() {
	page := s.glance
	page.across(s.inASentence(), body, 1, len(glanceWidths))
	page.skip(1)
	s.sums(page)
	page.skip(1)
	first, last := s.byClass(page)
	page.skip(1)
	s.movers(page)
	page.skip(1)
	page.across("Placed by the rulebooks alone: what a judge ruled at the fair is left out. Grades are computed estimates and prices are for teaching; the inspector, the official grader, the judge and the fair's own rules come first.", note, 1, len(glanceWidths))
	page.breakPage()
	page.skip(1) // so that no frame lies on the border of the pages
	s.charts(page, first, last)
	s.close(page)
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
		plural(old.Carcasses, "carcass", "carcasses"), strings.Join(names, ", "), plural(moved, "stands", "stand"), s.NewName, s.OldName,
		plural(repriced, "brings", "bring"))
	if change := new.Value.Sub(old.Value); !change.IsZero() {
		more := "more"
		if change.IsNegative() {
			more, change = "less", change.Neg()
		}
		text += fmt.Sprintf(" All of them together are worth %s %s.", dollarWords(change), more)
	}
	return text
}

// sums writes the totals. The value is the sum of the classes on the sheet of carcasses.
func (s *comparisonSheets) sums(page *page) {
	old, new := s.All()
	page.write(entry{"All classes together", style{Role: heading}}, numberHeading(s.OldName), numberHeading(s.NewName), numberHeading("Change"))
	row := func(words string, was, is any, format, change string, difference decimal.Decimal) {
		at := page.row + 1
		page.write(entry{words, style{Role: body, Wrap: true}}, entry{was, style{Role: body, Format: format}}, entry{is, style{Role: body, Format: format}},
			entry{live{fmt.Sprintf("ROUND(C%d-B%d,2)", at, at), difference}, style{Role: body, Format: change}})
	}
	money := func(words string, was, is decimal.Decimal) {
		row(words, was, is, moneyFormat, changeFormat, is.Sub(was))
	}
	count := func(words string, was, is int) {
		row(words, was, is, numberFormat(0), stepFormat, decimal.NewFromInt(int64(is-was)))
	}
	row("Value of all that have a price, $", live{s.sumOf(oldValueColumn), old.Value}, live{s.sumOf(newValueColumn), new.Value},
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
	page.across("A value is rounded to the cent once for each carcass, and each premium and discount by itself: their sums may differ by cents.", note, 1, 4)
}

// sumOf adds up a column over the sums of the classes.
func (s *comparisonSheets) sumOf(column int) string {
	var cells []string
	for _, block := range s.blocks {
		cells = append(cells, fmt.Sprintf("%s!%s%d", comparedSheet, columnName(column), block.total))
	}
	if len(cells) == 0 {
		return "0"
	}
	return "ROUND(" + strings.Join(cells, "+") + ",2)"
}

// byClass writes a line a class and gives the first and last row, for the chart.
func (s *comparisonSheets) byClass(page *page) (first, last int) {
	page.write(entry{"By class", style{Role: heading}},
		numberHeading("Value $ was"), numberHeading("Value $ is"), numberHeading("Change"),
		numberHeading("Carcasses"), numberHeading("Stand elsewhere"+gap), entry{"First was", style{Role: heading}}, entry{"First is", style{Role: heading}})
	first = page.row + 1
	for _, block := range s.blocks {
		at := page.row + 1
		from := func(column int) string { return fmt.Sprintf("%s!%s%d", comparedSheet, columnName(column), block.total) }
		was, is := block.class.Old.Value, block.class.New.Value
		page.write(
			entry{block.class.name(), style{Role: strong, Wrap: true}},
			entry{live{from(oldValueColumn), was}, style{Role: body, Format: moneyFormat}},
			entry{live{from(newValueColumn), is}, style{Role: body, Format: moneyFormat}},
			entry{live{fmt.Sprintf("ROUND(C%d-B%d,2)", at, at), is.Sub(was)}, style{Role: body, Format: changeFormat}},
			countOf(len(block.class.Rows), body), entry{countMoved(block.class), style{Role: body, Format: numberFormat(0) + `"  "`}},
			entry{firstTags(block.class, false), style{Role: body, Wrap: true}}, entry{firstTags(block.class, true), style{Role: body, Wrap: true}})
	}
	return first, page.row
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
		if outcome := map[bool]grading.Outcome{false: row.Old, true: row.New}[isNew]; outcome.Place == 1 {
			tags = append(tags, row.Tag)
		}
	}
	if len(tags) == 0 {
		return "nobody"
	}
	return strings.Join(tags, ", ")
}

// movers names those that stand elsewhere, the first of each class first.
func (s *comparisonSheets) movers(page *page) {
	page.write(entry{"Who moves", style{Role: heading}}, centredHeading("Place was"), centredHeading("Place is"), entry{"Why", style{Role: heading}},
		entry{"", style{Role: heading}}, entry{"", style{Role: heading}}, entry{"", style{Role: heading}}, entry{"", style{Role: heading}})
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
		page.across("Nobody: every carcass stands where it stood.", body, 1, len(glanceWidths))
	case all > named:
		page.across(fmt.Sprintf("And %d more: see the sheet %s.", all-named, comparedSheet), note, 1, len(glanceWidths))
	}
}

func (s *comparisonSheets) mover(page *page, class ComparedClass, row grading.Compared) {
	const whyFrom = 4
	wide := 0.0
	for _, width := range glanceWidths[whyFrom-1:] {
		wide += width
	}
	why := sentence(row.PlaceWhy)
	entries := []entry{
		{row.Tag + ", " + class.name(), style{Role: strong, Wrap: true}},
		outcomePlace(row.Old, body), outcomePlace(row.New, body),
		{why, style{Role: body, Wrap: true, Across: true}},
	}
	for range glanceWidths[whyFrom:] {
		entries = append(entries, entry{"", style{Role: body}})
	}
	at := page.writeHigh(heightOf(why, wide, body), entries...)
	page.mergeAcross(at, whyFrom, len(glanceWidths))
}

// The fills and marks of the charts differ in darkness and shape, so that they read in black and white.
var (
	oldColour   = "C9C1B4"
	newColour   = "5A2A27"
	markSymbols = []string{"circle", "square", "triangle", "diamond", "x", "plus"}
	markColours = []string{"262626", "8C8478", "5A2A27", "1F4E79", "262626", "8C8478"}
)

// charts draws old against new value, by class and by carcass.
func (s *comparisonSheets) charts(page *page, first, last int) {
	if last < first {
		return
	}
	top := page.row + 1
	bars := newChart(excelize.Col, "Value by class, old and new rulebook", "Class", "Value, $")
	bars.Legend.Position = "bottom"
	zero := 0.0
	bars.YAxis.Minimum = &zero // bars compare by their length
	for i, column := range []int{2, 3} {
		bars.Series = append(bars.Series, excelize.ChartSeries{
			Name: cellRange(glanceSheet, column, first-1, first-1), Categories: cellRange(glanceSheet, 1, first, last),
			Values: cellRange(glanceSheet, column, first, last),
			Fill:   excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{[]string{oldColour, newColour}[i]}},
		})
	}
	page.do(func() error { return page.file.AddChart(page.Name, fmt.Sprintf("A%d", top), bars) })
	page.skipHigh(chartRows+1, chartRowHeight)
	s.scatter(page, top)
}

// scatter sets each carcass's new value against its old one. On the line nothing changed; above it the carcass brings
// more.
func (s *comparisonSheets) scatter(page *page, top int) {
	lowest, highest := s.ends()
	if lowest.Equal(highest) {
		return
	}
	chart := newChart(excelize.Scatter, "Each carcass: on the line nothing changed, above it brings more", "Value under the old rulebook, $", "Value under the new rulebook, $")
	chart.Legend.Position = "bottom"
	for i, block := range s.blocks {
		if block.class.Old.Priced == 0 || block.class.New.Priced == 0 {
			continue
		}
		chart.Series = append(chart.Series, excelize.ChartSeries{
			Name:       cellRange(comparedSheet, 1, block.band, block.band),
			Categories: cellRange(comparedSheet, oldValueColumn, block.first, block.total-1),
			Values:     cellRange(comparedSheet, newValueColumn, block.first, block.total-1),
			Line:       excelize.LineOptions{Type: excelize.LineNone},
			Marker: excelize.ChartMarker{
				Symbol: markSymbols[i%len(markSymbols)], Size: 6,
				Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{markColours[i%len(markColours)]}},
			},
		})
	}
	page.write(entry{"The line of no change, for the chart", style{Role: note}}, entry{lowest, style{Role: note, Format: moneyFormat}}, entry{highest, style{Role: note, Format: moneyFormat}})
	at := page.row
	row := fmt.Sprintf("%s!$B$%d:$C$%d", quoteSheet(glanceSheet), at, at)
	chart.Series = append(chart.Series, excelize.ChartSeries{
		Name: cellRange(glanceSheet, 1, at, at), Categories: row, Values: row,
		Fill:   excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{ruleColour}},
		Line:   excelize.LineOptions{Type: excelize.LineSolid, Width: 1, Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{ruleColour}}},
		Marker: excelize.ChartMarker{Symbol: "none"},
	})
	low, high := lowest.InexactFloat64(), highest.InexactFloat64()
	chart.XAxis.Minimum, chart.XAxis.Maximum, chart.YAxis.Minimum, chart.YAxis.Maximum = &low, &high, &low, &high
	page.do(func() error { return page.file.AddChart(page.Name, fmt.Sprintf("E%d", top), chart) })
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
