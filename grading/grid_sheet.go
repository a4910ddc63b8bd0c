package grading

import (
	"slices"

	"railbook/rules"
	"railbook/rules/address"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// The ranges of the Value grid sheet that formulas ask for, after the species' name.
const (
	gridBase         = " base price"
	gridGrades       = " grades and the lines they are paid by"
	gridQuality      = " quality lines"
	gridYieldFrom    = " yield lines from"
	gridYieldAdjust  = " yield lines adjustment"
	gridWeightFrom   = " weight lines from"
	gridWeightAdjust = " weight lines adjustment"
	gridConditions   = " condition lines"

	adjustColumn = "5" // the adjustment, counted from the column of the line's name
)

// LayOutGrid lays the rulebook's grid out for the Value grid sheet: for each species the base price and the lines of each
// part, then the tables that formulas read to find a line.
func LayOutGrid(book *rules.Rulebook, species []rules.Species) GridSheet {
	layout := gridLayout{book: book, sheet: GridSheet{Ranges: make(map[string]string)}}
	layout.row(GridCell{Text: "Value grid", Style: "title"})
	layout.row(GridCell{Text: "The prices here are for teaching and are no offer. The board may change the shaded figures: the prices in this " +
		"workbook follow at once. Grades and placings do not: grade the workbook again.", Style: "note"})
	for _, kind := range species {
		if method := methodFor(kind, rules.OnTheRail); method != nil {
			layout.prices(kind, method.grid)
		}
	}
	layout.sheet.Lookups = len(layout.sheet.Rows)
	for _, kind := range species {
		method := methodFor(kind, rules.OnTheRail)
		if method == nil {
			continue
		}
		if method.grid.grades != nil && layout.sheet.Ranges[string(kind)+gridQuality] != "" {
			layout.paidBy(kind, method.grid.grades())
		}
		if method.chart != nil {
			layout.gradeChart(method.chart)
		}
	}
	return layout.sheet
}

type gridLayout struct {
	book  *rules.Rulebook
	sheet GridSheet
}

func (l *gridLayout) row(cells ...GridCell) { l.sheet.Rows = append(l.sheet.Rows, cells) }

func (l *gridLayout) headings(texts ...string) {
	cells := make([]GridCell, len(texts))
	for at, text := range texts {
		if text != "" {
			cells[at] = GridCell{Text: text, Style: "heading"}
		}
	}
	l.row(cells...)
}

// next is the number of the row that comes next.
func (l *gridLayout) next() int { return len(l.sheet.Rows) + 1 }

// name names the range from a row to the last one laid out.
func (l *gridLayout) name(name string, firstColumn, lastColumn, firstRow int) {
	if last := len(l.sheet.Rows); last >= firstRow {
		l.sheet.Ranges[name] = address.FixedSpan(firstColumn, firstRow, lastColumn, last)
	}
}

func wordsCell(text string) GridCell { return GridCell{Text: text, Style: "text"} }

func numberCell(number decimal.Decimal) GridCell {
	return GridCell{Text: number.String(), Number: true, Style: "number"}
}

func inputCell(number decimal.Decimal) GridCell {
	return GridCell{Text: number.String(), Number: true, Style: "input"}
}

func boundCell(bound decimal.NullDecimal) GridCell {
	if !bound.Valid {
		return GridCell{}
	}
	return numberCell(bound.Decimal)
}

// prices lays out the base price and the lines of one species. Columns: part, line, from, up to, reads from, adjustment,
// source.
func (l *gridLayout) prices(species rules.Species, grid pricing) {
	l.row()
	l.headings(speciesTitle(species)+", $/cwt of carcass", "", "", "", "", "", "")
	settings := &l.book.Settings
	base := wordsCell("none set")
	if price := settings.BasePrice[species]; price.Valid {
		base = inputCell(price.Decimal)
		l.sheet.Ranges[string(species)+gridBase] = address.Fixed(6, l.next())
	}
	source := settings.BasePriceSource[species]
	if date := settings.BasePriceDate[species]; date != "" {
		source = join(source, date)
	}
	l.row(wordsCell("base"), wordsCell("base price"), GridCell{}, GridCell{}, GridCell{}, base, wordsCell(source))
	l.headings("Part", "Line", "From", "Up to", "Reads from", "Adjustment", "Source")
	first := l.next()
	l.named(species, rules.QualityPart, gridQuality)
	l.bands(species, rules.YieldPart, grid.yieldWords, gridYieldFrom, gridYieldAdjust)
	l.bands(species, rules.WeightPart, "", gridWeightFrom, gridWeightAdjust)
	l.named(species, rules.ConditionPart, gridConditions)
	l.beside(species)
	if l.next() == first {
		l.row(wordsCell(""), wordsCell("no published grid: set your own in the rulebook"))
	}
}

// named lays out the lines that go by a name.
func (l *gridLayout) named(species rules.Species, part rules.Part, name string) {
	first := l.next()
	for _, line := range l.book.Grid {
		if line.Species == species && line.Part == part {
			l.row(wordsCell(string(part)), wordsCell(line.Name), GridCell{}, GridCell{}, GridCell{}, l.adjustment(&line, "input"), wordsCell(sourceOf(&line)))
		}
	}
	l.name(string(species)+name, 2, 6, first)
}

// smallest is the smallest step between two figures: they have 6 decimals. A band that begins just above a number
// begins this much above it, so that a lookup among beginnings finds it.
var smallest = Exact("0.000001")

// belowAll is where a band without a lower end begins for a lookup.
var belowAll = Exact("-1000000")

// begin is the first figure that a band holds.
func begin(band rules.Band) decimal.Decimal {
	switch {
	case !band.From.Valid:
		return belowAll
	case band.FromIsIn:
		return band.From.Decimal
	}
	return band.From.Decimal.Add(smallest)
}

// end is the first figure above a band; ok is false for a band without an upper end.
func end(band rules.Band) (end decimal.Decimal, ok bool) {
	if band.UpToIsIn {
		return band.UpTo.Decimal.Add(smallest), band.UpTo.Valid
	}
	return band.UpTo.Decimal, band.UpTo.Valid
}

// bands lays out the lines that go by a band, in order, with a line of no price for every stretch between or above them.
func (l *gridLayout) bands(species rules.Species, part rules.Part, of, from, adjust string) {
	var lines []rules.GridLine
	for _, line := range l.book.Grid {
		if line.Species == species && line.Part == part {
			lines = append(lines, line)
		}
	}
	decimals, unit := int32(1), ""
	if part == rules.WeightPart {
		decimals, unit = 0, "lb"
	}
	slices.SortStableFunc(lines, func(a, b rules.GridLine) int { return begin(a.Band).Cmp(begin(b.Band)) })
	first := l.next()
	for at, line := range lines {
		l.row(wordsCell(string(part)), wordsCell(bandTitle(of, BandWords(line.Band, decimals, unit))), boundCell(line.Band.From), boundCell(line.Band.UpTo),
			numberCell(begin(line.Band)), l.adjustment(&line, "input"), wordsCell(sourceOf(&line)))
		above, ok := end(line.Band)
		if ok && (at == len(lines)-1 || begin(lines[at+1].Band).GreaterThan(above)) {
			l.row(wordsCell(string(part)), wordsCell("no line"), GridCell{}, GridCell{}, numberCell(above), wordsCell("no price"), GridCell{})
		}
	}
	l.name(string(species)+from, 5, 5, first)
	l.name(string(species)+adjust, 6, 6, first)
}

func bandTitle(of, band string) string {
	if of == "" {
		return band
	}
	return of + " " + band
}

// paidBy lays out which line each grade is paid by.
func (l *gridLayout) paidBy(species rules.Species, grades []string) {
	l.row()
	l.headings(speciesTitle(species)+" grades and the line each is paid by", "", "")
	l.headings("", "Grade", "Paid as")
	first := l.next()
	for _, grade := range grades {
		paid := "no line"
		if line := qualityLineOf(l.book, species, grade); line != nil {
			paid = line.Name
		}
		l.row(GridCell{}, wordsCell(grade), wordsCell(paid))
	}
	l.name(string(species)+gridGrades, 2, 3, first)
}

// gradeChart lays out a grade chart: a line per group and grade, the grade as it is and as the judge may lower it, and the
// least score for it at 00 and at 100 of the group.
func (l *gridLayout) gradeChart(chart *gradeChart) {
	l.row()
	headings := []string{chart.group, "Group", chart.grade}
	for _, lowering := range lowerings[1:len(chart.lines[0].grades)] {
		headings = append(headings, lowering.heading)
	}
	if chart.slides() {
		headings = append(headings, "At 00", "At 100", "Rises by")
	} else {
		headings = append(headings, "From")
	}
	l.headings(append([]string{chart.title}, make([]string, len(headings)-1)...)...)
	l.headings(headings...)
	first := l.next()
	for _, line := range chart.lines {
		cells := []GridCell{wordsCell(line.words), numberCell(decimal.NewFromInt(line.group))}
		for _, grade := range line.grades {
			cells = append(cells, gradeCell(grade))
		}
		cells = append(cells, numberCell(line.at00))
		if chart.slides() {
			cells = append(cells, numberCell(line.at00.Add(line.slide)), numberCell(line.slide))
		}
		l.row(cells...)
	}
	column := func(after int) int { return 3 + len(chart.lines[0].grades) - 1 + after }
	l.name(chart.name+chartGroups, 2, 2, first)
	l.name(chart.name+chartGrades, 3, column(0), first)
	l.name(chart.name+chartAt00, column(1), column(1), first)
	if chart.slides() {
		l.name(chart.name+chartSlide, column(3), column(3), first)
	}
}

// gradeCell is a grade in words, or a score as a number.
func gradeCell(grade measure.Value) GridCell {
	if grade.Text == grade.Number.String() {
		return numberCell(grade.Number)
	}
	return wordsCell(grade.Text)
}

func speciesTitle(species rules.Species) string {
	text := string(species)
	return string(text[0]-'a'+'A') + text[1:]
}
