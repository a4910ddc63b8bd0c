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
			sum.Total, sum.Count = sum.Total.Add(value.Number), sum.Count+1
		}
	}
	return sum
}

// AddedUp is a figure added up over the carcasses that have it.
type AddedUp struct {
	Total decimal.Decimal
	Count int64
}

func (s AddedUp) Mean() (decimal.Decimal, bool) {
	if s.Count == 0 {
		return decimal.Zero, false
	}
	return s.Total.DivRound(decimal.NewFromInt(s.Count), 6), true
}
