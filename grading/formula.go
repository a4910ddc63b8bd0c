package grading

import (
	"strconv"
	"strings"

	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// formula is a spreadsheet formula being written for one carcass.
type formula struct {
	graded  *Graded
	at      References
	text    []byte
	numbers []string // the cells it reads as numbers, each once
}

func (f *formula) add(text string) { f.text = append(f.text, text...) }

func (f *formula) integer(number int64) { f.text = strconv.AppendInt(f.text, number, 10) }

// number writes a number so that it can stand anywhere.
func (f *formula) number(number decimal.Decimal) {
	defer f.brackets(number.IsNegative() && len(f.text) > 0)()
	f.add(measure.NumberText(number))
}

// brackets opens a bracket where one is needed and gives the function that closes it.
func (f *formula) brackets(needed bool) func() {
	if !needed {
		return func() {}
	}
	f.add("(")
	return func() { f.add(")") }
}

// places closes a ROUND.
func (f *formula) places(places int32) {
	f.add(",")
	f.integer(int64(places))
	f.add(")")
}

// function writes a function of two numbers, its opening bracket included.
func (f *formula) function(opening string, left, right Expression) {
	f.add(opening)
	left.write(f, loose)
	f.add(",")
	right.write(f, loose)
	f.add(")")
}

// cell refers to a cell that holds a number.
func (f *formula) cell(cell string) {
	f.add(cell)
	f.needs(cell)
}

// needs notes that the formula shows nothing unless the cell holds a number.
func (f *formula) needs(cell string) {
	for _, known := range f.numbers {
		if known == cell {
			return
		}
	}
	f.numbers = append(f.numbers, cell)
}

// reading writes a measure as it was read: the cell, or the value where no formula can read the cell.
func (f *formula) reading(id measure.ID) {
	if cell := f.at.Cell(id); cell != "" {
		f.cell(cell)
		return
	}
	f.number(f.graded.ReadingOf(id).Value.Number)
}

// figure writes a measure: our computed column where there is one, else what defines it.
func (f *formula) figure(id measure.ID, tightness int) {
	if cell := f.at.Column(id); cell != "" {
		f.cell(cell)
		return
	}
	if definition, at := f.graded.Method.Define(id); definition != nil {
		definition.Rule.write(f, f.graded.taken[at], tightness)
		return
	}
	f.reading(id)
}

// words writes a measure that is words: its computed column, or what defines it.
func (f *formula) words(id measure.ID) {
	if cell := f.at.Column(id); cell != "" {
		f.add(cell)
		return
	}
	f.figure(id, loose)
}

// guarded gives the formula so written that it shows nothing where a cell it reads is emptied or made text, and
// otherwise instead of an error.
func (f *formula) guarded(otherwise string) string {
	var text strings.Builder
	text.WriteString("IFERROR(")
	if len(f.numbers) > 0 {
		text.WriteString("IF(COUNT(")
		text.WriteString(strings.Join(f.numbers, ","))
		text.WriteString(")=")
		text.WriteString(strconv.Itoa(len(f.numbers)))
		text.WriteString(",")
	}
	text.Write(f.text)
	if len(f.numbers) > 0 {
		text.WriteString(`,"")`)
	}
	text.WriteString(`,"`)
	text.WriteString(otherwise)
	text.WriteString(`")`)
	return text.String()
}

// Formula gives the formula of a computed column for this carcass, without the leading "=", in the functions that
// every spreadsheet program has; ok is false where there is nothing to compute. Recalculated anywhere it gives the
// figure, and the words NoPrice where the grid has no line (the one figure that is missing and has a formula all the
// same). It never shows an error: with a cell it needs emptied or made text it shows nothing.
func (g *Graded) Formula(id measure.ID, at References) (text string, ok bool) {
	if g.Method == nil {
		return "", false
	}
	definition, index := g.Method.Define(id)
	if definition == nil || g.taken[index] == notTaken {
		return "", false
	}
	f := formula{graded: g, at: at, text: make([]byte, 0, 256)}
	definition.Rule.write(&f, g.taken[index], loose)
	if value, _ := g.Figure(id); len(f.numbers) == 0 && isPlainNumber(id, definition.Rule) {
		return value.Number.String(), true // no cell to compute from: the value itself
	}
	otherwise := ""
	if id == measure.Price {
		otherwise = NoPrice
	}
	return f.guarded(otherwise), true
}

// isPlainNumber reports whether the figures of a rule are numbers that rest on the readings alone, not on words or prices.
func isPlainNumber(id measure.ID, rule rule) bool {
	_, isArithmetic := rule.(Arithmetic)
	definition, _ := measure.Define(id)
	return isArithmetic && definition.Kind != measure.KindGrade
}

// AppendShape adds what identifies the form of a carcass's formulas. Two carcasses with the same shape have the same formulas but for
// the row, given that what is Plain or has a Factor stands in the same columns, so they can be written once and shared. It is nothing
// for a carcass that no method grades.
func (g *Graded) AppendShape(shape []byte) []byte {
	if g.Method == nil {
		return shape
	}
	shape = append(shape, string(g.Species)...)
	shape = append(shape, string(g.Basis)...)
	for at := range g.Method.Definitions {
		taken := g.taken[at]
		shape = append(shape, byte('a'+taken))
		if taken == notTaken {
			continue
		}
		shape = g.Method.Definitions[at].Rule.shape(shape, g, taken)
	}
	return shape
}

// shapeOf adds what a reading contributes to a formula when its cell cannot be referred to as it is.
func shapeOf(shape []byte, g *Graded, id measure.ID) []byte {
	reading := g.ReadingOf(id)
	switch {
	case reading.Factor != "":
		shape = append(append(shape, '*'), reading.Factor...)
	case !reading.Plain:
		shape = append(append(shape, '='), measure.NumberText(reading.Value.Number)...)
	}
	return append(shape, ';')
}
