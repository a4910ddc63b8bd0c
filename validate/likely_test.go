package validate

import (
	"slices"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

func TestSwapsExchangeNeighbouringDigits(t *testing.T) {
	for _, c := range []struct {
		number   string
		decimals int32
		want     []string
	}{
		{"13.6", 1, []string{"31.6", "16.3"}},
		{"13", 1, []string{"31", "10.3"}},
		{"780", 0, []string{"870", "708"}},
		{"11", 0, nil},
	} {
		var got []string
		for _, swapped := range swaps(decimal.RequireFromString(c.number), c.decimals) {
			got = append(got, swapped.String())
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("swaps of %s: %v, want %v", c.number, got, c.want)
		}
	}
}

func TestASwapCanBeSwappedBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		number := decimal.New(int64(rapid.IntRange(1, 99999).Draw(t, "digits")), -1)
		for _, swapped := range swaps(number, 1) {
			frontZero := len(swapped.StringFixed(1)) < len(number.StringFixed(1)) // a zero in front is no longer written
			if !frontZero && !slices.ContainsFunc(swaps(swapped, 1), number.Equal) {
				t.Fatalf("%s became %s, which can't be swapped back", number, swapped)
			}
		}
	})
}
