package fair

import (
	"cmp"
	"fmt"
	"slices"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/address"
	"railbook/rules/measure"
	"railbook/workbook/ahead"
	"railbook/workbook/result"
	"railbook/workbook/sheets/kit"
	"railbook/workbook/xlsx"

	"github.com/shopspring/decimal"
)

// The charts are drawn with fills and markers that differ in darkness and shape, so that they read in black and white.
const (
	barColour     = "6E6A63"
	paleBarColour = "C4BEB2"
)

// chartFigures gathers the columns that the charts are drawn from. They are written below everything that is printed,
// and the charts are added then, for only then is it known where their figures stand.
type chartFigures struct {
	columns []figuresColumn
	charts  []pendingChart
	counted func() counted // of the kind of carcass that is being summarised
}

// counted is what a sheet counts of a kind of carcass: each grade's carcasses, and those in bands of a figure.
type counted struct {
	grades  map[measure.ID][]tally
	banded  measure.ID
	inBands []tally // nil where nobody has such a figure
}

// count begins to count.
func (c *chartFigures) count(kind result.KindOfClass, overall group) {
	c.counted = ahead.Value(func() (made counted) {
		made.grades = make(map[measure.ID][]tally)
		for _, id := range append([]measure.ID{measure.QualityGrade, measure.WholeYieldGrade}, result.GradesOf(kind)...) {
			if _, known := made.grades[id]; !known {
				made.grades[id] = tallyOf(overall.all, id)
			}
		}
		for _, id := range []measure.ID{measure.CarcassValue, overall.firstKey} {
			if made.inBands == nil {
				made.banded, made.inBands = id, bandsOf(overall.all, id)
			}
		}
		return made
	})
}

// figuresColumn is one column of figures under its heading.
type figuresColumn struct {
	heading string
	values  []any
}

// pendingChart is a chart whose figures have no place yet: across and up are columns of chartFigures, and the columns
// after up are those of its further series.
type pendingChart struct {
	chart      xlsx.Chart
	anchor     string
	across, up int
}

// add gives the column's place in the list.
func (c *chartFigures) add(heading string, values []any) int {
	c.columns = append(c.columns, figuresColumn{heading, values})
	return len(c.columns) - 1
}

// tally counts carcasses by the words of a figure, the best first.
type tally struct {
	words  string
	rank   decimal.Decimal
	count  int
	across map[string]int
}

// quality writes the table of quality against yield grade where the carcasses have both.
func (c *chartFigures) quality(page *kit.Page) {
	rows, columns := c.counted().grades[measure.QualityGrade], slices.Clone(c.counted().grades[measure.WholeYieldGrade])
	if len(rows) == 0 || len(columns) == 0 {
		return
	}
	slices.Reverse(columns)
	page.Skip(1)
	headings := []kit.Entry{{Value: "Quality by yield grade", Style: kit.Style{Role: kit.Heading, Wrap: true}}}
	for _, column := range columns {
		headings = append(headings, kit.NumberHeading("Yield grade "+column.words))
	}
	page.Write(append(headings, kit.NumberHeading("No yield grade"), kit.NumberHeading("All"))...)
	sums := make(map[string]int)
	for _, row := range rows {
		c.qualityRow(page, row, columns, sums)
	}
	last := []kit.Entry{{Value: "All", Style: kit.Style{Role: kit.Total}}}
	for _, column := range append(columns, tally{}) {
		last = append(last, CountOf(sums[column.words], kit.Total))
	}
	page.Write(append(last, CountOf(sums["all"], kit.Total))...)
}

func (c *chartFigures) qualityRow(page *kit.Page, row tally, columns []tally, sums map[string]int) {
	cells := []kit.Entry{{Value: row.words, Style: kit.Style{Role: kit.Body}}}
	for _, column := range append(slices.Clone(columns), tally{}) {
		count := row.across[column.words]
		sums[column.words] += count
		cells = append(cells, countEntry(count))
	}
	sums["all"] += row.count
	page.Write(append(cells, CountOf(row.count, kit.Strong))...)
}

func countEntry(count int) kit.Entry {
	if count == 0 {
		return kit.Entry{Value: "· ", Style: kit.Style{Role: kit.Body, Align: "right"}}
	}
	return CountOf(count, kit.Body)
}

// tallyOf counts the carcasses by a figure, highest first, and within each by whole yield grade.
func tallyOf(all []*grading.Graded, id measure.ID) []tally {
	at := make(map[string]int)
	var tallies []tally
	for _, graded := range all {
		value, ok := graded.Figure(id)
		if !ok {
			continue
		}
		words := kit.FigureText(graded, id)
		i, known := at[words]
		if !known {
			i = len(tallies)
			at[words] = i
			tallies = append(tallies, tally{words: words, rank: value.Number, across: make(map[string]int)})
		}
		tallies[i].count++
		tallies[i].across[kit.FigureText(graded, measure.WholeYieldGrade)]++
	}
	slices.SortFunc(tallies, func(a, b tally) int { return cmp.Or(b.rank.Cmp(a.rank), cmp.Compare(a.words, b.words)) })
	return tallies
}

