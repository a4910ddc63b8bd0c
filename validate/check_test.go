package validate

import (
	"testing"

	"railbook/rules"

	"github.com/shopspring/decimal"
)

func TestRowAndColumn(t *testing.T) {
	for cell, want := range map[string][2]int{"A1": {1, 1}, "G14": {14, 7}, "AA3": {3, 27}, "": {0, 0}, "G": {0, 0}} {
		row, column := rowAndColumn(cell)
		if want == [2]int{0, 0} && row == 0 {
			continue
		}
		if row != want[0] || column != want[1] {
			t.Errorf("%q is row %d, column %d; want %v", cell, row, column, want)
		}
	}
}

// At a bound nothing is said unless the limit holds at it too: fat of 2.0 in is held.
func TestJudgedAtTheBounds(t *testing.T) {
	number := func(text string) decimal.NullDecimal { return decimal.NewNullDecimal(decimal.RequireFromString(text)) }
	limit := newLimit(rules.Limit{HoldBelow: number("4"), LookBelow: number("9"), LookAbove: number("18"), HoldAbove: number("25")})
	for figure, want := range map[string]Level{
		"3.99": Hold, "4": Look, "8.99": Look, "9": "", "18": "", "18.01": Look, "25": Look, "25.01": Hold,
	} {
		if got := limit.judge(decimal.RequireFromString(figure)); got != want {
			t.Errorf("%s is %q, want %q", figure, got, want)
		}
	}
	limit.HoldAt = true
	if got := limit.judge(decimal.RequireFromString("25")); got != Hold {
		t.Errorf("25 with the bound held is %q, want hold", got)
	}
}
