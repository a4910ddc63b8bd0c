package validate

import "railbook/rules"

// startAndFinalWeight holds an animal that weighed no less at the start of feeding than at its end. No true row is named.
func startAndFinalWeight(s *survey) []Finding {
	var findings []Finding
	for _, r := range s.rows {
		start, hasStart := r.Reading(rules.StartWeight)
		if !hasStart || !r.sound(rules.StartWeight, rules.LiveWeight) {
			continue
		}
		for _, final := range []rules.Measure{rules.LiveWeight, rules.FairWeight} {
			end, has := r.Reading(final)
			if !has || start.Value.Number.LessThan(end.Value.Number) {
				continue
			}
			findings = append(findings, s.about(Hold, "start weight not below the final weight", r, rules.StartWeight).say(
				"start weight "+withUnit(start.Value.Number, rules.StartWeight)+" is not below the "+string(final)+" "+
					withUnit(end.Value.Number, final)+"."+correctIt))
			break
		}
	}
	return findings
}
