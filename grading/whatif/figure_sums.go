package whatif

import (
	"maps"

	"railbook/grading"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// figureSum is a computed figure written out as a sum of measures that are read, or as such a sum over one of them.
type figureSum struct {
	constant     decimal.Decimal
	coefficients map[measure.ID]decimal.Decimal
	over         measure.ID      // None for a plain sum
	margin       decimal.Decimal // how far roundings on the way may move the figure from the sum
}

// itself is the sum of a measure that counts as one that is read.
func itself(id measure.ID) figureSum {
	return figureSum{coefficients: map[measure.ID]decimal.Decimal{id: grading.One}}
}

// atMost says that the figure is at most a number, as a bounded sum. What a figure stands over is never below zero, so
// that it may be multiplied out.
func (f figureSum) atMost(number decimal.Decimal) boundedSum {
	sum := boundedSum{maps.Clone(f.coefficients), f.constant.Neg()}
	most := number.Add(f.margin)
	if f.over != measure.None {
		sum.coefficients[f.over] = sum.coefficients[f.over].Sub(most)
	} else {
		sum.most = sum.most.Add(most)
	}
	return sum
}

// atLeast says that the figure is at least a number, as a bounded sum.
func (f figureSum) atLeast(number decimal.Decimal) boundedSum {
	turned := figureSum{constant: f.constant.Neg(), coefficients: map[measure.ID]decimal.Decimal{}, over: f.over, margin: f.margin}
	for id, coefficient := range f.coefficients {
		turned.coefficients[id] = coefficient.Neg()
	}
	return turned.atMost(number.Neg())
}

// sumOf writes out a computed figure. ok is false for a measure that is read, and for a figure that is no such sum or may
// be computed in several ways: it then counts as a measure of its own.
func (c limitedClass) sumOf(id measure.ID) (sum figureSum, ok bool) {
	if _, isIndex := c.book.Index(id); isIndex {
		return c.sumOfIndex(id)
	}
	of, ok := c.onlyWay(id)
	if !ok {
		return figureSum{}, false
	}
	switch of := of.(type) {
	case grading.Rounded:
		linear, isLinear := of.Of.(grading.Linear)
		if !isLinear || of.Places < grading.ComparedDecimals {
			return figureSum{}, false
		}
		sum, ok = c.sumOfLinear(linear)
	case grading.Quotient:
		linear, isLinear := of.Over.(grading.Linear)
		under, isFigure := of.Under.(grading.ComputedFigure)
		if !isLinear || !isFigure || of.Places < grading.ComparedDecimals || grading.DefinitionOf(measure.ID(under)).Unit != "lb" {
			return figureSum{}, false
		}
		if _, computed := c.sumOf(measure.ID(under)); computed {
			return figureSum{}, false
		}
		sum, ok = c.sumOfLinear(linear)
		sum.over = measure.ID(under)
	default:
		return figureSum{}, false
	}
	sum.margin = sum.margin.Add(comparedHalf)
	return sum, ok
}

// onlyWay gives the expression of a figure that is always computed in the same way.
func (c limitedClass) onlyWay(id measure.ID) (of grading.Expression, ok bool) {
	definition, _ := c.method.Define(id)
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

// sumOfLinear writes out a sum whose addends may be sums themselves.
func (c limitedClass) sumOfLinear(linear grading.Linear) (sum figureSum, ok bool) {
	sum = figureSum{constant: linear.Constant, coefficients: map[measure.ID]decimal.Decimal{}}
	for _, addend := range linear.Addends {
		if !sum.add(c, addend.Coefficient, addend.Measure) {
			return figureSum{}, false
		}
	}
	return sum, true
}

// sumOfIndex writes out an index of points that has no distances from targets and no steps.
func (c limitedClass) sumOfIndex(id measure.ID) (sum figureSum, ok bool) {
	sum = figureSum{coefficients: map[measure.ID]decimal.Decimal{}, margin: comparedHalf}
	parts := grading.PartsOf(id, c.book)
	for _, part := range parts {
		switch {
		case part.Measure == measure.None:
			sum.constant = sum.constant.Add(part.Weight)
		case part.Target.Valid || part.Step || !sum.add(c, part.Weight, part.Measure):
			return figureSum{}, false
		}
	}
	return sum, len(parts) > 0
}

// add adds a measure, or what it is computed from, so many times.
func (f *figureSum) add(c limitedClass, times decimal.Decimal, id measure.ID) bool {
	inner, computed := c.sumOf(id)
	if !computed {
		inner = itself(id)
	}
	if _, isCut := c.cutOf(id); isCut || inner.over != measure.None {
		return false
	}
	f.constant = f.constant.Add(times.Mul(inner.constant))
	f.margin = f.margin.Add(times.Abs().Mul(inner.margin))
	for part, coefficient := range inner.coefficients {
		f.coefficients[part] = f.coefficients[part].Add(times.Mul(coefficient))
	}
	return true
}

// cutFigure is a figure that is another one with its fraction dropped, held between two whole numbers.
type cutFigure struct {
	from        measure.ID
	least, most decimal.Decimal
}

// cutOf gives what a figure is cut from; ok is false for one that is not cut.
func (c limitedClass) cutOf(id measure.ID) (cut cutFigure, ok bool) {
	of, _ := c.onlyWay(id)
	whole, isWhole := of.(grading.Whole)
	if !isWhole || !whole.Bounded {
		return cutFigure{}, false
	}
	from, isFigure := whole.Of.(grading.ComputedFigure)
	return cutFigure{measure.ID(from), decimal.NewFromInt(whole.From), decimal.NewFromInt(whole.To)}, isFigure
}

// narrow narrows the range of the figure that is cut to where the whole number is at least, or at most, a border: at most
// 3 is below 4. possible is false where no whole number is.
func (c cutFigure) narrow(of *measureRange, border decimal.Decimal, atLeast bool) (possible bool) {
	whole := border.Floor()
	if atLeast {
		whole = border.Ceil()
		if whole.GreaterThan(c.least) {
			of.atLeast(whole)
		}
		return whole.LessThanOrEqual(c.most)
	}
	if whole.LessThan(c.most) {
		of.atMost(whole.Add(grading.One).Sub(comparedStep))
	}
	return whole.GreaterThanOrEqual(c.least)
}
