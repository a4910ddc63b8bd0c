package validate

import (
	"railbook/rules/measure"
)

// inspectorMarks holds a carcass that the plant's inspector condemned or retained: it is never placed, and nothing else
// is asked about it.
func inspectorMarks(s *checker) []Finding {
	var findings []Finding
	for _, r := range s.rows {
		for _, mark := range []measure.ID{measure.Condemned, measure.Retained} {
			if !r.Is(mark) {
				continue
			}
			words := "the plant's inspector " + mark.String() + " this carcass; it is not placed. The inspector alone decides."
			findings = append(findings, s.about(Hold, "carcass "+mark.String(), r, mark).say(words))
			r.passed = true
		}
	}
	return findings
}
