package rules

import (
	"strconv"
	"strings"

	"railbook/rules/measure"
	"railbook/rules/phrase"

	"github.com/shopspring/decimal"
)

// marblingDegrees are the degrees of marbling from the least, a hundred steps each.
var marblingDegrees = []string{
	"devoid", "practically devoid", "traces", "slight", "small", "modest", "moderate", "slightly abundant", "moderately abundant", "abundant",
}

var degreeForm = phrase.NewPattern(`^([a-z ]+?) ?([0-9]{2})?$`)

// scoreInWords reads a bound of marbling or maturity as a board writes it: "Modest 00" is 500 and "B 00" is 200; without a
// place within it a degree or group begins at 00.
func scoreInWords(definition measure.Definition, text string) (decimal.Decimal, bool) {
	parts := degreeForm.FindStringSubmatch(fold(text))
	if parts == nil {
		return decimal.Decimal{}, false
	}
	within, _ := strconv.Atoi(parts[2])
	switch {
	case definition.Kind == measure.KindMaturity:
		if group := strings.Index("abcde", parts[1]); group >= 0 && len(parts[1]) == 1 {
			return decimal.NewFromInt(int64(100*(group+1) + within)), true
		}
	case definition.Kind == measure.KindMarbling, definition.ID == measure.MarblingScore:
		for degree, name := range marblingDegrees {
			if name == parts[1] {
				return decimal.NewFromInt(int64(100*degree + within)), true
			}
		}
	}
	return decimal.Decimal{}, false
}
