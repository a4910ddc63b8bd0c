package result

import (
	"railbook/grading"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// MeanOf is the mean of a figure over the carcasses that have it.
func MeanOf(all []*grading.Graded, id measure.ID) (decimal.Decimal, bool) {
	return SumOf(all, id).Mean()
}

func SumOf(all []*grading.Graded, id measure.ID) (sum AddedUp) {
	for _, graded := range all {
		if value, ok := graded.Figure(id); ok {
			sum.total.Add(value.Number)
			sum.Count++
		}
	}
	return sum
}

// AddedUp is a figure added up over the carcasses that have it.
type AddedUp struct {
	Count int64
	total measure.Sum
}

// And adds up two groups of carcasses together.
func (s AddedUp) And(other AddedUp) AddedUp {
	s.total.Add(other.total.Number())
	return AddedUp{s.Count + other.Count, s.total}
}

func (s AddedUp) Mean() (decimal.Decimal, bool) {
	if s.Count == 0 {
		return decimal.Zero, false
	}
	return measure.Divide(s.total.Number(), decimal.NewFromInt(s.Count), 6), true
}
