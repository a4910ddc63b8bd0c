package validate

import (
	"slices"

	"railbook/rules/measure"
)

// missingClass holds a carcass without a class beside others of its sheet that have one: it can't be said against whom it
// is placed. Sheets without classes are one class, and nothing is said. It never doubts a carcass that has a class.
func missingClass(s *checker) []Finding {
	var findings []Finding
	for i := range s.Sheets {
		rows := s.Sheets[i].rows
		if !classed(rows) {
			continue
		}
		where := " in a column headed Class"
		if slices.ContainsFunc(rows, func(r *row) bool { return r.ReadingOf(measure.ClassName).Place.Sheet == r.Place.Sheet }) {
			where = ""
		}
		for _, r := range rows {
			if r.Class != "" || r.ReadingOf(measure.ClassName).Unreadable {
				continue
			}
			finding := s.about(Hold, "class missing", r, measure.ClassName)
			finding.At = s.cellFor(r, measure.ClassName)
			findings = append(findings, finding.say("this carcass has no class, though others of the sheet have one. Write its class"+where+", "+
				"or leave the carcass out in the Judge review sheet."))
		}
	}
	return findings
}

func classed(rows []*row) bool {
	for _, r := range rows {
		if r.Class != "" {
			return true
		}
	}
	return false
}
