package writing

import (
	"railbook/grading"
	"railbook/rules"

	"github.com/shopspring/decimal"
)

// meanOf is the mean of a figure over the carcasses that have it.
func meanOf(all []*grading.Graded, measure rules.Measure) (decimal.Decimal, bool) {
	return sumOf(all, measure).mean()
}

func sumOf(all []*grading.Graded, measure rules.Measure) (sum addedUp) {
	for _, one := range all {
		if value, ok := one.Figure(measure); ok {
			sum.total, sum.count = sum.total.Add(value.Number), sum.count+1
		}
	}
	return sum
}

// sumsOf adds up the measures that some carcass has, for each of the groups; the last group is all the others together.
func sumsOf(groups []group, wanted []rules.Measure) (some []rules.Measure, sums map[rules.Measure][]addedUp) {
	sums = make(map[rules.Measure][]addedUp)
	for _, measure := range wanted {
		var overall addedUp
		for _, one := range groups[:len(groups)-1] {
			part := sumOf(one.all, measure)
			sums[measure] = append(sums[measure], part)
			overall = addedUp{overall.total.Add(part.total), overall.count + part.count}
		}
		sums[measure] = append(sums[measure], overall)
		if overall.count > 0 {
			some = append(some, measure)
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
