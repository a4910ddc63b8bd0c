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

// sumsOf adds up the measures that some carcass has, for each of the groups; the last group is all the others together.
func sumsOf(groups []group, wanted []measure.ID) (some []measure.ID, sums map[measure.ID][]addedUp) {
	sums = make(map[measure.ID][]addedUp)
	for _, id := range wanted {
		var overall addedUp
		for _, one := range groups[:len(groups)-1] {
			part := sumOf(one.all, id)
			sums[id] = append(sums[id], part)
			overall = addedUp{overall.total.Add(part.total), overall.count + part.count}
		}
		sums[id] = append(sums[id], overall)
		if overall.count > 0 {
			some = append(some, id)
		}
	}
	return some, sums
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
