package validate

import (
	"railbook/grading"
	"railbook/rules/measure"
)

// with gives the carcass as it would be graded with other values in some of its cells.
func (s *checker) with(r *row, changes map[measure.ID]measure.Value) *row {
	changed := r.Carcass.Clone()
	for id, value := range changes {
		reading := changed.ReadingOf(id)
		reading.Value, reading.Unreadable = value, false
		changed.SetReading(id, reading)
	}
	return &row{Graded: grading.Grade(changed, s.Book), sheet: r.sheet, kind: r.kind}
}
