package whatif

import (
	"math/big"

	"railbook/grading"
	"railbook/rules/measure"
)

// linear writes a computed figure as a sum of what is read. ok is false for a measure that is read, and for a figure
// that is no such sum or may be computed in several ways: it then counts as a measure of its own, which may be anything.
func (c context) linear(id measure.ID) (form figureForm, ok bool) {
	if _, isIndex := c.book.Index(id); isIndex {
		return c.linearIndex(id)
	}
	of, ok := c.onlyWay(id)
	if !ok {
		return figureForm{}, false
	}
	switch of := of.(type) {
	case grading.Rounded:
		sum, ok := of.Of.(grading.Linear)
		if !ok || of.Places < grading.ComparedDecimals {
			return figureForm{}, false
		}
		return c.sum(sum)
	case grading.Quotient:
		sum, isSum := of.Over.(grading.Linear)
		under, isFigure := of.Under.(grading.ComputedFigure)
		if !isSum || !isFigure || of.Places < grading.ComparedDecimals {
			return figureForm{}, false
		}
		// What the figure stands over is never below zero: the box sees to that for weights that are read.
		if _, computed := c.linear(measure.ID(under)); computed || grading.DefinitionOf(measure.ID(under)).Unit != "lb" {
			return figureForm{}, false
		}
		form, ok = c.sum(sum)
		form.under = measure.ID(under)
		return form, ok
	case grading.Whole:
		from, isFigure := of.Of.(grading.ComputedFigure)
		if !isFigure || !of.Bounded {
			return figureForm{}, false
		}
		form, ok = c.linear(measure.ID(from))
		form.cut, form.least, form.most = true, of.From, of.To
		return form, ok && form.under == measure.None
	}
	return figureForm{}, false
}

// onlyWay gives the expression of a figure that is always computed in the same way.
func (c context) onlyWay(id measure.ID) (of grading.Expression, ok bool) {
	definition, _ := c.plan.Define(id)
	if definition == nil {
		return nil, false
	}
	ways, ok := definition.Rule.(grading.Arithmetic)
	if !ok {
		return nil, false
	}
	for _, way := range ways {
		if way.When != nil && !way.When(&c.book.Settings) {
			continue
		}
		if of != nil {
			return nil, false
		}
		of = way.Of
	}
	return of, of != nil
}

// sum writes out a sum whose parts may be sums themselves.
func (c context) sum(sum grading.Linear) (form figureForm, ok bool) {
	form = figureForm{constant: sum.Constant.Rat(), doubt: new(big.Rat), over: map[measure.ID]*big.Rat{}}
	for _, addend := range sum.Addends {
		if !form.add(c, addend.Coefficient.Rat(), addend.Measure) {
			return figureForm{}, false
		}
	}
	return form, true
}

// add adds a measure, or what it is computed from, so many times.
func (f *figureForm) add(c context, times *big.Rat, id measure.ID) bool {
	inner, computed := c.linear(id)
	if !computed {
		inner = itself(id)
	}
	if inner.under != measure.None || inner.cut {
		return false
	}
	if computed {
		f.doubt = new(big.Rat).Add(f.doubt, new(big.Rat).Mul(new(big.Rat).Abs(times), new(big.Rat).Add(half, inner.doubt)))
	}
	f.constant = new(big.Rat).Add(f.constant, new(big.Rat).Mul(times, inner.constant))
	for part, coefficient := range inner.over {
		if f.over[part] == nil {
			f.over[part] = new(big.Rat)
		}
		f.over[part].Add(f.over[part], new(big.Rat).Mul(times, coefficient))
	}
	return true
}

// linearIndex writes an index of points as a sum, where it has no distances from targets.
func (c context) linearIndex(id measure.ID) (form figureForm, ok bool) {
	form = figureForm{constant: new(big.Rat), doubt: new(big.Rat), over: map[measure.ID]*big.Rat{}}
	parts := grading.PartsOf(id, c.book)
	for _, part := range parts {
		switch {
		case part.Measure == measure.None:
			form.constant = new(big.Rat).Add(form.constant, part.Weight.Rat())
		case part.Target.Valid || !form.add(c, part.Weight.Rat(), part.Measure):
			return figureForm{}, false
		}
	}
	return form, len(parts) > 0
}