// place draws the charts of a kind of carcass, two side by side.
func (c *chartFigures) place(page *kit.Page, kind result.KindOfClass, groups []group, lastYear lastYearFigures, pairs []scanned) {
	before := len(c.charts)
	c.draw(kind, groups, lastYear)
	c.scans(kind, pairs)
	charts := c.charts[before:]
	if len(charts) == 0 {
		page.Across("There is nothing to draw: no carcass has a grade, a value or two measures to set against each other.", kit.Note, 1, summaryColumns)
		return
	}
	for pair := range slices.Chunk(charts, 2) {
		page.KeepTogether(kit.ChartRows + 1)
		page.Skip(1) // a frame at the very edge of a page would be drawn on both
		for i := range pair {
			pair[i].anchor = address.Cell(1+5*i, page.Row+1)
		}
		page.SkipHigh(kit.ChartRows, kit.ChartRowHeight)
	}
}

// draw prepares the charts of a kind of carcass.
func (c *chartFigures) draw(kind result.KindOfClass, groups []group, lastYear lastYearFigures) {
	for _, id := range result.GradesOf(kind) {
		tallies, before := c.counted().grades[id], lastYear.grades(id)
		switch {
		case len(tallies) > 0 && len(before) > 0:
			c.twoYears(kind, id, everyShare(scaleOf(kind.Species, id), sharesOf(tallies, before)))
		case len(tallies) > 0:
			c.bars(kind, id, everyTally(scaleOf(kind.Species, id), tallies))
		}
	}
	c.scatter(kind, groups)
	if bands := c.counted().inBands; bands != nil {
		c.bars(kind, c.counted().banded, bands)
	}
}

func (c *chartFigures) bars(kind result.KindOfClass, id measure.ID, tallies []tally) {
	words, counts, most := make([]any, len(tallies)), make([]any, len(tallies)), 0
	for i, tally := range tallies {
		words[i], counts[i] = tally.words, tally.count
		most = max(most, tally.count)
	}
	heading := result.HeadingOf(id) + ", " + kind.Words()
	chart := kit.NewChart(xlsx.ColumnChart, heading, result.HeadingOf(id), "Carcasses")
	if most <= 10 {
		chart.Up.Step = 1 // there is no half carcass
	}
	chart.Series, chart.ShowValues = []xlsx.Series{{Colour: barColour}}, true
	c.charts = append(c.charts, pendingChart{chart: chart, across: c.add(heading, words), up: c.add("Carcasses", counts)})
}

// mostGrades is how many grades a scale may have for all of them to be drawn; of a longer one those from the lowest to the
// highest that there is.
const mostGrades = 6

// scaleOf gives the words of every grade that a measure can be, in the order of an axis: from the worst grade to the best, from
// the first whole yield grade to the fifth.
func scaleOf(species rules.Species, id measure.ID) []string {
	if id == measure.WholeYieldGrade {
		return []string{"1", "2", "3", "4", "5"}
	}
	scale := slices.Clone(rules.GradeWords(species))
	slices.Reverse(scale)
	return scale
}

// stretchOf gives the part of a scale that is drawn where some of its grades were found; nil where one is not of the scale.
func stretchOf(scale, found []string) []string {
	low, high := len(scale), -1
	for _, words := range found {
		at := slices.Index(scale, words)
		if at < 0 {
			return nil
		}
		low, high = min(low, at), max(high, at)
	}
	if len(scale) <= mostGrades || high < 0 {
		return scale
	}
	return scale[low : high+1]
}

// everyTally puts counts, which come highest first, in the order of the scale, with a zero for a grade that nobody had.
func everyTally(scale []string, tallies []tally) (every []tally) {
	found := make([]string, len(tallies))
	for i, tally := range tallies {
		found[i] = tally.words
	}
	for _, words := range stretchOf(scale, found) {
		row := tally{words: words}
		if at := slices.Index(found, words); at >= 0 {
			row = tallies[at]
		}
		every = append(every, row)
	}
	if every == nil {
		every = slices.Clone(tallies)
		slices.Reverse(every)
	}
	return every
}

// everyShare does the same with the shares of two years.
func everyShare(scale []string, shares []share) (every []share) {
	found := make([]string, len(shares))
	for i, share := range shares {
		found[i] = share.words
	}
	for _, words := range stretchOf(scale, found) {
		part := share{words: words}
		if at := slices.Index(found, words); at >= 0 {
			part = shares[at]
		}
		every = append(every, part)
	}
	if every == nil {
		every = slices.Clone(shares)
		slices.Reverse(every)
	}
	return every
}

