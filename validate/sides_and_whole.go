package validate

import (
	"github.com/shopspring/decimal"

	"railbook/rules"
)

// sideTolerance is how far, in percent of the carcass, the two sides together may differ from the whole: scales are read
// to the pound, and a trimmed side is a pound or two lighter.
var sideTolerance = decimal.RequireFromString("1.5")

// sidesAndWhole has the judge look at a carcass whose two sides do not add up to the whole, and holds one whose sides
// differ so much that one of them must be wrong.
func sidesAndWhole(s *survey) []Finding {
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
			r.doubt(rules.LeftSideWeight, rules.RightSideWeight)
			findings = append(findings, finding.say(together+" can't be two sides of one carcass."+correctIt))
		}
	}
	return findings
}

// farApart reports whether two numbers differ by more than some percent of the second.
func farApart(a, b, percent decimal.Decimal) bool {
	return a.Sub(b).Abs().Mul(hundred).GreaterThan(b.Abs().Mul(percent))
}
