package validate

import (
	"testing"

	"railbook/rules"
)

// Each row costs the same, however long the sheet: four times the rows take four times the work, counted in pieces of memory
// asked for, which every slip that is tried and every pair of rows that is compared asks for.
func TestChecksAreLinearInRows(t *testing.T) {
	work := func(count int) float64 {
		lot := drawLot(t, rules.Beef, manyRows(t, count)...)
		return testing.AllocsPerRun(1, func() { Check(lot) })
	}
	few, many := work(500), work(2000)
	if ratio := many / few; ratio > 4.4 {
		t.Errorf("2,000 rows take %.0f pieces of memory, 500 take %.0f: %.2f times as many for four times the rows", many, few, ratio)
	}
}
