package grading

import (
	"slices"

	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// gradeChart is a chart of the least score for each grade within each group: marbling by maturity for the quality of beef.
// Its lines are those of rules/tables/grade_charts.csv.
type gradeChart struct {
	title string // over the chart on the Value grid sheet
	group string // the heading of its groups: "Maturity"
	grade string // the heading of its grades: "Grade"
	name  string // of the ranges that formulas look up
	lines []gradeChartLine
}

// gradeChartLine is one line of a chart.
type gradeChartLine struct {
	words       string // of the group: "A"
	group       int64
	grades      []measure.Value // as it is, then as lowered by each of lowerings; one alone where nothing is lowered
	at00, slide decimal.Decimal // the least score at 00 of the group, and how far that rises to 100
}

// newGradeChart reads the chart of a species' figure; a group's words are its letter, or its number where none are given.
func newGradeChart(species rules.Species, figure, title string, groupHeading, gradeHeading string, groups []string, grade func(string) measure.Value) *gradeChart {
	chart := &gradeChart{title: title, group: groupHeading, grade: gradeHeading, name: string(species) + " " + figure}
	for _, from := range rules.GradeChart(species, figure) {
		line := gradeChartLine{words: from.Group, at00: belowAll}
		if number, err := decimal.NewFromString(from.Group); err == nil {
			line.group = number.IntPart()
			line.words = groups[line.group-1]
		} else {
			line.group = int64(from.Group[0]-'A') + 1
		}
		for _, words := range append([]string{from.Grade}, from.Lower...) {
			line.grades = append(line.grades, grade(words))
		}
		if from.At00.Valid {
			line.at00, line.slide = from.At00.Decimal, from.At100.Decimal.Sub(from.At00.Decimal)
		}
		chart.lines = append(chart.lines, line)
	}
	return chart
}

// gradeInWords is the value of a quality grade that a chart names.
func gradeInWords(words string) measure.Value {
	value, _, _ := ParseQualityGrade(words)
	return value
}

// line finds the last line of the group whose least score is met.
func (c *gradeChart) line(group, place, score decimal.Decimal) (found *gradeChartLine) {
	number := group.IntPart()
	for at := range c.lines {
		line := &c.lines[at]
		if line.group == number && line.least(place).LessThanOrEqual(score) {
			found = line
		}
	}
	return found
}

// least is the least score at a place from 00 to 100 within the group.
func (l *gradeChartLine) least(place decimal.Decimal) decimal.Decimal {
	if l.slide.IsZero() {
		return l.at00
	}
	return l.at00.Add(l.slide.Mul(place).Shift(-2))
}

// grades gives every grade that the chart can give, best first.
func (c *gradeChart) grades() []string {
	var values []measure.Value
	for _, line := range c.lines {
		values = append(values, line.grades...)
	}
	slices.SortStableFunc(values, func(a, b measure.Value) int {
		if order := b.Number.Cmp(a.Number); order != 0 {
			return order
		}
		return compareText(a.Text, b.Text)
	})
	var grades []string
	for _, value := range values {
		if !slices.Contains(grades, value.Text) {
			grades = append(grades, value.Text)
		}
	}
	return grades
}

func compareText(a, b string) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// slides reports whether the least scores of some group rise within it.
func (c *gradeChart) slides() bool {
	return slices.ContainsFunc(c.lines, func(line gradeChartLine) bool { return !line.slide.IsZero() })
}

// lowerings are the amounts a judge may lower a grade by for dark cutting lean, in sixths of a full grade, with the
// headings of their columns; the first column is the grade as it is.
var lowerings = []struct {
	sixths  int64
	heading string
}{{0, ""}, {2, "Lowered 1/3"}, {3, "Lowered 1/2"}, {4, "Lowered 2/3"}, {6, "Lowered a full grade"}}

// loweringOf gives the judge's lowering for dark lean in sixths of a grade, and its column in a chart; −1 for none of
// those there are.
func (g *Graded) loweringOf() (sixths int64, column int) {
	sixths = g.ReadingOf(measure.DarkCutterLowering).Value.Number.IntPart()
	for at, lowering := range lowerings {
		if lowering.sixths == sixths {
			return sixths, at
		}
	}
	return sixths, -1
}

// lookUp is a grade looked up in a chart.
type lookUp struct {
	chart   *gradeChart
	score   Expression
	within  Expression // a maturity, whose hundreds are the group and whose rest is the place within it; nil where group is given
	group   Expression // the group's number alone
	lowered bool       // by the judge for dark lean
}

func (l lookUp) operands() []Expression {
	operands := l.score.operands()
	if l.within != nil {
		operands = append(operands, l.within.operands()...)
	} else {
		operands = append(operands, l.group.operands()...)
	}
	if l.lowered {
		operands = append(operands, considered(measure.DarkCutterLowering))
	}
	return operands
}

func (l lookUp) value(g *Graded) (measure.Value, string) {
	line, problem := l.line(g)
	if problem != "" {
		return measure.Value{}, problem
	}
	return line.grades[l.column(g)], ""
}

// line finds the carcass's line of the chart.
func (l lookUp) line(g *Graded) (line *gradeChartLine, problem string) {
	group, place, problem := l.groupAndPlace(g)
	if problem != "" {
		return nil, problem
	}
	score, problem := l.score.value(g)
	if problem != "" {
		return nil, problem
	}
	if line = l.chart.line(group, place, score.Number); line == nil {
		problem = "the chart has no grade for " + score.Number.String() + " in group " + group.String()
	}
	return line, problem
}

func (l lookUp) groupAndPlace(g *Graded) (group, place decimal.Decimal, problem string) {
	if l.within == nil {
		of, problem := l.group.value(g)
		return of.Number, place, problem
	}
	age, problem := l.within.value(g)
	group = age.Number.Shift(-2).Floor()
	return group, age.Number.Sub(group.Shift(2)), problem
}

func (l lookUp) column(g *Graded) int {
	if !l.lowered {
		return 0
	}
	_, column := g.loweringOf()
	return column
}

// write looks the grade up in the chart on the Value grid sheet: the lines of a group are together, lowest first, so the
// group's first line and the number of its least scores that are met give the line; the lowering gives the column.
func (l lookUp) write(f *formula, _ int) {
	group, place := l.groupFormula(f)
	groups := f.at.Range(l.chart.name + chartGroups)
	least := f.at.Range(l.chart.name + chartAt00)
	if l.chart.slides() {
		least = "ROUND(" + least + "+" + f.at.Range(l.chart.name+chartSlide) + "*" + place + "/100,6)"
	}
	f.add("INDEX(" + f.at.Range(l.chart.name+chartGrades) + ",MATCH(" + group + "," + groups + ",0)-1+SUMPRODUCT((" + groups + "=" + group + ")*(" + least + "<=")
	l.score.write(f, loose)
	f.add(")),")
	f.integer(int64(l.column(f.graded) + 1))
	f.add(")")
}

// groupFormula gives the group's number and the place within it, as numbers where no cell holds them.
func (l lookUp) groupFormula(f *formula) (group, place string) {
	of := formula{graded: f.graded, at: f.at}
	if l.within != nil {
		l.within.write(&of, asFactor)
	} else {
		l.group.write(&of, asFactor)
	}
	for _, cell := range of.numbers {
		f.needs(cell)
	}
	switch {
	case len(of.numbers) == 0:
		group, place, _ := l.groupAndPlace(f.graded)
		return group.String(), place.String()
	case l.within == nil:
		return string(of.text), "0"
	}
	return "INT(" + string(of.text) + "/100)", "MOD(" + string(of.text) + ",100)"
}

func (l lookUp) shape(shape []byte, g *Graded) []byte {
	if l.within != nil {
		shape = l.within.shape(shape, g)
	} else {
		shape = l.group.shape(shape, g)
	}
	return l.score.shape(append(shape, byte('0'+l.column(g))), g)
}

// The ranges of a chart on the Value grid sheet, after its name.
const (
	chartGroups = " groups"
	chartGrades = " grades"
	chartAt00   = " at 00"
	chartSlide  = " slide"
)
