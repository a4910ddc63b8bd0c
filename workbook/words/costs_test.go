package words

import (
	"testing"

	"railbook/grading"
	"railbook/grading/whatif"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// The sentences that stand on a family's card; no published source has such words.
func TestCost(t *testing.T) {
	number := func(text string) measure.Value { return measure.NumberValue(grading.Exact(text)) }
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
			whatif.Cost{Measure: measure.Maturity, Read: measure.Value{Text: "C30"}, Worth: dollars},
			"Maturity, C30, took off $24.90, set beside the youngest.",
		},
		{
			whatif.Cost{Measure: measure.Maturity, Read: measure.Value{Text: "C30"}, Was: "Commercial", Becomes: "Choice"},
			"Maturity, C30, made the grade Commercial and not Choice, set beside the youngest.",
		},
		{
			whatif.Cost{Measure: measure.DarkCutterLowering, Read: measure.Value{Text: "1/3"}, Worth: dollars},
			"Dark cutter lowering, 1/3, took off $24.90, set beside no lowering.",
		},
		{
			whatif.Cost{Measure: measure.InternalFat, Read: number("4"), Beside: grading.Exact("2.5"), Worth: dollars},
			"Kidney, pelvic and heart fat, 4.0 %, took off $24.90, set beside the customary 2.5 %.",
		},
		{
			whatif.Cost{Measure: measure.Firmness, Read: number("1"), Beside: grading.Exact("2"), Was: "U.S. Utility", Becomes: "U.S. No. 1"},
			"Firmness, 1, made the grade U.S. Utility and not U.S. No. 1, set beside a score of 2.",
		},
	} {
		if got := Cost(test.cost); got != test.want {
			t.Errorf("%q, want %q", got, test.want)
		}
	}
}
