package grading

import (
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// criterion is what a conditional turns on.
type criterion interface {
	holds(g *Graded) bool
	// isLive reports whether cells of the workbook decide it. A mark or a word is decided when the carcass is graded, and
	// the formula then has the one side only.
	isLive(g *Graded) bool
	// write writes a criterion that is live.
	write(f *formula)
	operands() []Expression
	shape(shape []byte, g *Graded) []byte
}

// compared is a comparison of two numbers. The sign is written as in a formula: "<", "<=", ">", ">=" or "=".
type compared struct {
	left  Expression
	sign  string
	right Expression
}

func (c compared) holds(g *Graded) bool {
	left, right, problem := both(g, c.left, c.right)
	order := left.Cmp(right)
	switch c.sign {
	case "<":
		return problem == "" && order < 0
	case "<=":
		return problem == "" && order <= 0
	case ">":
		return problem == "" && order > 0
	case ">=":
		return problem == "" && order >= 0
	}
	return problem == "" && order == 0
}

func (compared) isLive(*Graded) bool { return true }

func (c compared) write(f *formula) {
	c.left.write(f, asAddend)
	f.add(c.sign)
	c.right.write(f, asAddend)
}

func (c compared) operands() []Expression { return append(c.left.operands(), c.right.operands()...) }

func (c compared) shape(shape []byte, g *Graded) []byte {
	return c.right.shape(c.left.shape(shape, g), g)
}

// scored is that a score which need not be given was given, and is this one.
type scored struct {
	measure measure.ID
	score   int64
}

func (s scored) holds(g *Graded) bool {
	reading, ok := g.Reading(s.measure)
	return ok && reading.Value.Number.Equal(decimal.NewFromInt(s.score))
}

func (s scored) isLive(g *Graded) bool {
	_, written := g.Written(s.measure)
	return written
}

func (s scored) write(f *formula) {
	f.reading(s.measure)
	f.add("=")
	f.integer(s.score)
}

func (s scored) operands() []Expression { return []Expression{considered(s.measure)} }

func (s scored) shape(shape []byte, g *Graded) []byte {
	if !s.isLive(g) {
		return append(shape, '-')
	}
	return shapeOf(shape, g, s.measure)
}

// marked is that a mark is set, or that a condition holds by any sign of it.
type marked measure.ID

func (m marked) holds(g *Graded) bool { return g.marked(measure.ID(m)) || g.Is(measure.ID(m)) }

func (marked) isLive(*Graded) bool { return false }

func (marked) write(*formula) {}

func (m marked) operands() []Expression { return []Expression{considered(m)} }

func (m marked) shape(shape []byte, _ *Graded) []byte { return shape }

// every is that all of several criteria hold.
type every []criterion

func (e every) holds(g *Graded) bool {
	for _, part := range e {
		if !part.holds(g) {
			return false
		}
	}
	return true
}

// isLive is false where no cell decides some part: all of it is decided when the carcass is graded.
func (e every) isLive(g *Graded) bool {
	for _, part := range e {
		if !part.isLive(g) {
			return false
		}
	}
	return true
}

func (e every) write(f *formula) { writeParts("AND(", e, f) }

func (e every) operands() []Expression { return operandsOf(e) }

func (e every) shape(shape []byte, g *Graded) []byte { return shapeOfParts(shape, e, g) }

// either is that one or more of several criteria hold.
type either []criterion

func (e either) holds(g *Graded) bool {
	for _, part := range e {
		if part.holds(g) {
			return true
		}
	}
	return false
}

func (e either) isLive(g *Graded) bool {
	live := false
	for _, part := range e {
		if part.isLive(g) {
			live = true
		} else if part.holds(g) {
			return false
		}
	}
	return live
}

// write leaves out the parts that are not live: they do not hold.
func (e either) write(f *formula) {
	var live []criterion
	for _, part := range e {
		if part.isLive(f.graded) {
			live = append(live, part)
		}
	}
	if len(live) == 1 {
		live[0].write(f)
		return
	}
	writeParts("OR(", live, f)
}

func (e either) operands() []Expression { return operandsOf(e) }

func (e either) shape(shape []byte, g *Graded) []byte { return shapeOfParts(shape, e, g) }

func writeParts(function string, parts []criterion, f *formula) {
	f.add(function)
	for at, part := range parts {
		if at > 0 {
			f.add(",")
		}
		part.write(f)
	}
	f.add(")")
}

func operandsOf(parts []criterion) []Expression {
	var operands []Expression
	for _, part := range parts {
		operands = append(operands, part.operands()...)
	}
	return operands
}

func shapeOfParts(shape []byte, parts []criterion, g *Graded) []byte {
	for _, part := range parts {
		shape = part.shape(shape, g)
	}
	return shape
}

// conditional is one expression where a criterion holds, and another where it does not.
type conditional struct {
	when      criterion
	then      Expression
	otherwise Expression
}

func (c conditional) taken(g *Graded) Expression {
	if c.when.holds(g) {
		return c.then
	}
	return c.otherwise
}

func (c conditional) value(g *Graded) (measure.Value, string) { return c.taken(g).value(g) }

func (c conditional) write(f *formula, tightness int) {
	if !c.when.isLive(f.graded) {
		c.taken(f.graded).write(f, tightness)
		return
	}
	f.add("IF(")
	c.when.write(f)
	f.add(",")
	c.then.write(f, loose)
	f.add(",")
	c.otherwise.write(f, loose)
	f.add(")")
}

func (c conditional) operands() []Expression {
	return append(append(c.then.operands(), c.otherwise.operands()...), c.when.operands()...)
}

func (c conditional) shape(shape []byte, g *Graded) []byte {
	if !c.when.isLive(g) {
		if c.when.holds(g) {
			return c.then.shape(append(shape, 'y'), g)
		}
		return c.otherwise.shape(append(shape, 'n'), g)
	}
	return c.otherwise.shape(c.then.shape(c.when.shape(append(shape, '?'), g), g), g)
}

// refused is an expression for carcasses that nothing speaks against.
type refused struct {
	why func(*Graded) string // empty for a carcass that has the figure
	Expression
	weighs []measure.ID // what why looks at beside the operands
}

func (r refused) value(g *Graded) (measure.Value, string) {
	if why := r.why(g); why != "" {
		return measure.Value{}, why
	}
	return r.Expression.value(g)
}

func (r refused) operands() []Expression {
	operands := r.Expression.operands()
	for _, id := range r.weighs {
		operands = append(operands, considered(id))
	}
	return operands
}

// considered is a reading that an expression takes into account where it is there. It stands among the operands only.
type considered measure.ID

func (c considered) operands() []Expression { return []Expression{c} }

func (c considered) value(g *Graded) (measure.Value, string) { return reading(c).value(g) }

func (c considered) write(f *formula, tightness int) { reading(c).write(f, tightness) }

func (c considered) shape(shape []byte, _ *Graded) []byte { return shape }
