package grading

import (
	"strconv"

	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// integer is a whole number.
func integer(of int64) Expression { return Linear{Constant: decimal.NewFromInt(of)} }

// sum is left + right.
type sum struct{ left, right Expression }

func (s sum) operands() []Expression { return append(s.left.operands(), s.right.operands()...) }

func (s sum) value(g *Graded) (measure.Value, string) {
	left, right, problem := both(g, s.left, s.right)
	return number(left.Add(right)), problem
}

func (s sum) write(f *formula, tightness int) {
	defer f.brackets(tightness > loose)()
	s.left.write(f, loose)
	f.add("+")
	s.right.write(f, asAddend)
}

func (s sum) shape(shape []byte, g *Graded) []byte { return s.right.shape(s.left.shape(shape, g), g) }

// greatest is the greater of two numbers.
type greatest struct{ left, right Expression }

func (m greatest) operands() []Expression { return append(m.left.operands(), m.right.operands()...) }

func (m greatest) value(g *Graded) (measure.Value, string) {
	left, right, problem := both(g, m.left, m.right)
	return number(decimal.Max(left, right)), problem
}

func (m greatest) write(f *formula, _ int) { f.function("MAX(", m.left, m.right) }

func (m greatest) shape(shape []byte, g *Graded) []byte {
	return m.right.shape(m.left.shape(shape, g), g)
}

// least is the less of two numbers.
type least struct{ left, right Expression }

func (m least) operands() []Expression { return append(m.left.operands(), m.right.operands()...) }

func (m least) value(g *Graded) (measure.Value, string) {
	left, right, problem := both(g, m.left, m.right)
	return number(decimal.Min(left, right)), problem
}

func (m least) write(f *formula, _ int) { f.function("MIN(", m.left, m.right) }

func (m least) shape(shape []byte, g *Graded) []byte { return m.right.shape(m.left.shape(shape, g), g) }

// word is a grade that does not depend on a chart.
type word measure.Value

func (word) operands() []Expression { return nil }

func (w word) value(*Graded) (measure.Value, string) { return measure.Value(w), "" }

func (w word) write(f *formula, _ int) { f.add(strconv.Quote(w.Text)) }

func (word) shape(shape []byte, _ *Graded) []byte { return shape }

// listed is one of a list of grades by its number, from being that of the first.
type listed struct {
	of     Expression
	from   int64
	grades []measure.Value
}

func (l listed) operands() []Expression { return l.of.operands() }

func (l listed) value(g *Graded) (measure.Value, string) {
	at, problem := l.of.value(g)
	place := at.Number.IntPart() - l.from
	if problem == "" && (place < 0 || place >= int64(len(l.grades))) {
		problem = "a score of " + at.Number.String() + " has no grade"
	}
	if problem != "" {
		return measure.Value{}, problem
	}
	return l.grades[place], ""
}

func (l listed) write(f *formula, _ int) {
	f.add("CHOOSE(")
	difference{l.of, integer(l.from - 1)}.write(f, loose)
	for _, grade := range l.grades {
		f.add("," + strconv.Quote(grade.Text))
	}
	f.add(")")
}

func (l listed) shape(shape []byte, g *Graded) []byte { return l.of.shape(shape, g) }
