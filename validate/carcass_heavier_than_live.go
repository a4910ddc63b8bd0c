package validate

import "railbook/rules"

// carcassHeavierThanLive holds a carcass that weighs as much as the live animal or more.
func carcassHeavierThanLive(s *survey) []Finding {
	var findings []Finding
	for _, r := range s.rows {
		carcass, hasCarcass := r.number(rules.HotCarcassWeight)
		live, hasLive := r.number(rules.LiveWeight)
		if !hasCarcass || !hasLive || carcass.LessThan(live) || !r.sound(rules.HotCarcassWeight, rules.LiveWeight) {
			continue
		}
		words := "the carcass can't weigh " + withUnit(carcass, rules.HotCarcassWeight) + " where the live animal weighed " +
			withUnit(live, rules.LiveWeight)
		findings = append(findings, s.weightFinding(r, Hold, "carcass heavier than live", words))
	}
	return findings
}
