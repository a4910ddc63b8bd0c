package validate

import (
	"railbook/grading"
	"railbook/rules"
)

// missingColumn says once for a sheet what none of its carcasses has and none can be placed without.
func missingColumn(s *survey) []Finding {
	var findings []Finding
	for i := range s.Sheets {
		sheet := &s.Sheets[i]
		figure, why, all := s.lackedByAll(s.sheets[sheet])
		if !all {
			continue
		}
		finding := Finding{Level: Hold, Code: "column missing", At: sheet.Heading}
		words := "none of the carcasses here has a " + called(figure)
		if why != "" && why != "no "+string(figure) {
			words += " (" + why + ")"
		}
		findings = append(findings, finding.say(words+
			", so none can be placed. Add the column, or name the one that holds it if the program did not recognise its heading."))
		for _, r := range s.sheets[sheet] {
			r.unplaceable = true
		}
	}
	return findings
}

// lackedByAll gives the figure that at least two carcasses, and all of them, lack for the same reason.
func (s *survey) lackedByAll(rows []*row) (figure rules.Measure, why string, all bool) {
	asked := 0
	for _, r := range rows {
		if r.passed {
			continue
		}
		lacked, reason, lacks := lacking(r.Graded)
		if !lacks || asked > 0 && (lacked != figure || reason != why) {
			return "", "", false
		}
		figure, why = lacked, reason
		asked++
	}
	return figure, why, asked > 1
}

// lacking gives the first measure that a carcass lacks and can't be placed without, with why.
func lacking(graded *grading.Graded) (measure rules.Measure, why string, lacks bool) {
	for _, measure := range grading.Needed(graded.Species, graded.Basis) {
		if _, ok := graded.Figure(measure); !ok {
			return measure, graded.Figures[measure].Missing, true
		}
	}
	return "", "", false
}
