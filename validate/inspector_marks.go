package validate

import "railbook/rules"

// inspectorMarks holds a carcass that the plant's inspector condemned or retained: it is never placed, and nothing else
// is asked about it.
func inspectorMarks(s *survey) []Finding {
	var findings []Finding
	for _, r := range s.rows {
		for _, mark := range []rules.Measure{rules.Condemned, rules.Retained} {
			if !r.marked(mark) {
				continue
			}
			words := "the plant's inspector " + string(mark) + " this carcass; it is not placed. The inspector alone decides."
			findings = append(findings, s.about(Hold, "carcass "+string(mark), r, mark).say(words))
			r.passed = true
		}
	}
	return findings
}
