package validate

import (
	"railbook/rules/measure"
)

// carcassHeavierThanLive holds a carcass that weighs as much as the live animal or more.
func carcassHeavierThanLive(s *checker) []Finding {
	var findings []Finding
	for _, r := range s.rows {
		carcass, hasCarcass := r.number(measure.HotCarcassWeight)
		live, hasLive := r.number(measure.LiveWeight)
		if !hasCarcass || !hasLive || carcass.LessThan(live) || !r.sound(measure.HotCarcassWeight, measure.LiveWeight) {
			continue
		}
		words := "the carcass can't weigh " + withUnit(carcass, measure.HotCarcassWeight) + " where the live animal weighed " +
			withUnit(live, measure.LiveWeight)
		findings = append(findings, s.weightFinding(r, Hold, "carcass heavier than live", words))
	}
	return findings
}
