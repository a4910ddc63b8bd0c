package validate

import (
	"slices"
	"strings"

	"github.com/shopspring/decimal"
)

// swappedDigits has the judge look at a row that a single exchange of two neighbouring digits brings back into line with
// the sheet's own figures, its dressing percent, its ribeye for the weight or its class. Of true carcasses about three in
// a thousand are named by it.
func swappedDigits(s *survey) []Finding { return s.explainedBy(digitsSwapped, "digits swapped") }

// swapSlips are the exchanges of two neighbouring digits.
func swapSlips(cell suspect) []slip {
	var list []slip
	for _, swapped := range swaps(cell.number, cell.decimals) {
		list = append(list, slip{kind: digitsSwapped, value: swapped, words: "looks like two digits swapped", rarity: 1})
	}
	return list
}

// swaps gives the numbers that two neighbouring digits exchanged would make of a number as its column shows it, the
// decimal point kept in its place.
func swaps(number decimal.Decimal, decimals int32) []decimal.Decimal {
	decimals = max(decimals, -number.Exponent(), 0)
	digits := []byte(strings.Replace(number.StringFixed(decimals), ".", "", 1))
	var list []decimal.Decimal
	for i := 0; i+1 < len(digits); i++ {
		if digits[i] == digits[i+1] {
			continue
		}
		swapped := slices.Clone(digits)
		swapped[i], swapped[i+1] = swapped[i+1], swapped[i]
		made, err := decimal.NewFromString(string(swapped))
		if err == nil {
			list = append(list, made.Shift(-decimals))
		}
	}
	return list
}
