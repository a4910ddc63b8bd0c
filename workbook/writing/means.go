package writing

import (
	"railbook/grading"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// meanOf is the mean of a figure over the carcasses that have it.
func meanOf(all []*grading.Graded, id measure.ID) (decimal.Decimal, bool) {
	return sumOf(all, id).mean()
}

func sumOf(all []*grading.Graded, id measure.ID) (sum addedUp) {
	for _, one := range all {
		if value, ok := one.Figure(id); ok {
			sum.total, sum.count = sum.total.Add(value.Number), sum.count+1
		}
	}
	return sum
}

// addedUp is a figure added up over the carcasses that have it.
type addedUp struct {
	total decimal.Decimal
	count int64
}

func (s addedUp) mean() (decimal.Decimal, bool) {
	if s.count == 0 {
		return decimal.Zero, false
	}
	return s.total.DivRound(decimal.NewFromInt(s.count), 6), true
}
