package measure

import (
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// TestNumberText holds numbers written by hand beside the decimal package's own.
func TestNumberText(t *testing.T) {
	for _, written := range []string{"0", "-0", "0.00", "1", "-1", "10", "-10.50", "0.05", "-0.05", "0.000001", "1e3", "1e-18", "1e-19", "999999999999999999", "9999999999999999999", "12.3400"} {
		number := decimal.RequireFromString(written)
		if got := NumberText(number); got != number.String() {
			t.Errorf("%s is written %s, want %s", written, got, number)
		}
	}
	if got := NumberText(decimal.Decimal{}); got != "0" {
		t.Errorf("no number is written %q", got)
	}
	rapid.Check(t, func(t *rapid.T) {
		number := decimal.New(rapid.Int64().Draw(t, "coefficient"), rapid.Int32Range(-25, 4).Draw(t, "exponent"))
		if got := NumberText(number); got != number.String() {
			t.Fatalf("%d × 10^%d is written %s, want %s", number.CoefficientInt64(), number.Exponent(), got, number)
		}
		places := rapid.Int32Range(-2, 20).Draw(t, "places")
		if got := FixedText(number, places); got != number.StringFixed(places) {
			t.Fatalf("%s is written to %d decimals %s, want %s", number, places, got, number.StringFixed(places))
		}
	})
}
