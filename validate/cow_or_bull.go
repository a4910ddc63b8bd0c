package validate

import (
	"strings"

	"railbook/rules/measure"
)

// cowOrBull has the judge look at a cow or bull among market animals, since bulls get no quality grade and cows none
// above Choice.
func cowOrBull(s *survey) []Finding {
	var findings []Finding
	for _, r := range s.rows {
		reading, ok := r.Reading(measure.Sex)
		if !ok || r.passed {
			continue
		}
		words := ""
		switch strings.ToLower(strings.TrimSpace(reading.Value.Text)) {
		case "cow":
			words = "a cow can't grade Prime, and few market classes take one."
		case "bull":
			words = "a bull gets no quality grade."
		default:
			continue
		}
		findings = append(findings, s.about(Look, "cow or bull", r, measure.Sex).say(words+lookAtIt))
	}
	return findings
}