// twoYears draws the share of each grade this year in dark bars beside last year's in light ones.
func (c *chartFigures) twoYears(kind result.KindOfClass, id measure.ID, shares []share) {
	words, now, then := make([]any, len(shares)), make([]any, len(shares)), make([]any, len(shares))
	for i, share := range shares {
		words[i], now[i], then[i] = share.words, share.now.Round(1), share.then.Round(1)
	}
	heading := result.HeadingOf(id) + ", " + kind.Words()
	chart := kit.NewChart(xlsx.ColumnChart, heading, result.HeadingOf(id), "Share of carcasses, %")
	chart.Legend = "top"
	chart.Series = []xlsx.Series{{Colour: barColour}, {Colour: paleBarColour}}
	across := c.add(heading, words)
	c.charts = append(c.charts, pendingChart{chart: chart, across: across, up: c.add("This year, %", now)})
	c.add("Last year, %", then)
}

// Write writes the figures below the tables and adds the charts that are drawn from them.
func (c *chartFigures) Write(page *kit.Page) {
	if len(c.columns) == 0 {
		return
	}
	page.Skip(2)
	page.Write(kit.Entry{Value: "Figures behind the charts", Style: kit.Style{Role: kit.Subtitle}})
	headings, longest := make([]string, len(c.columns)), 0
	for i, column := range c.columns {
		headings[i], longest = column.heading, max(longest, len(column.values))
	}
	top := page.Headings(headings...)
	for i := range longest {
		row := make([]kit.Entry, len(c.columns))
		for j, column := range c.columns {
			if i < len(column.values) && column.values[i] != nil { // a scatter leaves many blank, which need no cell
				row[j] = kit.Entry{Value: column.values[i], Style: kit.Style{Role: kit.Body, Wrap: true}}
			}
		}
		page.Write(row...)
	}
	for _, pending := range c.charts {
		c.addChart(page, pending, top)
	}
}

func (c *chartFigures) addChart(page *kit.Page, pending pendingChart, top int) {
	last := top + len(c.columns[pending.up].values)
	for i := range pending.chart.Series {
		series := &pending.chart.Series[i]
		series.Name = kit.CellRange(page.Name, pending.up+i+1, top, top)
		series.Across = kit.CellRange(page.Name, pending.across+1, top+1, last)
		series.Up = kit.CellRange(page.Name, pending.up+i+1, top+1, last)
	}
	page.Draw(pending.anchor, pending.chart)
}

// withUnit names a measure on an axis.
func withUnit(id measure.ID) string {
	definition, _ := measure.Define(id)
	return definition.Heading + ", " + definition.Unit
}

// measureIn finds a measure in a unit that some carcass has: the favoured one, else one that the class is ranked by, else
// any of the species.
func measureIn(overall group, unit string, favoured measure.ID) measure.ID {
	candidates := append([]measure.ID{favoured}, overall.keys...)
	for _, definition := range measure.Standard().Definitions() {
		if definition.For(string(overall.kind.Species)) {
			candidates = append(candidates, definition.ID)
		}
	}
	for _, id := range candidates {
		definition, _ := measure.Define(id)
		if definition.Unit != unit || definition.Kind != measure.KindNumber {
			continue
		}
		for _, graded := range overall.all {
			if _, ok := graded.Figure(id); ok {
				return id
			}
		}
	}
	return measure.None
}

// bandsOf counts the carcasses in about ten bands of a figure at most, of a round width.
func bandsOf(all []*grading.Graded, id measure.ID) []tally {
	definition, _ := measure.Define(id)
	if definition.Kind != measure.KindNumber {
		return nil
	}
	var values []decimal.Decimal
	for _, graded := range all {
		if value, ok := graded.Figure(id); ok {
			values = append(values, value.Number)
		}
	}
	if len(values) == 0 {
		return nil
	}
	lowest, highest := decimal.Min(values[0], values...), decimal.Max(values[0], values...)
	width := bandWidth(highest.Sub(lowest))
	from := lowest.Div(width).Floor().Mul(width)
	var bands []tally
	for ; from.LessThanOrEqual(highest); from = from.Add(width) {
		words := fmt.Sprintf("%s–%s", from, from.Add(width))
		if definition.Unit == "$" {
			words = "$" + words
		}
		bands = append(bands, tally{words: words, rank: from})
	}
	for _, value := range values {
		bands[value.Sub(bands[0].rank).Div(width).IntPart()].count++
	}
	return bands
}

// bandWidth is the first of .01, .02, .05, .1, .2, … that needs no more than about ten bands.
func bandWidth(span decimal.Decimal) decimal.Decimal {
	width := decimal.New(1, -2)
	for i := 0; width.Mul(decimal.NewFromInt(10)).LessThan(span); i++ {
		width = width.Mul([]decimal.Decimal{decimal.New(2, 0), decimal.New(25, -1), decimal.New(2, 0)}[i%3])
	}
	return width
}
