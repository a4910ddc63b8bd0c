package grading

import "railbook/rules"

// The measures that lambs alone have.
const (
	LegScore          rules.Measure = "leg score"
	FlankStreaking    rules.Measure = "flank streaking"
	Conformation      rules.Measure = "conformation"
	LeanQualityScore  rules.Measure = "lean quality score"
	ConformationScore rules.Measure = "conformation score"
)

// Yield grade: U.S. standards for grades of lamb, 1992; fat at the midpoint of the ribeye, both sides averaged.
// Cutability, percent boneless, closely trimmed retail cuts: confirmed on the means of University of Maryland 2019.
var (
	lambYieldGrade = arithmetic{{of: rounded{linear("0.4", addend("10", rules.AdjustedFat)), 6}}}

	lambCutability = arithmetic{{
		of: rounded{linear("49.936", addend("-0.0848", rules.HotCarcassWeight), addend("-4.376", rules.AdjustedFat),
			addend("-3.530", BodyWallThickness), addend("2.456", rules.RibeyeArea)), 6},
		equation: "retail cuts of a lamb",
	}}
)

var lambOnTheRail = &plan{
	species: rules.Lamb,
	basis:   rules.OnTheRail,
	definitions: append([]definition{
		{rules.LiveWeight, liveWeight},
		{rules.HotCarcassWeight, hotCarcassWeight},
		{rules.MeasuredFat, measuredFat},
		{rules.AdjustedFat, adjustedFat},
		{rules.RibeyeArea, arithmetic{{of: reading(rules.RibeyeArea)}}},
		{rules.DressingPercent, dressingPercent},
		{rules.YieldGrade, lambYieldGrade},
		{rules.WholeYieldGrade, wholeYieldGrade},
		{rules.Cutability, lambCutability},
		{rules.OverallMaturity, lambMaturity},
		{LeanQualityScore, arithmetic{{of: lambLeanQuality{}}}},
		{ConformationScore, lambConformation},
		{rules.QualityGrade, lambQuality{}},
		{rules.Price, lambPrice},
		{rules.Premium, premium},
		{rules.CarcassValue, carcassValue},
	}, gain(rules.KillDate, retailCutsPerDay, valuePerDay)...),
	columns: []Column{
		{Measure: rules.DressingPercent, Heading: "Dressing %", Decimals: 2},
		{Measure: rules.AdjustedFat, Heading: "Adjusted fat, in", Decimals: 2},
		{Measure: rules.YieldGrade, Heading: "Yield grade", Decimals: 2, Cut: true},
		{Measure: rules.WholeYieldGrade, Heading: "Whole yield grade"},
		{Measure: rules.Cutability, Heading: "Cutability %", Decimals: 2},
		{Measure: LeanQualityScore, Heading: "Lean quality score"},
		{Measure: ConformationScore, Heading: "Conformation score"},
		{Measure: rules.QualityGrade, Heading: "Quality grade"},
		{Measure: rules.Price, Heading: "Price $/cwt", Decimals: 2},
		{Measure: rules.CarcassValue, Heading: "Value $", Decimals: 2},
	},
	optional: gainColumns(retailCutsPerDay, valuePerDay),
	needed:   []rules.Measure{rules.HotCarcassWeight, rules.AdjustedFat, rules.RibeyeArea, BodyWallThickness},
	grid:     lambPrice,
	sources: map[rules.Measure]string{
		rules.YieldGrade:   "0.4 plus 10 times adjusted fat, U.S. standards 1992",
		rules.Cutability:   "percent boneless, closely trimmed retail cuts with body wall, confirmed on University of Maryland 2019 data",
		rules.QualityGrade: "flank streaking, conformation and maturity, U.S. standards; compensation as this project reads the published cases",
	},
}

var lambPrice = pricing{
	quality: rules.QualityGrade, yield: rules.YieldGrade, yieldWords: "yield grade", weight: rules.HotCarcassWeight, grades: lambGrades,
}

var lambLiveScan = &plan{
	species: rules.Lamb,
	basis:   rules.LiveScan,
	definitions: append([]definition{
		{rules.LiveWeight, liveWeight},
		{rules.HotCarcassWeight, scannedCarcassWeight},
		{rules.MeasuredFat, measuredFat},
		{rules.AdjustedFat, adjustedFat},
		{rules.RibeyeArea, arithmetic{{of: reading(rules.RibeyeArea)}}},
		{rules.YieldGrade, scannedLambYieldGrade},
		{rules.WholeYieldGrade, wholeYieldGrade},
		{rules.Cutability, lambCutability},
	}, gain(rules.WeighInDate, retailCutsPerDay)...),
	columns: []Column{
		scannedWeightColumn,
		{Measure: rules.AdjustedFat, Heading: "Adjusted fat, in", Decimals: 2},
		{Measure: rules.YieldGrade, Heading: "Estimated yield grade", Decimals: 2, Cut: true},
		{Measure: rules.WholeYieldGrade, Heading: "Estimated whole yield grade"},
		{Measure: rules.Cutability, Heading: "Estimated cutability %", Decimals: 2},
	},
	optional: gainColumns(retailCutsPerDay),
	needed:   []rules.Measure{rules.HotCarcassWeight, rules.AdjustedFat, rules.RibeyeArea},
}

// scannedLambYieldGrade rests on scanned fat alone, so that it has to be called an estimate here.
var scannedLambYieldGrade = arithmetic{{of: lambYieldGrade[0].of, estimate: true}}
