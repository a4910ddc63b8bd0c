package validate

import (
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// otherUnits are the units in which a measure is most often written by mistake, by the measure's own unit: the factor
// that brings the number back, what it looks like, and to how many decimals the result is worth printing.
var otherUnits = map[string][]struct {
	factor   decimal.Decimal
	words    string
	decimals int32
}{
	"lb": {{decimal.RequireFromString("2.20462262"), "looks like kilograms", 0}},
	"in": {
		{decimal.RequireFromString("0.1"), "looks like tenths", 3},
		{decimal.RequireFromString("0.0393700787"), "looks like millimetres", 2},
		{decimal.RequireFromString("0.393700787"), "looks like centimetres", 2},
	},
	"sq in": {{decimal.RequireFromString("0.15500031"), "looks like square centimetres", 1}},
	"%":     {{decimal.RequireFromString("100"), "looks like a fraction", 1}},
}

var five = decimal.NewFromInt(5)

// finer gives one decimal more to what is small in its unit: the weights of lambs and goats, and their ribeyes.
func finer(value decimal.Decimal, unit string) int32 {
	if unit == "lb" && measure.Compare(value, hundred) < 0 || unit == "sq in" && measure.Compare(value, five) < 0 {
		return 1
	}
	return 0
}

// areaOverDepth is about how many square inches of loin muscle there are to an inch of its depth (this project's own
// figure: loins 2.3 to 2.8 in deep are 6.5 to 9 sq in).
var areaOverDepth = decimal.NewFromInt(3)

// shallowest and deepest are how deep loins are, in inches, with some room about the 2.3 to 2.8 that probes find.
var shallowest, deepest = decimal.New(18, -1), decimal.New(32, -1)

// depthWords stand for an area that is a loin's depth: no true area is so small, so nothing else explains it as well.
const depthWords = "looks like the loin's depth, which is about a third of its area"

// areaWords stand for a depth that is a loin's area: no loin is so deep.
const areaWords = "looks like the loin's area, which is about three times its depth"

// unitSlips are the other units a number may be in.
func unitSlips(cell suspect) []slip {
	var list []slip
	for _, unit := range otherUnits[cell.unit] {
		value := cell.number.Mul(unit.factor)
		value = measure.Round(value, unit.decimals+finer(value, cell.unit))
		list = append(list, slip{value: value, words: unit.words})
	}
	if cell.measure == measure.LoinMuscleArea && cell.number.GreaterThanOrEqual(shallowest) && cell.number.LessThanOrEqual(deepest) {
		list = append(list, slip{value: cell.number.Mul(areaOverDepth).Round(1), words: depthWords})
	}
	if cell.measure == measure.LoinDepth {
		list = append(list, slip{value: cell.number.DivRound(areaOverDepth, 1), words: areaWords})
	}
	return list
}
