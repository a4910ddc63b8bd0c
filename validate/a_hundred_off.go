package validate

import (
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// aHundredOff has the judge look at a weight or marbling score that is a hundred too high or too low. Of true carcasses
// about two in a thousand are named by it.
func aHundredOff(s *survey) []Finding { return s.explainedBy(hundredOff, "a hundred off") }

// hundred is a hundred pounds, a degree of marbling, or what turns a share into a percent.
var hundred = decimal.NewFromInt(100)

// hundredSlips are a hundred too much and a hundred too little, of numbers above a hundred.
func hundredSlips(cell suspect) []slip {
	if !cell.number.GreaterThan(hundred) || cell.unit != "lb" && cell.kind != measure.KindMarbling {
		return nil
	}
	return []slip{
		{kind: hundredOff, value: cell.number.Sub(hundred), words: "looks a hundred too high", rarity: 1.5},
		{kind: hundredOff, value: cell.number.Add(hundred), words: "looks a hundred too low", rarity: 1.5},
	}
}
