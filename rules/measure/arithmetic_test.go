package measure

import (
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// anyNumber draws numbers of few digits and of many, near to a half and near to where a machine word is full. Those that are
// expected come of the decimal package.
func anyNumber(t *rapid.T, name string) decimal.Decimal {
	coefficient := rapid.OneOf(
		rapid.Int64Range(-50_000, 50_000), rapid.Int64(), rapid.Int64Range(999_999_999_999_999_990, 1_000_000_000_000_000_010),
		rapid.Custom(func(t *rapid.T) int64 {
			return 5*powers[rapid.IntRange(0, 17).Draw(t, "power")] + rapid.Int64Range(-1, 1).Draw(t, "beside")
		}),
	).Draw(t, name)
	number := decimal.New(coefficient, rapid.Int32Range(-22, 4).Draw(t, name+"'s exponent"))
	if rapid.IntRange(0, 9).Draw(t, name+" is long") == 0 {
		return number.Mul(decimal.New(rapid.Int64().Draw(t, name+"'s factor"), -9))
	}
	return number
}

// alike reports whether two numbers have the same digits and the same decimals.
func alike(a, b decimal.Decimal) bool { return a.Equal(b) && a.Exponent() == b.Exponent() }

func TestArithmeticIsThatOfTheDecimalPackage(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := anyNumber(t, "a"), anyNumber(t, "b"), anyNumber(t, "c")
		places := rapid.Int32Range(-2, 20).Draw(t, "places")
		if got, want := Round(a, places), a.Round(places); !alike(got, want) {
			t.Fatalf("%s is rounded to %d decimals to %s, want %s", a, places, got, want)
		}
		if got, want := Floor(a), a.Floor(); !got.Equal(want) {
			t.Fatalf("the floor of %s is %s, want %s", a, got, want)
		}
		if got, want := Compare(a, b), a.Cmp(b); got != want {
			t.Fatalf("%s beside %s gives %d, want %d", a, b, got, want)
		}
		if got := Compact(a); !alike(got, a) {
			t.Fatalf("%s is kept as %s", a, got)
		}
		if !b.IsZero() {
			if got, want := Divide(a, b, places), a.DivRound(b, places); !alike(got, want) {
				t.Fatalf("%s divided by %s to %d decimals gives %s, want %s", a, b, places, got, want)
			}
		}
		sum := Sum{}
		sum.Add(a)
		sum.AddProduct(b, c)
		sum.Add(b)
		if got, want := sum.Number(), a.Add(b.Mul(c)).Add(b); !alike(got, want) {
			t.Fatalf("%s + %s · %s + %s gives %s, want %s", a, b, c, b, got, want)
		}
	})
}

// The bounds of what is worked out in machine words, on either side.
func TestArithmeticAtTheBoundsOfAWord(t *testing.T) {
	for _, written := range []string{
		"0", "-0.5", "0.5", "0.49999999999999999", "-2.5", "2.45", "999999999999999999", "1000000000000000000", "-999999999999999999",
		"9223372036854775807", "-9223372036854775808", "99999999999999999.5", "0.000000000000000001", "0.0000000000000000005", "1e17", "1e18",
		"1.9999", "1.99999", "19999", "20000", "-1",
	} {
		a := decimal.RequireFromString(written)
		for places := int32(-1); places <= 19; places++ {
			if got, want := Round(a, places), a.Round(places); !alike(got, want) {
				t.Errorf("%s is rounded to %d decimals to %s, want %s", a, places, got, want)
			}
		}
		for _, beside := range []string{"1", "-1", "0.1", "10", "999999999999999999", "1000000000000000000", "0.000000000000000001"} {
			b := decimal.RequireFromString(beside)
			if got, want := Compare(a, b), a.Cmp(b); got != want {
				t.Errorf("%s beside %s gives %d, want %d", a, b, got, want)
			}
			if got, want := Divide(a, b, 6), a.DivRound(b, 6); !alike(got, want) {
				t.Errorf("%s divided by %s gives %s, want %s", a, b, got, want)
			}
			sum := Sum{}
			sum.AddProduct(a, b)
			sum.Add(a)
			if got, want := sum.Number(), a.Mul(b).Add(a); !alike(got, want) {
				t.Errorf("%s · %s + %s gives %s, want %s", a, b, a, got, want)
			}
		}
	}
	if nothing := (Sum{}); !nothing.Number().IsZero() {
		t.Error("nothing added up is not 0")
	}
}
