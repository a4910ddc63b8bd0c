package validate

import (
	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// chilledAndHot holds a carcass that weighs more chilled than hot, and has the judge look at one that lost
// unusually much or little in the cooler.
func chilledAndHot(s *checker) []Finding {
	var findings []Finding
	for _, r := range s.rows {
		hot, hasHot := r.Value(measure.HotCarcassWeight)
		chilled, hasChilled := r.Value(measure.ChilledCarcassWeight)
		if !hasHot || !hasChilled || hot.Number.Sign() <= 0 ||
			!r.sound(measure.HotCarcassWeight, measure.ChilledCarcassWeight) {
			continue
		}
		loss := hot.Number.Sub(chilled.Number).Mul(hundred).DivRound(hot.Number, 6)
		limit, limited := r.limit(measure.ChillLoss)
		if !limited {
			limit = newLimit(rules.Limit{HoldBelow: decimal.NewNullDecimal(decimal.Zero)})
		}
		level := limit.judge(loss)
		if level == "" {
			continue
		}
		words := "chilled weight " + withUnit(chilled.Number, measure.ChilledCarcassWeight) + " is " + loss.StringFixed(1) +
			" % below the hot weight " + withUnit(hot.Number, measure.HotCarcassWeight) + "; " +
			span(limit.LookBelow, limit.LookAbove) + " % is usual"
		if loss.Sign() < 0 {
			words = "chilled weight " + withUnit(chilled.Number, measure.ChilledCarcassWeight) +
				" can't be above the hot weight " + withUnit(hot.Number, measure.HotCarcassWeight)
		}
		finding := s.about(level, "chilled and hot weight disagree", r, measure.ChilledCarcassWeight)
		finding.Doubts = []measure.ID{measure.HotCarcassWeight}
		if likely, ok := s.likeliestChilled(hot.Number, chilled, limit); ok {
			finding.Hint, finding.Doubts = likely.value.String(), nil
			words += "; it " + likely.meant()
		}
		findings = append(findings, finding.say(words+"."+correctIt))
	}
	return findings
}

// likeliestChilled gives the first slip whose mending brings the loss in the cooler into the usual stretch.
func (s *checker) likeliestChilled(hot decimal.Decimal, chilled measure.Value, limit *limit) (slip, bool) {
	for _, slip := range append(scaleSlips(measure.ChilledCarcassWeight, chilled), swapSlips(chilled.Number)...) {
		loss := hot.Sub(slip.value).Mul(hundred).DivRound(hot, 6)
		if limit.judge(loss) == "" {
			return slip, true
		}
	}
	return slip{}, false
}
