package validate

import (
	"github.com/shopspring/decimal"

	"railbook/rules"
)

// chilledHeavierThanHot holds a carcass that weighs more chilled than hot, and has the judge look at one that lost
// unusually much or little in the cooler.
func chilledHeavierThanHot(s *survey) []Finding {
	var findings []Finding
	for _, r := range s.rows {
		hot, hasHot := r.Reading(rules.HotCarcassWeight)
		chilled, hasChilled := r.Reading(rules.ChilledCarcassWeight)
		if !hasHot || !hasChilled || hot.Value.Number.Sign() <= 0 ||
			!r.sound(rules.HotCarcassWeight, rules.ChilledCarcassWeight) {
			continue
		}
		loss := hot.Value.Number.Sub(chilled.Value.Number).Mul(hundred).DivRound(hot.Value.Number, 6)
		limit, limited := s.limit(r, chillLoss)
		level := judged(limit, loss)
		if !limited && loss.Sign() < 0 {
			level = Hold
		}
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
			finding.Hint = likely.value.Number.String()
			words += "; it looks like " + explanation{slip: likely}.meant()
		}
		findings = append(findings, finding.say(words+"."+correctIt))
	}
	return findings
}

// chillLoss is the weight lost in the cooler, percent of hot carcass weight.
const chillLoss rules.Measure = "chill loss"

// likeliestChilled gives the first slip whose mending brings the loss in the cooler into the usual stretch.
func (s *survey) likeliestChilled(hot decimal.Decimal, chilled rules.Value, limit rules.Limit) (slip, bool) {
	for _, one := range likelySlips(rules.ChilledCarcassWeight, chilled, 0) {
		loss := hot.Sub(one.value.Number).Mul(hundred).DivRound(hot, 6)
		if judged(limit, loss) == "" {
			return one, true
		}
	}
	return slip{}, false
}

// sideTolerance is how far, in percent of the carcass, the two sides together may differ from the whole: scales are read
// to the pound, and a trimmed side is a pound or two lighter.
var sideTolerance = decimal.RequireFromString("1.5")

// sidesDisagree has the judge look at a carcass whose two sides do not add up to the whole, and holds one whose sides
// differ so much that one of them must be wrong.
func sidesDisagree(s *survey) []Finding {
	var findings []Finding
	for _, r := range s.rows {
		left, hasLeft := r.Reading(rules.LeftSideWeight)
		right, hasRight := r.Reading(rules.RightSideWeight)
		if !hasLeft || !hasRight || !r.sound(rules.LeftSideWeight, rules.RightSideWeight, rules.HotCarcassWeight) {
			continue
		}
		sides := left.Value.Number.Add(right.Value.Number)
		together := "left side " + withUnit(left.Value.Number, rules.LeftSideWeight) + " and right side " +
			withUnit(right.Value.Number, rules.RightSideWeight)
		whole, hasWhole := r.Reading(rules.HotCarcassWeight)
		if hasWhole && farApart(sides, whole.Value.Number, sideTolerance) {
			finding := s.about(Look, "sides and whole disagree", r, rules.HotCarcassWeight)
			finding.Hint = sides.String()
			findings = append(findings, finding.say(together+" make "+sides.String()+", but the whole carcass is given as "+
				withUnit(whole.Value.Number, rules.HotCarcassWeight)+"."+correctIt))
		}
		if !hasWhole && farApart(left.Value.Number, right.Value.Number, decimal.NewFromInt(15)) {
			finding := s.about(Hold, "sides disagree", r, rules.LeftSideWeight)
			findings = append(findings, finding.say(together+" can't be two sides of one carcass."+correctIt))
		}
	}
	return findings
}

// farApart reports whether two numbers differ by more than some percent of the second.
func farApart(a, b, percent decimal.Decimal) bool {
	return a.Sub(b).Abs().Mul(hundred).GreaterThan(b.Abs().Mul(percent))
}
