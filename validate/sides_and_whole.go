package validate

import (
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// sideTolerance is how far, in percent of the carcass, the two sides together may differ from the whole: scales are read
// to the pound, and a trimmed side is a pound or two lighter.
var sideTolerance = decimal.RequireFromString("1.5")

// sidesAndWhole has the judge look at a carcass whose two sides do not add up to the whole, and holds one whose sides
// differ so much that one of them must be wrong.
func sidesAndWhole(s *checker) []Finding {
	var findings []Finding
	for _, r := range s.rows {
		left, hasLeft := r.Value(measure.LeftSideWeight)
		right, hasRight := r.Value(measure.RightSideWeight)
		if !hasLeft || !hasRight || !r.sound(measure.LeftSideWeight, measure.RightSideWeight, measure.HotCarcassWeight) {
			continue
		}
		sides := left.Number.Add(right.Number)
		together := "left side " + withUnit(left.Number, measure.LeftSideWeight) + " and right side " +
			withUnit(right.Number, measure.RightSideWeight)
		whole, hasWhole := r.Value(measure.HotCarcassWeight)
		if hasWhole && farApart(sides, whole.Number, sideTolerance) {
			finding := s.about(Look, "sides and whole disagree", r, measure.HotCarcassWeight)
			finding.Hint = sides.String()
			findings = append(findings, finding.say(together+" make "+sides.String()+", but the whole carcass is given as "+
				withUnit(whole.Number, measure.HotCarcassWeight)+"."+correctIt))
		}
		if !hasWhole && farApart(left.Number, right.Number, decimal.NewFromInt(15)) {
			finding := s.about(Hold, "sides disagree", r, measure.LeftSideWeight)
			finding.Doubts = []measure.ID{measure.RightSideWeight}
			r.doubt(measure.LeftSideWeight, measure.RightSideWeight)
			findings = append(findings, finding.say(together+" can't be two sides of one carcass."+correctIt))
		}
	}
	return findings
}

// farApart reports whether two numbers differ by more than some percent of the second.
func farApart(a, b, percent decimal.Decimal) bool {
	return a.Sub(b).Abs().Mul(hundred).GreaterThan(b.Abs().Mul(percent))
}
