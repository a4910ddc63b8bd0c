package validate

import (
	"testing"

	"railbook/rules"
)

// Each row costs the same, however long the sheet: three times the rows take three times the work, counted in pieces of memory
// asked for, which every slip that is tried and every pair of rows that is compared asks for.
func TestChecksAreLinearInRows(t *testing.T) {
	work := func(count int) float64 {
		lot := drawLot(t, rules.Beef, manyRows(t, count)...)
		return testing.AllocsPerRun(1, func() { Check(lot) })
	}
	few, many := work(600), work(1800)
	if ratio := many / few; ratio > 3.3 {
		t.Errorf("1,800 rows take %.0f pieces of memory, 600 take %.0f: %.2f times as many for three times the rows", many, few, ratio)
	}
}
