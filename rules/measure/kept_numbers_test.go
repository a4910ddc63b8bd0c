package measure

import (
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// A number that is kept is the very number that it was made of, with as many decimals, whether or not it is one of those that are kept
// once.
func TestKeptNumbersAreTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		coefficient := rapid.OneOf(rapid.Int64Range(-3, 3), rapid.Int64Range(fewNumbers-2, fewNumbers+2), rapid.Int64()).Draw(t, "coefficient")
		number := decimal.New(coefficient, rapid.Int32Range(-fewPlaces-1, 2).Draw(t, "exponent"))
		for range 2 {
			if kept := Compact(number); !kept.Equal(number) || kept.Exponent() != number.Exponent() {
				t.Fatalf("%v with exponent %d was kept as %v with %d", number, number.Exponent(), kept, kept.Exponent())
			}
		}
	})
	for _, row := range []struct {
		coefficient int64
		exponent    int32
		once        bool
	}{
		{0, 0, true},
		{-1, 0, false},
		{fewNumbers - 1, 0, true},
		{fewNumbers, 0, false},
		{287, 1 - fewPlaces, true},
		{287, -fewPlaces, false},
		{287, 1, false},
	} {
		number := decimal.New(row.coefficient, row.exponent)
		if once := testing.AllocsPerRun(10, func() { Compact(number) }) == 0; once != row.once {
			t.Errorf("%d with exponent %d is kept once: %v", row.coefficient, row.exponent, once)
		}
	}
}
