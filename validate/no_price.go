package validate

import (
	"railbook/grading"
	"railbook/rules/measure"
)

// noPrice has the judge know of a carcass that the grid does not price. It is placed all the same, but a place by value
// can't be given, and it is never priced at zero. Only where the board has set a base price for the species.
func noPrice(s *checker) []Finding {
	var findings []Finding
	for _, r := range s.rows {
		figure, has := r.Computed(measure.Price)
		if !has || figure.Value.Text != grading.NoPrice || r.passed || r.held {
			continue
		}
		findings = append(findings, s.aboutRow(Note, "no price in the grid", r).say(figure.Missing+
			"; this carcass has no value. Add the line to the value grid if it should have one."))
	}
	return findings
}
