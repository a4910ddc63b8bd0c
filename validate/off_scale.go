package validate

import (
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// The scale of pork marbling runs from 1 to 6, and then there is 10 (pork quality standards poster 2010).
var topOfSteps, aboveSteps = decimal.NewFromInt(6), decimal.NewFromInt(10)

// offScale holds a pork marbling between 6 and 10, where its scale has no step.
func offScale(s *checker) []Finding {
	var findings []Finding
	for _, r := range s.rows {
		score, ok := r.Value(measure.PorkMarbling)
		if !ok || !r.sound(measure.PorkMarbling) || !score.Number.GreaterThan(topOfSteps) || !score.Number.LessThan(aboveSteps) {
			continue
		}
		findings = append(findings, s.about(Hold, "score off the scale", r, measure.PorkMarbling).say(
			"marbling "+score.Number.String()+" is no step of the scale, which runs from 1 to 6 and then has 10."+correctIt))
	}
	return findings
}
