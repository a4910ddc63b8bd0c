package validate

import (
	"railbook/rules/measure"
)

// missingTag holds a carcass without a tag: nobody could be given its place. It never doubts a carcass that has one.
func missingTag(s *checker) []Finding {
	var findings []Finding
	for _, r := range s.rows {
		if r.Tag != "" || r.ReadingOf(measure.Tag).Unreadable {
			continue
		}
		words := "this carcass has no tag, so it can't be said whose it is. Write its tag, or leave the carcass out in the " +
			"Judge review sheet."
		findings = append(findings, s.about(Hold, "tag missing", r, measure.Tag).say(words))
	}
	return findings
}
