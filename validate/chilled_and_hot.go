package validate

import (
	"github.com/shopspring/decimal"

	"railbook/rules"
)

// chilledAndHot holds a carcass that weighs more chilled than hot, and has the judge look at one that lost
// unusually much or little in the cooler.
func chilledAndHot(s *survey) []Finding {
	var findings []Finding
	for _, r := range s.rows {
		hot, hasHot := r.Reading(rules.HotCarcassWeight)
		chilled, hasChilled := r.Reading(rules.ChilledCarcassWeight)
		if !hasHot || !hasChilled || hot.Value.Number.Sign() <= 0 ||
			!r.sound(rules.HotCarcassWeight, rules.ChilledCarcassWeight) {
			continue
		}
		loss := hot.Value.Number.Sub(chilled.Value.Number).Mul(hundred).DivRound(hot.Value.Number, 6)
		limit, limited := r.limit(chillLoss)
		if !limited {
			limit = newLimit(rules.Limit{HoldBelow: decimal.NewNullDecimal(decimal.Zero)})
		}
		level := limit.judge(loss)
		if level == "" {
			continue
		}
		words := "chilled weight " + withUnit(chilled.Value.Number, rules.ChilledCarcassWeight) + " is " + loss.StringFixed(1) +
			" % below the hot weight " + withUnit(hot.Value.Number, rules.HotCarcassWeight) + "; " +
			span(limit.LookBelow, limit.LookAbove) + " % is usual"
		if loss.Sign() < 0 {
			words = "chilled weight " + withUnit(chilled.Value.Number, rules.ChilledCarcassWeight) +
				" can't be above the hot weight " + withUnit(hot.Value.Number, rules.HotCarcassWeight)
		}
		finding := s.about(level, "chilled and hot weight disagree", r, rules.ChilledCarcassWeight)
		if likely, ok := s.likeliestChilled(hot.Value.Number, chilled.Value, limit); ok {
			finding.Hint = likely.value.String()
			words += "; it " + likely.meant()
		}
		findings = append(findings, finding.say(words+"."+correctIt))
	}
	return findings
}

// chillLoss is the weight lost in the cooler, percent of hot carcass weight.
const chillLoss rules.Measure = "chill loss"

// likeliestChilled gives the first slip whose mending brings the loss in the cooler into the usual stretch.
func (s *survey) likeliestChilled(hot decimal.Decimal, chilled rules.Value, limit *limit) (slip, bool) {
	for _, one := range likelySlips(rules.ChilledCarcassWeight, chilled, 0) {
		loss := hot.Sub(one.value).Mul(hundred).DivRound(hot, 6)
		if limit.judge(loss) == "" {
			return one, true
		}
	}
	return slip{}, false
}
