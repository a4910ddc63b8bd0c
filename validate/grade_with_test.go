package validate

import (
	"testing"

	"railbook/rules"
	"railbook/rules/measure"
)

// A grade that is remembered for carcasses alike is the one that each has by itself: maturity, dark lean and the sex count.
func TestRememberedGradesAreTheCarcassesOwn(t *testing.T) {
	var rows []drawn
	for _, text := range []string{"", "maturity=320", "maturity=250", "dark cutter=yes; dark cutter lowering=2", "sex=Cow", "sex=Bull", "hardbone=yes; maturity=350"} {
		rows = append(rows, trueRow(t).but(t, "sheet quality grade=Low Choice").but(t, text))
	}
	batch := drawLot(t, rules.Beef, rows...)
	s := newChecker(batch)
	for _, r := range s.rows {
		m, i := s.modelOf(r)
		for marbling := 110.0; marbling < 990; marbling += 40 {
			remembered, ok := m.gradeWith(m.rows[i], marbling)
			number := m.decimal(marbling)
			own, has := s.with(r, map[measure.ID]measure.Value{measure.Marbling: {Number: number}}).Figure(measure.QualityGrade)
			if ok != has || remembered.Text != own.Text {
				t.Errorf("row %d, marbling %v: remembered %q, its own is %q", i, marbling, remembered.Text, own.Text)
			}
		}
	}
}
