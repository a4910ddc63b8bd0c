package grading

import (
	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// beefOnTheRail is a beef carcass between ribbing and the judge's card.
//
// Yield grade: 7 CFR 54.105(a), since moved to an AMS standard (amended 81 FR 10565, 2016); NDSU Ag Hub, "Yield grades
// of carcasses"; BIF Guidelines, "Final Calculated Yield Grade". Cutability, percent boneless, closely trimmed retail
// cuts of the round, loin, rib and chuck: Montana State University Extension 2017; Utah State University Extension 2004.
var beefOnTheRail = &Method{
	Species: rules.Beef,
	Basis:   rules.OnTheRail,
	Definitions: append([]definition{
		{measure.LiveWeight, liveWeight},
		{measure.HotCarcassWeight, hotCarcassWeight},
		{measure.MeasuredFat, measuredFat},
		{measure.AdjustedFat, adjustedFat},
		{measure.RibeyeArea, ribeyeArea},
		{measure.InternalFat, internalFat},
		{measure.DressingPercent, dressingPercent},
		{measure.YieldGrade, Arithmetic{{Of: Rounded{beefYieldGrade, 6}}}},
		{measure.WholeYieldGrade, wholeYieldGrade},
		{measure.Cutability, Arithmetic{{Of: Rounded{beefCutability, 6}, equation: beefRetailCuts}}},
		{measure.RibeyePerHundredweight, ribeyePerHundredweight},
		{measure.MarblingScore, Arithmetic{{Of: Whole{Of: reading(measure.Marbling)}}}},
		{measure.OverallMaturity, overallMaturity},
		{measure.QualityGrade, beefQuality},
		{measure.Price, beefPrice},
		{measure.Premium, premium},
		{measure.CarcassValue, carcassValue},
	}, gain(measure.KillDate, retailCutsPerDay(measure.KillDate), valuePerDay)...),
	needed: []measure.ID{
		measure.HotCarcassWeight, measure.AdjustedFat, measure.RibeyeArea, measure.InternalFat, measure.MarblingScore,
		measure.OverallMaturity, measure.QualityGrade,
	},
	grid:  beefPrice,
	chart: beefQualityChart,
	sources: map[measure.ID]string{
		measure.YieldGrade:             "7 CFR 54.105(a), since moved to an AMS standard (81 FR 10565, 2016); BIF Guidelines, Final Calculated Yield Grade",
		measure.WholeYieldGrade:        "the yield grade with its fraction dropped, within 1 to 5 (7 CFR 54.105; BIF Guidelines)",
		measure.Cutability:             "percent boneless, closely trimmed retail cuts of round, loin, rib and chuck: Montana State University Extension 2017; Utah State University Extension 2004",
		measure.RibeyePerHundredweight: "ribeye area per hundred pounds of hot carcass weight (common practice)",
		measure.MarblingScore:          "hundreds a degree, Small 00 = 400 (National Beef Quality Audit; BIF Guidelines)",
		measure.OverallMaturity:        "skeletal and lean maturity, with slightly more weight on skeletal (contest teaching set)",
		measure.QualityGrade:           "least marbling by maturity, USDA carcass beef standards; thirds within a grade as contests name them",
	},
}

var (
	beefYieldGrade = linear("2.50", addend("2.50", measure.AdjustedFat), addend("0.20", measure.InternalFat),
		addend("0.0038", measure.HotCarcassWeight), addend("-0.32", measure.RibeyeArea))
	beefCutability = linear("51.34", addend("-5.78", measure.AdjustedFat), addend("-0.462", measure.InternalFat),
		addend("-0.0093", measure.HotCarcassWeight), addend("0.740", measure.RibeyeArea))

	// The whole grade drops the fraction and stays within 1 to 5 (7 CFR 54.105; BIF Guidelines).
	wholeYieldGrade = Arithmetic{{Of: Whole{Of: ComputedFigure(measure.YieldGrade), Bounded: true, From: 1, To: 5}}}

	// Contest count on a grid of ten dots to the square inch (SDSU Extension; common practice).
	ribeyeArea = Arithmetic{
		{Of: reading(measure.RibeyeArea)},
		{Of: Rounded{linear("0", addend("1", measure.DotsOutlined), addend("-0.1", measure.DotsMissing), addend("0.1", measure.DotsOutside)), 6}},
	}

	internalFat = Arithmetic{
		{Of: reading(measure.InternalFat)},
		{
			Of:      setting{"customary KPH", func(s *rules.Settings, _ rules.Species) decimal.NullDecimal { return s.CustomaryKPH }},
			assumed: "KPH {} %, customary",
		},
	}

	ribeyePerHundredweight = Arithmetic{{Of: Quotient{
		Over: linear("0", addend("100", measure.RibeyeArea)), Under: ComputedFigure(measure.HotCarcassWeight), Places: 6,
		zero: "the hot carcass weight is zero",
	}}}

	beefPrice = pricing{
		quality: measure.QualityGrade, yield: measure.YieldGrade, yieldWords: "yield grade", weight: measure.HotCarcassWeight,
		insteadOfQuality: measure.Hardbone, darkCutter: measure.DarkCutter, lowering: measure.DarkCutterLowering,
		grades: beefQualityChart.grades, unlowered: unloweredBeefQuality,
	}
)

// beefRetailCuts says which "percent retail cuts" the cutability of beef is: three different figures go by that name, of
// about 50, 63 and 79 % of the carcass.
const beefRetailCuts = "retail cuts of round, loin, rib and chuck"
