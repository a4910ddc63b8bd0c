package whatif

import (
	"railbook/grading"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// variedMeasure is a measure of a carcass with what grading gave for other numbers of it, each a whole count of measuring
// steps from its own.
type variedMeasure struct {
	*grading.Varied
	graded      *grading.Graded
	measure     measure.ID
	from        measure.Value
	least, most decimal.Decimal // how far it may be moved
	size        decimal.Decimal // of a measuring step
	tried       map[int64]*grading.Graded
}

func vary(g *grading.Graded, id measure.ID) *variedMeasure {
	from, _ := g.Figure(id)
	v := &variedMeasure{
		Varied: g.Vary(id), graded: g, measure: id, from: from, size: measuringStep(id), tried: map[int64]*grading.Graded{0: g},
	}
	v.least, v.most = usualRange(g, id, from.Number)
	return v
}

// at grades the carcass so many measuring steps away.
func (v *variedMeasure) at(steps int64) *grading.Graded {
	if v.tried[steps] == nil {
		v.tried[steps] = v.At(valueAt(v.measure, v.from.Number.Add(v.size.Mul(decimal.NewFromInt(steps)))))
	}
	return v.tried[steps]
}

// valueAt is the value of a number, a marbling in words.
func valueAt(id measure.ID, number decimal.Decimal) measure.Value {
	value := measure.NumberValue(number)
	if grading.DefinitionOf(id).Kind == measure.KindMarbling {
		value.Text = grading.FormatMarbling(number)
	}
	return value
}

// move finds the smallest change of the measure that reaches the next step. Of two changes that are equally small, the one
// downward is taken.
func (v *variedMeasure) move(step measure.ID) (Move, bool) {
	isWeight := grading.DefinitionOf(v.measure).Unit == "lb"
	if isWeight && step != measure.Price {
		return Move{}, false
	}
	was, _ := v.graded.Figure(step)
	search := search{variedMeasure: v, step: step, was: was.Number, isWeight: isWeight}
	steps := search.nearest()
	if steps == 0 {
		return Move{}, false
	}
	other := v.at(steps)
	is, _ := other.Figure(step)
	move := Move{Measure: v.measure, From: v.from, To: other.ReadingOf(v.measure).Value, Reached: step, Was: was, Becomes: is}
	move.share = move.change().DivRound(v.most.Sub(v.least), grading.ComparedDecimals)
	move.Price, move.Worth = gained(v.graded, other, measure.Price), gained(v.graded, other, measure.CarcassValue)
	if isWeight && !move.Worth.Decimal.IsPositive() {
		return Move{}, false // a better price for fewer pounds, and less money in all
	}
	if step == measure.Price {
		move.Pays = stepChanged(v.graded, other)
	}
	return move, true
}

// search looks for the nearest number of a measure that reaches a step.
type search struct {
	*variedMeasure
	step     measure.ID
	was      decimal.Decimal // of the step
	isWeight bool
	sign     int64 // the way that is looked: 1 up, −1 down
}

// nearest is how many measuring steps away the nearest number is that reaches the step; 0 where none does.
func (s *search) nearest() int64 {
	below, above := s.count(s.from.Number.Sub(s.least)), s.count(s.most.Sub(s.from.Number))
	down := s.nearestOf(-1, -above, below)
	if down > 0 {
		above = min(above, down-1)
	}
	if up := s.nearestOf(1, -below, above); up > 0 {
		return up
	}
	return -down
}

// count is how many whole measuring steps a difference holds, rounded down.
func (s *search) count(difference decimal.Decimal) int64 {
	steps, rest := difference.QuoRem(s.size, 0)
	if rest.IsNegative() {
		steps = steps.Sub(grading.One)
	}
	return steps.IntPart()
}

// nearestOf gives the least of the counts from first to last that reaches the step on one side; 0 where none does. A count
// of one or more is wanted: the first is greater where the carcass's own number lies outside what it may be moved to.
func (s *search) nearestOf(sign, first, last int64) int64 {
	s.sign = sign
	if max(first, 1) > last {
		return 0
	}
	if first > 0 && s.reaches(first) {
		return first
	}
	return s.between(max(first, 0), last)
}

// between gives the least count above one that does not reach the step, up to the last.
func (s *search) between(short, last int64) int64 {
	if short == last || s.nothingBetween(short, last) {
		return 0
	}
	if last == short+1 {
		if s.reaches(last) {
			return last
		}
		return 0
	}
	middle := short + (last-short)/2
	if found := s.between(short, middle); found > 0 {
		return found
	}
	return s.between(middle, last)
}

// nothingBetween reports whether neither the last count nor any between the two reaches the step, as the first does not.
func (s *search) nothingBetween(short, last int64) bool {
	near, far := s.at(s.sign*short), s.at(s.sign*last)
	if s.step != measure.Price && s.rises(short) {
		return false // what it is paid for its weight keeps it from reaching the step, and may change between the two
	}
	if s.AlikeBetween(near, far, s.step) {
		return true
	}
	if s.step == measure.Price || s.rises(last) || !s.OneWay(s.step) {
		return false
	}
	_, has := near.Figure(s.step)
	_, hasFar := far.Figure(s.step)
	return has && hasFar
}

// reaches reports whether the carcass so many measuring steps away is a step better, and, by its weight, paid otherwise.
func (s *search) reaches(steps int64) bool {
	return s.rises(steps) && !(s.isWeight && paidAlikeForWeight(s.graded, s.at(s.sign*steps)))
}

// rises reports whether the carcass so many measuring steps away is a step better.
func (s *search) rises(steps int64) bool {
	is, has := s.at(s.sign * steps).Figure(s.step)
	return has && better(s.step, is.Number, s.was)
}

// usualRange is how far a measure may be moved: within the limits that nobody is asked to look at, or, for a measure that
// is outside them already, within those of what can be true. Nothing goes below zero.
func usualRange(g *grading.Graded, id measure.ID, from decimal.Decimal) (least, most decimal.Decimal) {
	least, most = decimal.Zero, from.Mul(decimal.NewFromInt(2)).Add(decimal.NewFromInt(1))
	if grading.DefinitionOf(id).Kind == measure.KindMarbling {
		most = decimal.NewFromInt(highestMarbling)
	}
	for _, limit := range g.Book.Limits {
		if limit.Species != g.Species || limit.Measure != id {
			continue
		}
		if bound := firstBeyond(from, decimal.Decimal.LessThanOrEqual, limit.LookBelow, limit.HoldBelow); bound.Valid {
			least = decimal.Max(least, bound.Decimal)
		}
		if bound := firstBeyond(from, decimal.Decimal.GreaterThanOrEqual, limit.LookAbove, limit.HoldAbove); bound.Valid {
			most = bound.Decimal
		}
	}
	return least, most
}

// firstBeyond gives the first bound that the figure has not passed.
func firstBeyond(from decimal.Decimal, beyond func(a, b decimal.Decimal) bool, bounds ...decimal.NullDecimal) decimal.NullDecimal {
	for _, bound := range bounds {
		if bound.Valid && beyond(bound.Decimal, from) {
			return bound
		}
	}
	return decimal.NullDecimal{}
}
