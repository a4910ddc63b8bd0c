package placing

import (
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
)

// Apart is what put one carcass of a class over another, in figures. One of Measure, Limit and Judge says it.
type Apart struct {
	Upper, Lower     Placed
	Measure          measure.ID // the key that decided
	OfUpper, OfLower string     // the figures of that key as they were compared
	Limit            string     // what the lower carcass fails of the limits of the class
	Judge            bool       // the judge put the upper one ahead
	Prices           []PriceGap // where the key is a price or comes of one: the parts that differ, the largest first
}

// PriceGap is how much a part of the grid pays the upper carcass more than the lower, $/cwt.
type PriceGap struct {
	Part             rules.Part
	OfUpper, OfLower string // the lines of the grid
	More             decimal.Decimal
}

// Apart gives what put one carcass of the class over another.
func (c *ClassPlacing) Apart(upper, lower Placed) Apart {
	apart := Apart{Upper: upper, Lower: lower}
	book := upper.Graded.Book
	ranker := c.Ranker(book)
	limits := LimitsOf(c.Entries(), book)
	above, below := limits.Failures(upper.Graded, book), limits.Failures(lower.Graded, book)
	decided := ranker.FirstDifference(upper.Graded, lower.Graded)
	switch {
	case upper.Overruled != "" || lower.Overruled != "":
		apart.Judge = true
	case below.After() && !above.After():
		apart.Limit = strings.Join(below.of(rules.FailAfter).words(), "; ")
	case decided < 0:
		apart.Judge = true
	default:
		key := c.Ranking.Keys[decided]
		apart.Measure = key.Measure
		apart.OfUpper, apart.OfLower = ranker.sayKey(upper.Graded, lower.Graded, key)
		if OfMoney(key.Measure) {
			apart.Prices = priceGaps(upper.Graded, lower.Graded)
		}
	}
	return apart
}

// OfMoney reports whether a measure follows from the value grid.
func OfMoney(id measure.ID) bool {
	switch id {
	case measure.Price, measure.CarcassValue, measure.Premium, measure.ValuePerDayOnFeed:
		return true
	}
	return false
}

// priceGaps gives the parts of the grid that pay the upper carcass more.
func priceGaps(upper, lower *grading.Graded) (gaps []PriceGap) {
	upperSteps, lowerSteps := upper.PriceSteps(), lower.PriceSteps()
	for _, part := range []rules.Part{rules.QualityPart, rules.YieldPart, rules.WeightPart, rules.MatrixPart, rules.PremiumPart, rules.ConditionPart} {
		ours, ourLine := partOf(upperSteps, part)
		theirs, theirLine := partOf(lowerSteps, part)
		if more := ours.Sub(theirs); more.IsPositive() {
			gaps = append(gaps, PriceGap{part, ourLine, theirLine, more})
		}
	}
	slices.SortStableFunc(gaps, func(a, b PriceGap) int { return b.More.Cmp(a.More) })
	return gaps
}

// partOf gives what a part of the grid adds to a price, and the lines that do.
func partOf(steps []grading.PriceStep, part rules.Part) (sum decimal.Decimal, lines string) {
	var words []string
	for _, step := range steps {
		if step.Part == part && step.Line != nil {
			sum = sum.Add(step.Adjust.Number)
			words = append(words, step.Words)
		}
	}
	return sum, strings.Join(words, ", ")
}
