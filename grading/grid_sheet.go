package grading

import (
	"cmp"
	"fmt"
	"slices"

	"railbook/rules"
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
	for _, one := range species {
		if plan := planFor(one, rules.OnTheRail); plan != nil {
			layout.prices(one, plan.grid)
		}
	}
	for _, one := range species {
		plan := planFor(one, rules.OnTheRail)
		if plan == nil {
			continue
		}
		if plan.grid.grades != nil && layout.sheet.Ranges[string(one)+gridQuality] != "" {
			layout.paidBy(one, plan.grid.grades())
		}
		if plan.gradeTable != nil {
			plan.gradeTable(&layout)
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
func (l *gridLayout) name(name, firstColumn, lastColumn string, firstRow int) {
	if last := len(l.sheet.Rows); last >= firstRow {
		l.sheet.Ranges[name] = fmt.Sprintf("$%s$%d:$%s$%d", firstColumn, firstRow, lastColumn, last)
	}
}

func words(text string) GridCell { return GridCell{Text: text, Style: "text"} }

func number(number decimal.Decimal) GridCell {
	return GridCell{Text: number.String(), Number: true, Style: "number"}
}

func input(number decimal.Decimal) GridCell {
	return GridCell{Text: number.String(), Number: true, Style: "input"}
}

func boundCell(bound decimal.NullDecimal) GridCell {
	if !bound.Valid {
		return GridCell{}
	}
	return number(bound.Decimal)
}

// prices lays out the base price and the lines of one species. Columns: part, line, from, up to, reads from, adjustment,
// source.
func (l *gridLayout) prices(species rules.Species, grid pricing) {
	l.row()
	l.headings(speciesTitle(species)+", $/cwt of carcass", "", "", "", "", "", "")
	settings := &l.book.Settings
	base := words("none set")
	if price := settings.BasePrice[species]; price.Valid {
		base = input(price.Decimal)
		l.sheet.Ranges[string(species)+gridBase] = fmt.Sprintf("$F$%d", l.next())
	}
	source := settings.BasePriceSource[species]
	if date := settings.BasePriceDate[species]; date != "" {
		source = join(source, date)
	}
	l.row(words("base"), words("base price"), GridCell{}, GridCell{}, GridCell{}, base, words(source))
	l.headings("Part", "Line", "From", "Up to", "Reads from", "Adjustment", "Source")
	first := l.next()
	l.named(species, rules.QualityPart, gridQuality)
	l.bands(species, rules.YieldPart, grid.yieldWords, gridYieldFrom, gridYieldAdjust)
	l.bands(species, rules.WeightPart, "", gridWeightFrom, gridWeightAdjust)
	l.named(species, rules.ConditionPart, gridConditions)
	if l.next() == first {
		l.row(words(""), words("no published grid: set your own in the rulebook"))
	}
}

// named lays out the lines that go by a name.
func (l *gridLayout) named(species rules.Species, part rules.Part, name string) {
	first := l.next()
	for _, line := range l.book.Grid {
		if line.Species == species && line.Part == part {
			l.row(words(string(part)), words(line.Name), GridCell{}, GridCell{}, GridCell{}, input(line.Adjust), words(line.Source))
		}
	}
	l.name(string(species)+name, "B", "F", first)
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
	slices.SortStableFunc(lines, func(one, other rules.GridLine) int { return begin(one.Band).Cmp(begin(other.Band)) })
	first := l.next()
	for at, line := range lines {
		l.row(words(string(part)), words(bandTitle(of, BandWords(line.Band, decimals, unit))), boundCell(line.Band.From), boundCell(line.Band.UpTo),
			number(begin(line.Band)), input(line.Adjust), words(line.Source))
		above, ok := end(line.Band)
		if ok && (at == len(lines)-1 || begin(lines[at+1].Band).GreaterThan(above)) {
			l.row(words(string(part)), words("no line"), GridCell{}, GridCell{}, number(above), words("no price"), GridCell{})
		}
	}
	l.name(string(species)+from, "E", "E", first)
	l.name(string(species)+adjust, "F", "F", first)
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
		l.row(GridCell{}, words(grade), words(paid))
	}
	l.name(string(species)+gridGrades, "B", "C", first)
}

// beefQuality lays out the quality grade table: a line per group and grade, the grade as it is and as the judge may lower
// it, and the least marbling for it at 00 and at 100 of the group.
func (l *gridLayout) beefQuality() {
	l.row()
	l.headings("Beef quality grades: least marbling by maturity", "", "", "", "", "", "", "", "", "")
	l.headings("Maturity", "Group", "Grade", "Lowered 1/3", "Lowered 1/2", "Lowered 2/3", "Lowered a full grade", "At 00", "At 100", "Rises by")
	first := l.next()
	for _, line := range beefQualityTable {
		cells := []GridCell{words(string(rune('A' + line.group - 1))), number(decimal.NewFromInt(line.group))}
		for _, amount := range loweringAmounts {
			grade, third := line.lowered(amount.sixths)
			cells = append(cells, words(beefGradeValues[grade][third].Text))
		}
		cells = append(cells, number(decimal.NewFromInt(line.at00)), number(decimal.NewFromInt(line.at100)), number(decimal.NewFromInt(line.at100-line.at00)))
		l.row(cells...)
	}
	l.name(beefQualityGroups, "B", "B", first)
	l.name(beefQualityGrades, "C", "G", first)
	l.name(beefQualityAt00, "H", "H", first)
	l.name(beefQualitySlide, "J", "J", first)
}

// beefGrades gives every grade a beef carcass can have, best first.
func beefGrades() []string {
	var values []measure.Value
	for _, line := range beefQualityTable {
		for _, amount := range loweringAmounts {
			grade, third := line.lowered(amount.sixths)
			values = append(values, beefGradeValues[grade][third])
		}
	}
	slices.SortStableFunc(values, func(one, other measure.Value) int {
		return cmp.Or(other.Number.Cmp(one.Number), cmp.Compare(one.Text, other.Text))
	})
	var grades []string
	for _, value := range values {
		if !slices.Contains(grades, value.Text) {
			grades = append(grades, value.Text)
		}
	}
	return grades
}

func speciesTitle(species rules.Species) string {
	text := string(species)
	return string(text[0]-'a'+'A') + text[1:]
}
