package validate

import (
	"math"

	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// limit is a rulebook's limit with its look bounds as floats, by which most figures are passed at once.
type limit struct {
	rules.Limit
	from, upTo float64
}

func newLimit(of rules.Limit) *limit {
	made := &limit{of, math.Inf(-1), math.Inf(1)}
	for _, bound := range []decimal.NullDecimal{of.HoldBelow, of.LookBelow} {
		if bound.Valid {
			made.from = math.Max(made.from, floatOf(bound.Decimal))
		}
	}
	for _, bound := range []decimal.NullDecimal{of.HoldAbove, of.LookAbove} {
		if bound.Valid {
			made.upTo = math.Min(made.upTo, floatOf(bound.Decimal))
		}
	}
	return made
}

// hair is how near to a bound a float is held beside it exactly.
const hair = 1e-6

// judge says at what level a figure lies outside the limit; empty within it. What is not plainly within is compared
// exactly.
func (l *limit) judge(figure decimal.Decimal) Level {
	if float := floatOf(figure); float > l.from+hair && float < l.upTo-hair {
		return ""
	}
	switch {
	case beyond(&l.HoldBelow, figure, -1, l.HoldAt), beyond(&l.HoldAbove, figure, 1, l.HoldAt):
		return Hold
	case beyond(&l.LookBelow, figure, -1, false), beyond(&l.LookAbove, figure, 1, false):
		return Look
	}
	return ""
}

// beyond reports whether a figure lies on one side of a bound, or at it where that counts.
func beyond(bound *decimal.NullDecimal, figure decimal.Decimal, side int, at bool) bool {
	if !bound.Valid {
		return false
	}
	order := figure.Cmp(bound.Decimal)
	return order == side || at && order == 0
}

// limit gives what the rulebook holds plausible for a measure of the carcass.
func (r *row) limit(id measure.ID) (*limit, bool) {
	of, ok := r.kind.limit[id]
	return of, ok
}
