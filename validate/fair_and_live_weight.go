package validate

import (
	"github.com/shopspring/decimal"

	"railbook/rules"
)

// fairTolerance is how far, in percent, the plant's live weight may lie from the fair's: animals shrink on the way and
// fill up again, by 3 to 5 % as a rule and seldom by more than 8.
var fairTolerance = decimal.NewFromInt(8)

// fairAndLiveWeight has the judge look at an animal whose live weight at the plant is far from the fair's own weigh-in.
// Where weeks lie between the two it names true rows.
func fairAndLiveWeight(s *survey) []Finding {
	var findings []Finding
	for _, r := range s.rows {
		fair, hasFair := r.Reading(rules.FairWeight)
		live, hasLive := r.Reading(rules.LiveWeight)
		if !hasFair || !hasLive || !farApart(live.Value.Number, fair.Value.Number, fairTolerance) ||
			!r.sound(rules.LiveWeight, rules.HotCarcassWeight) {
			continue
		}
		words := "the plant's live weight " + withUnit(live.Value.Number, rules.LiveWeight) + " is far from the fair's " +
			withUnit(fair.Value.Number, rules.FairWeight)
		likely, ok := s.likeliest(r, rules.LiveWeight)
		if !ok || farApart(likely.value, fair.Value.Number, fairTolerance) {
			findings = append(findings, s.about(Look, "fair and live weight disagree", r, rules.LiveWeight).say(words+"."+correctIt))
			continue
		}
		finding := s.about(Look, "fair and live weight disagree", r, rules.LiveWeight)
		finding.Hint = likely.value.String()
		findings = append(findings, finding.say(words+"; it "+likely.meant()+"."+correctIt))
	}
	return findings
}
