package grading

import (
	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// Expression is the arithmetic of one figure, written down once: its exact value, its spreadsheet formula and what it
// needs all come from it. Its forms are a closed set: a reading, another figure, a setting, a word; sums, differences,
// products and quotients; rounding and cutting; the greatest and the least of several; one of two by a comparison or a
// mark; and the look-up in a chart.
type Expression interface {
	// value gives the exact value; everything needed is known to be there. problem says why there is none all the same. A
	// number has no Text yet.
	value(g *Graded) (value measure.Value, problem string)
	// write writes the spreadsheet formula; it puts itself in brackets where it binds less tightly than asked.
	write(f *formula, tightness int)
	// operands gives what it needs, and as considered what else may move it.
	operands() []Expression
	// shape adds whatever makes its formula differ from those of other carcasses.
	shape(shape []byte, g *Graded) []byte
}

// How tightly a form must bind to stand where it is written.
const (
	loose     = iota // anything may stand here
	asAddend         // a product may stand here, a sum after a minus may not
	asFactor         // a single operand or a function only
	asDivisor = asFactor
)

// reading is a measure as it stands on the sheet.
type reading measure.ID

func (r reading) operands() []Expression { return []Expression{r} }

func (r reading) value(g *Graded) (measure.Value, string) {
	value, _ := g.Value(measure.ID(r))
	return number(value.Number), ""
}

func (r reading) write(f *formula, _ int) { f.reading(measure.ID(r)) }

func (r reading) shape(shape []byte, g *Graded) []byte { return shapeOf(shape, g, measure.ID(r)) }

// number is the value of a number; how it is written is decided by the measure whose figure it becomes.
func number(of decimal.Decimal) measure.Value { return measure.Value{Number: of} }

// ComputedFigure is a measure as it is defined for the species, computed or passed through; where the species does not define
// it, it is the reading.
type ComputedFigure measure.ID

func (n ComputedFigure) operands() []Expression { return []Expression{n} }

func (n ComputedFigure) value(g *Graded) (measure.Value, string) {
	value, _ := g.Figure(measure.ID(n))
	return number(value.Number), ""
}

func (n ComputedFigure) write(f *formula, tightness int) { f.figure(measure.ID(n), tightness) }

func (n ComputedFigure) shape(shape []byte, g *Graded) []byte {
	if definition, _ := g.Method.Define(measure.ID(n)); definition == nil {
		return shapeOf(shape, g, measure.ID(n))
	}
	return shape // its own way is in the shape already
}

// setting is a number that the rulebook fixes. A way of computing a figure that needs a setting which the board left
// open is not taken.
type setting struct {
	name string // as the Settings sheet has it
	of   func(*rules.Settings, rules.Species) decimal.NullDecimal
}

func (s setting) operands() []Expression { return []Expression{s} }

func (s setting) value(g *Graded) (measure.Value, string) {
	return number(s.of(&g.Book.Settings, g.Species).Decimal), ""
}

func (setting) shape(shape []byte, _ *Graded) []byte { return shape }

func (s setting) write(f *formula, _ int) {
	number := s.of(&f.graded.Book.Settings, f.graded.Species)
	f.number(number.Decimal)
}

// Linear is a constant and addends: Constant + Σ Coefficient · Measure.
type Linear struct {
	Constant decimal.Decimal
	Addends  []Addend
}

// Addend is one measure of a Linear with what it is multiplied by.
type Addend struct {
	Coefficient decimal.Decimal // in the equation's unit for each unit of the measure
	Measure     measure.ID
}

// linear makes a Linear of numbers and measures as a source prints them.
func linear(constant string, addends ...Addend) Linear {
	return Linear{Constant: Exact(constant), Addends: addends}
}

func addend(coefficient string, id measure.ID) Addend {
	return Addend{Coefficient: Exact(coefficient), Measure: id}
}

func (l Linear) operands() []Expression {
	var all []Expression
	for _, addend := range l.Addends {
		all = append(all, ComputedFigure(addend.Measure))
	}
	return all
}

func (l Linear) value(g *Graded) (measure.Value, string) {
	if len(l.Addends) == 0 {
		return number(l.Constant), ""
	}
	var sum measure.Sum
	for _, addend := range l.Addends {
		value, _ := g.Figure(addend.Measure)
		sum.AddProduct(addend.Coefficient, value.Number)
	}
	if !l.Constant.IsZero() {
		sum.Add(l.Constant)
	}
	return number(sum.Number()), ""
}

func (l Linear) shape(shape []byte, g *Graded) []byte {
	for _, addend := range l.Addends {
		shape = ComputedFigure(addend.Measure).shape(shape, g)
	}
	return shape
}

func (a Addend) value(g *Graded) decimal.Decimal {
	value, _ := g.Figure(a.Measure)
	if a.Coefficient.Exponent() == 0 && a.Coefficient.CoefficientInt64() == 1 {
		return value.Number
	}
	return a.Coefficient.Mul(value.Number)
}

// terms gives the addends with their values, the constant first.
func (l Linear) terms(g *Graded) []Term {
	terms := make([]Term, 1, len(l.Addends)+1)
	terms[0].Value.Number = l.Constant
	for _, addend := range l.Addends {
		terms = append(terms, Term{Measure: addend.Measure, Value: measure.Value{Number: addend.value(g)}})
	}
	return terms
}

// sum adds the addends up.
func (l Linear) sum(g *Graded) decimal.Decimal {
	value, _ := l.value(g)
	return value.Number
}

func (l Linear) write(f *formula, tightness int) {
	isSum := len(l.Addends) > 1 || len(l.Addends) == 1 && !l.Constant.IsZero()
	isProduct := !isSum && len(l.Addends) == 1 && !l.Addends[0].Coefficient.Equal(One)
	defer f.brackets(isSum && tightness > loose || isProduct && tightness > asAddend)()
	started := false
	if !l.Constant.IsZero() || len(l.Addends) == 0 {
		f.number(l.Constant)
		started = true
	}
	for _, addend := range l.Addends {
		switch {
		case addend.Coefficient.IsNegative():
			f.add("-")
		case started:
			f.add("+")
		}
		if size := addend.Coefficient.Abs(); !size.Equal(One) {
			f.number(size)
			f.add("*")
		}
		f.figure(addend.Measure, asFactor)
		started = true
	}
}

// difference is from − less.
type difference struct{ from, less Expression }

func (d difference) operands() []Expression { return append(d.from.operands(), d.less.operands()...) }

func (d difference) value(g *Graded) (measure.Value, string) {
	from, less, problem := both(g, d.from, d.less)
	return number(from.Sub(less)), problem
}

func (d difference) shape(shape []byte, g *Graded) []byte {
	return d.less.shape(d.from.shape(shape, g), g)
}

func (d difference) write(f *formula, tightness int) {
	defer f.brackets(tightness > loose)()
	d.from.write(f, loose)
	f.add("-")
	d.less.write(f, asAddend)
}

// product is left · right.
type product struct{ left, right Expression }

func (p product) operands() []Expression { return append(p.left.operands(), p.right.operands()...) }

func (p product) value(g *Graded) (measure.Value, string) {
	left, right, problem := both(g, p.left, p.right)
	return number(left.Mul(right)), problem
}

func (p product) shape(shape []byte, g *Graded) []byte {
	return p.right.shape(p.left.shape(shape, g), g)
}

func (p product) write(f *formula, tightness int) {
	defer f.brackets(tightness > asAddend)()
	p.left.write(f, asFactor)
	f.add("*")
	p.right.write(f, asFactor)
}

// Quotient is Over ÷ Under, exact to the places it is rounded to.
type Quotient struct {
	Over, Under Expression
	Places      int32
	zero        string // what is said where Under is zero or less: "live weight is zero"
}

func (q Quotient) operands() []Expression { return append(q.Over.operands(), q.Under.operands()...) }

func (q Quotient) value(g *Graded) (measure.Value, string) {
	over, under, problem := both(g, q.Over, q.Under)
	if problem == "" && !under.IsPositive() {
		problem = q.zero
	}
	if problem != "" {
		return measure.Value{}, problem
	}
	return number(measure.Divide(over, under, q.Places)), ""
}

func (q Quotient) shape(shape []byte, g *Graded) []byte {
	return q.Under.shape(q.Over.shape(shape, g), g)
}

func (q Quotient) write(f *formula, _ int) {
	f.add("ROUND(")
	q.Over.write(f, asAddend)
	f.add("/")
	q.Under.write(f, asDivisor)
	f.places(q.Places)
}

// Rounded is Of, rounded half away from zero.
type Rounded struct {
	Of     Expression
	Places int32
}

func (r Rounded) operands() []Expression { return r.Of.operands() }

func (r Rounded) value(g *Graded) (measure.Value, string) {
	value, problem := r.Of.value(g)
	return number(measure.Round(value.Number, r.Places)), problem
}

func (r Rounded) shape(shape []byte, g *Graded) []byte { return r.Of.shape(shape, g) }

func (r Rounded) write(f *formula, _ int) {
	f.add("ROUND(")
	r.Of.write(f, loose)
	f.places(r.Places)
}

// Whole is Of with its fraction dropped. With bounds it stays within From and To.
type Whole struct {
	Of       Expression
	Bounded  bool
	From, To int64
}

func (w Whole) operands() []Expression { return w.Of.operands() }

func (w Whole) value(g *Graded) (measure.Value, string) {
	value, problem := w.Of.value(g)
	whole := value.Number.Truncate(0)
	if w.Bounded {
		whole = decimal.Max(decimal.NewFromInt(w.From), decimal.Min(decimal.NewFromInt(w.To), whole))
	}
	return number(whole), problem
}

func (w Whole) shape(shape []byte, g *Graded) []byte { return w.Of.shape(shape, g) }

func (w Whole) write(f *formula, _ int) {
	if !w.Bounded {
		f.add("TRUNC(")
		w.Of.write(f, loose)
		f.add(")")
		return
	}
	f.add("MAX(")
	f.integer(w.From)
	f.add(",MIN(")
	f.integer(w.To)
	f.add(",INT(")
	w.Of.write(f, loose)
	f.add(")))")
}

// both gives the numbers of two expressions.
func both(g *Graded, first, second Expression) (left, right decimal.Decimal, problem string) {
	value, problem := first.value(g)
	if problem != "" {
		return left, right, problem
	}
	other, problem := second.value(g)
	return value.Number, other.Number, problem
}
