package words

import (
	"testing"

	"railbook/grading/whatif"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// The sentences that stand on a family's card; no published source has such words.
func TestCost(t *testing.T) {
	dollars := decimal.NewNullDecimal(decimal.RequireFromString("24.9"))
	for _, test := range []struct {
		cost whatif.Cost
		want string
	}{
		{whatif.Cost{Measure: measure.DarkCutter, Worth: dollars}, "Dark cutter took off $24.90."},
		{
			whatif.Cost{Measure: measure.DarkCutter, Worth: dollars, Was: "Select", Becomes: "Low Choice"},
			"Dark cutter took off $24.90: the grade is Select and not Low Choice.",
		},
		{whatif.Cost{Measure: measure.DarkCutter, Was: "Select", Becomes: "Low Choice"}, "Dark cutter made the grade Select and not Low Choice."},
		{
			whatif.Cost{Measure: measure.Maturity, Read: "C30", Else: "the youngest", Worth: dollars},
			"Maturity, C30, took off $24.90, set beside the youngest.",
		},
		{
			whatif.Cost{Measure: measure.Maturity, Read: "C30", Else: "the youngest", Was: "Commercial", Becomes: "Choice"},
			"Maturity, C30, made the grade Commercial and not Choice, set beside the youngest.",
		},
	} {
		if got := Cost(test.cost); got != test.want {
			t.Errorf("%q, want %q", got, test.want)
		}
	}
}
