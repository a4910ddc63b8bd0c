package grading

import (
	"github.com/shopspring/decimal"

	"railbook/rules"
)

// beefOnTheRail is a beef carcass between ribbing and the judge's card.
//
// Yield grade: 7 CFR 54.105(a), since moved to an AMS standard (amended 81 FR 10565, 2016); NDSU Ag Hub, "Yield grades
// of carcasses"; BIF Guidelines, "Final Calculated Yield Grade". Cutability, percent boneless, closely trimmed retail
// cuts of the round, loin, rib and chuck: Montana State University Extension 2017; Utah State University Extension 2004.
var beefOnTheRail = &plan{
	species: rules.Beef,
	basis:   rules.OnTheRail,
	definitions: append([]definition{
		{rules.LiveWeight, liveWeight},
		{rules.HotCarcassWeight, hotCarcassWeight},
		{rules.MeasuredFat, measuredFat},
		{rules.AdjustedFat, adjustedFat},
		{rules.RibeyeArea, ribeyeArea},
		{rules.InternalFat, internalFat},
		{rules.DressingPercent, dressingPercent},
		{rules.YieldGrade, arithmetic{{of: rounded{beefYieldGrade, 6}}}},
		{rules.WholeYieldGrade, wholeYieldGrade},
		{rules.Cutability, arithmetic{{of: rounded{beefCutability, 6}, equation: beefRetailCuts}}},
		{rules.RibeyePerHundredweight, ribeyePerHundredweight},
		{rules.MarblingScore, arithmetic{{of: whole{of: reading(rules.Marbling)}}}},
		{rules.OverallMaturity, overallMaturity},
		{rules.QualityGrade, beefQuality{}},
		{rules.Price, beefPrice},
		{rules.Premium, premium},
		{rules.CarcassValue, carcassValue},
	}, gain(rules.KillDate, retailCutsPerDay, valuePerDay)...),
	columns: []Column{
		{Measure: rules.DressingPercent, Heading: "Dressing %", Decimals: 2},
		{Measure: rules.AdjustedFat, Heading: "Adjusted fat, in", Decimals: 2},
		{Measure: rules.YieldGrade, Heading: "Yield grade", Decimals: 2, Cut: true},
		{Measure: rules.WholeYieldGrade, Heading: "Whole yield grade"},
		{Measure: rules.Cutability, Heading: "Cutability %", Decimals: 2},
		{Measure: rules.RibeyePerHundredweight, Heading: "Ribeye per cwt", Decimals: 2},
		{Measure: rules.MarblingScore, Heading: "Marbling score"},
		{Measure: rules.QualityGrade, Heading: "Quality grade"},
		{Measure: rules.Price, Heading: "Price $/cwt", Decimals: 2},
		{Measure: rules.CarcassValue, Heading: "Value $", Decimals: 2},
	},
	optional: gainColumns(retailCutsPerDay, valuePerDay),
	needed: []rules.Measure{
		rules.HotCarcassWeight, rules.AdjustedFat, rules.RibeyeArea, rules.InternalFat, rules.MarblingScore,
		rules.OverallMaturity, rules.QualityGrade,
	},
	grid:       beefPrice,
	gradeTable: (*gridLayout).beefQuality,
	sources: map[rules.Measure]string{
		rules.YieldGrade:             "7 CFR 54.105(a), since moved to an AMS standard (81 FR 10565, 2016); BIF Guidelines, Final Calculated Yield Grade",
		rules.WholeYieldGrade:        "the yield grade with its fraction dropped, within 1 to 5 (7 CFR 54.105; BIF Guidelines)",
		rules.Cutability:             "percent boneless, closely trimmed retail cuts of round, loin, rib and chuck: Montana State University Extension 2017; Utah State University Extension 2004",
		rules.RibeyePerHundredweight: "ribeye area per hundred pounds of hot carcass weight (common practice)",
		rules.MarblingScore:          "hundreds a degree, Small 00 = 400 (National Beef Quality Audit; BIF Guidelines)",
		rules.OverallMaturity:        "skeletal and lean maturity, with slightly more weight on skeletal (contest teaching set)",
		rules.QualityGrade:           "least marbling by maturity, USDA carcass beef standards; thirds within a grade as contests name them",
	},
}

var (
	beefYieldGrade = linear("2.50", addend("2.50", rules.AdjustedFat), addend("0.20", rules.InternalFat),
		addend("0.0038", rules.HotCarcassWeight), addend("-0.32", rules.RibeyeArea))
	beefCutability = linear("51.34", addend("-5.78", rules.AdjustedFat), addend("-0.462", rules.InternalFat),
		addend("-0.0093", rules.HotCarcassWeight), addend("0.740", rules.RibeyeArea))

	// The whole grade drops the fraction and stays within 1 to 5 (7 CFR 54.105; BIF Guidelines).
	wholeYieldGrade = arithmetic{{of: whole{of: figure(rules.YieldGrade), bounded: true, from: 1, to: 5}}}

	// Contest count on a grid of ten dots to the square inch (SDSU Extension; common practice).
	ribeyeArea = arithmetic{
		{of: reading(rules.RibeyeArea)},
		{of: rounded{linear("0", addend("1", rules.DotsOutlined), addend("-0.1", rules.DotsMissing), addend("0.1", rules.DotsOutside)), 6}},
	}

	internalFat = arithmetic{
		{of: reading(rules.InternalFat)},
		{
			of:      setting{"customary KPH", func(s *rules.Settings, _ rules.Species) decimal.NullDecimal { return s.CustomaryKPH }},
			assumed: "KPH {} %, customary",
		},
	}

	ribeyePerHundredweight = arithmetic{{of: quotient{
		over: linear("0", addend("100", rules.RibeyeArea)), under: figure(rules.HotCarcassWeight), places: 6,
		zero: "the hot carcass weight is zero",
	}}}

	beefPrice = pricing{
		quality: rules.QualityGrade, yield: rules.YieldGrade, yieldWords: "yield grade", weight: rules.HotCarcassWeight,
		insteadOfQuality: rules.Hardbone, darkCutter: rules.DarkCutter, lowering: rules.DarkCutterLowering,
		grades: beefGrades, unlowered: beefQuality{},
	}
)

// beefRetailCuts says which "percent retail cuts" the cutability of beef is: three different figures go by that name, of
// about 50, 63 and 79 % of the carcass.
const beefRetailCuts = "retail cuts of round, loin, rib and chuck"
