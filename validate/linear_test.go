package validate

import (
	"testing"

	"railbook/rules"
)

// Each row costs the same, however long the sheet: three times the rows take three times the work, counted in pieces of memory
// asked for and in slips tried, those between rows among them.
func TestChecksAreLinearInRows(t *testing.T) {
	work := func(count int) (pieces, slips float64) {
		batch := drawLot(t, rules.Beef, manyRows(t, count)...)
		s := newChecker(batch)
		for _, r := range s.rows {
			m, i := s.modelOf(r)
			slips += float64(len(m.exchangedWith(i, &m.work)) + len(m.cluesAlone(i, &m.work)))
		}
		return testing.AllocsPerRun(1, func() { Check(batch) }), slips
	}
	fewPieces, fewSlips := work(400)
	manyPieces, manySlips := work(1200)
	for what, ratio := range map[string]float64{"pieces of memory": manyPieces / fewPieces, "slips": manySlips / fewSlips} {
		if ratio > 3.3 {
			t.Errorf("1,200 rows take %.2f times as many %s as 400", ratio, what)
		}
	}
}
