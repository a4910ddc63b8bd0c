package validate

import (
	"railbook/rules/measure"
)

// startAndFinalWeight holds an animal that weighed no less at the start of feeding than at its end. No true row is named.
func startAndFinalWeight(s *checker) []Finding {
	var findings []Finding
	for _, r := range s.rows {
		start, hasStart := r.Value(measure.StartWeight)
		if !hasStart || !r.sound(measure.StartWeight, measure.LiveWeight) {
			continue
		}
		for _, final := range []measure.ID{measure.LiveWeight, measure.FairWeight} {
			end, has := r.Value(final)
			if !has || start.Number.LessThan(end.Number) {
				continue
			}
			findings = append(findings, s.about(Hold, "start weight not below the final weight", r, measure.StartWeight).say(
				"start weight "+withUnit(start.Number, measure.StartWeight)+" is not below the "+final.String()+" "+
					withUnit(end.Number, final)+"."+correctIt))
			break
		}
	}
	return findings
}
