package whatif

import (
	"railbook/grading"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// condition is that a carcass passes a limit, or that it fails it.
type condition struct {
	limit  Limit
	passes bool
}

func meets(limits []Limit, passes bool) []condition {
	conditions := make([]condition, 0, len(limits)+1)
	for _, limit := range limits {
		conditions = append(conditions, condition{limit, passes})
	}
	return conditions
}

// measureRange is how far a measure may range; an end that is not valid is open.
type measureRange struct{ least, most decimal.NullDecimal }

func (r *measureRange) atLeast(least decimal.Decimal) {
	if !r.least.Valid || least.GreaterThan(r.least.Decimal) {
		r.least = decimal.NewNullDecimal(least)
	}
}

func (r *measureRange) atMost(most decimal.Decimal) {
	if !r.most.Valid || most.LessThan(r.most.Decimal) {
		r.most = decimal.NewNullDecimal(most)
	}
}

func (r *measureRange) empty() bool {
	return r.least.Valid && r.most.Valid && r.least.Decimal.GreaterThan(r.most.Decimal)
}

// measureRanges are the ranges of measures, read or computed, and sums of those that are read which may not be too great.
type measureRanges struct {
	of     map[measure.ID]*measureRange
	sums   []boundedSum
	nobody bool // no carcass is within them
}

func (r *measureRanges) rangeOf(id measure.ID) *measureRange {
	if r.of[id] == nil {
		r.of[id] = &measureRange{}
	}
	return r.of[id]
}

// boundedSum is Σ coefficient · measure ≤ most.
type boundedSum struct {
	coefficients map[measure.ID]decimal.Decimal
	most         decimal.Decimal
}

// contradict reports whether no carcass within the rulebook's hold bounds meets all the conditions. It looks at each
// measure, at each sum and at each pair of sums, and so may miss a contradiction, but never finds one that is none.
func (c limitedClass) contradict(conditions []condition) bool {
	ranges := c.heldRanges()
	for _, condition := range conditions {
		c.narrow(&ranges, condition)
	}
	c.writeOut(&ranges)
	for _, interval := range ranges.of {
		if interval.empty() {
			return true
		}
	}
	for i, sum := range ranges.sums {
		if ranges.nobody || ranges.beyond(sum) {
			return true
		}
		for _, other := range ranges.sums[i+1:] {
			if ranges.apart(sum, other) {
				return true
			}
		}
	}
	return ranges.nobody
}

// heldRanges gives what the rulebook's hold bounds allow of each measure that is read: nothing outside them is placed.
// Weights and areas are never below zero.
func (c limitedClass) heldRanges() measureRanges {
	ranges := measureRanges{of: map[measure.ID]*measureRange{}}
	for _, limit := range c.book.Limits {
		if _, computed := c.sumOf(limit.Measure); computed || limit.Species != "" && limit.Species != c.Species {
			continue
		}
		if limit.HoldBelow.Valid {
			ranges.rangeOf(limit.Measure).atLeast(limit.HoldBelow.Decimal)
		}
		if limit.HoldAbove.Valid {
			ranges.rangeOf(limit.Measure).atMost(limit.HoldAbove.Decimal)
		}
	}
	for _, definition := range c.book.Measures.Definitions() {
		if !definition.Computed && (definition.Unit == "lb" || definition.Unit == "sq in") && definition.For(string(c.Species)) {
			ranges.rangeOf(definition.ID).atLeast(decimal.Zero)
		}
	}
	return ranges
}

// comparedStep is the least by which two compared figures differ, and comparedHalf how far a figure is from what it was
// rounded from at most.
var (
	comparedStep = decimal.New(1, -grading.ComparedDecimals)
	comparedHalf = decimal.New(5, -grading.ComparedDecimals-1)
)

// narrow narrows the ranges to where a condition holds.
func (c limitedClass) narrow(ranges *measureRanges, condition condition) {
	requirement, bound := condition.limit.Requirement, condition.limit.Bound
	if !requirement.PerPound.IsZero() && requirement.LowestWord == "" {
		c.narrowByWeight(ranges, condition)
		return
	}
	// Passing a lower bound and failing an upper one both ask for much of a figure; the bound itself is in where it is
	// closed and is to be passed, or open and is to be failed.
	muchIsAsked, border := bound.Lower == condition.passes, bound.At.Round(grading.ComparedDecimals)
	switch {
	case bound.Closed == condition.passes:
	case muchIsAsked:
		border = border.Add(comparedStep)
	default:
		border = border.Sub(comparedStep)
	}
	id := requirement.Measure
	if cut, isCut := c.cutOf(id); isCut && requirement.LowestWord == "" {
		ranges.nobody = !cut.narrow(ranges.rangeOf(cut.from), border, muchIsAsked) || ranges.nobody
		return
	}
	if muchIsAsked {
		ranges.rangeOf(id).atLeast(border)
	} else {
		ranges.rangeOf(id).atMost(border)
	}
}

// narrowByWeight writes a condition on a bound that moves with the weight as a sum. A figure that is no plain sum counts
// as a measure of its own. The bound is rounded when it is compared, as the figure is.
func (c limitedClass) narrowByWeight(ranges *measureRanges, condition condition) {
	requirement, bound := condition.limit.Requirement, condition.limit.Bound
	figure, plain := c.sumOf(requirement.Measure)
	if !plain || figure.over != measure.None {
		figure = itself(requirement.Measure)
	}
	figure.coefficients[measure.HotCarcassWeight] = figure.coefficients[measure.HotCarcassWeight].Sub(requirement.PerPound)
	figure.margin = figure.margin.Add(comparedStep)
	if bound.Lower == condition.passes {
		ranges.sums = append(ranges.sums, figure.atLeast(bound.At))
	} else {
		ranges.sums = append(ranges.sums, figure.atMost(bound.At))
	}
}

// writeOut adds, for each computed figure with a range, the sum of what is read that it comes from.
func (c limitedClass) writeOut(ranges *measureRanges) {
	for id, of := range ranges.of {
		figure, isSum := c.sumOf(id)
		if !isSum {
			continue
		}
		if of.least.Valid {
			ranges.sums = append(ranges.sums, figure.atLeast(of.least.Decimal))
		}
		if of.most.Valid {
			ranges.sums = append(ranges.sums, figure.atMost(of.most.Decimal))
		}
	}
}

// beyond reports whether a sum is too great wherever the measures stand within their ranges. What is read may have more
// decimals than are compared.
func (r *measureRanges) beyond(sum boundedSum) bool {
	least := decimal.Zero
	for id, coefficient := range sum.coefficients {
		if coefficient.IsZero() {
			continue
		}
		end := r.rangeOf(id).least
		if coefficient.IsNegative() {
			end = r.rangeOf(id).most
		}
		if !end.Valid {
			return false
		}
		least = least.Add(coefficient.Mul(end.Decimal)).Sub(coefficient.Abs().Mul(comparedHalf))
	}
	return least.GreaterThan(sum.most)
}

// apart reports whether two sums are nowhere both within their bounds. Each is taken so many times that a measure cancels
// out of the two together: if they can be told apart by any two factors, they can by one of these.
func (r *measureRanges) apart(sum, other boundedSum) bool {
	for id, coefficient := range sum.coefficients {
		against := other.coefficients[id]
		if coefficient.Sign()*against.Sign() >= 0 {
			continue
		}
		if r.beyond(sum.times(against.Abs()).plus(other.times(coefficient.Abs()))) {
			return true
		}
	}
	return false
}

func (s boundedSum) times(factor decimal.Decimal) boundedSum {
	product := boundedSum{map[measure.ID]decimal.Decimal{}, s.most.Mul(factor)}
	for id, coefficient := range s.coefficients {
		product.coefficients[id] = coefficient.Mul(factor)
	}
	return product
}

// plus adds another sum to this one.
func (s boundedSum) plus(other boundedSum) boundedSum {
	s.most = s.most.Add(other.most)
	for id, coefficient := range other.coefficients {
		s.coefficients[id] = s.coefficients[id].Add(coefficient)
	}
	return s
}
