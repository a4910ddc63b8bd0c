package validate

import "railbook/rules/measure"

// cowOrBull has the judge look at a cow or bull among market animals, since bulls get no quality grade and cows none
// above Choice.
func cowOrBull(s *checker) []Finding {
	var findings []Finding
	for _, r := range s.rows {
		if r.passed {
			continue
		}
		words := ""
		switch {
		case r.Is(measure.Cow):
			words = "a cow can't grade Prime, and few market classes take one."
		case r.Is(measure.Bull):
			words = "a bull gets no quality grade."
		default:
			continue
		}
		findings = append(findings, s.about(Look, "cow or bull", r, measure.Sex).say(words+lookAtIt))
	}
	return findings
}
