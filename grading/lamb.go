package grading

import (
	"railbook/rules"
	"railbook/rules/measure"
)

// Yield grade: U.S. standards for grades of lamb, 1992; fat at the midpoint of the ribeye, both sides averaged.
// Cutability, percent boneless, closely trimmed retail cuts: confirmed on the means of University of Maryland 2019.
var (
	lambYieldGrade = Arithmetic{{Of: Rounded{linear("0.4", addend("10", measure.AdjustedFat)), 6}}}

	lambCutability = Arithmetic{{
		Of: Rounded{linear("49.936", addend("-0.0848", measure.HotCarcassWeight), addend("-4.376", measure.AdjustedFat),
			addend("-3.530", measure.BodyWallThickness), addend("2.456", measure.RibeyeArea)), 6},
		equation: "retail cuts of a lamb",
	}}
)

var lambOnTheRail = &Method{
	Species: rules.Lamb,
	Basis:   rules.OnTheRail,
	Definitions: append([]definition{
		{measure.LiveWeight, liveWeight},
		{measure.HotCarcassWeight, hotCarcassWeight},
		{measure.MeasuredFat, measuredFat},
		{measure.AdjustedFat, adjustedFat},
		{measure.RibeyeArea, Arithmetic{{Of: reading(measure.RibeyeArea)}}},
		{measure.DressingPercent, dressingPercent},
		{measure.YieldGrade, lambYieldGrade},
		{measure.WholeYieldGrade, wholeYieldGrade},
		{measure.Cutability, lambCutability},
		{measure.OverallMaturity, lambMaturity},
		{measure.LeanQualityScore, lambLeanQuality},
		{measure.ConformationScore, lambConformation},
		{measure.QualityGrade, lambQuality},
		{measure.Price, lambPrice},
		{measure.Premium, premium},
		{measure.CarcassValue, carcassValue},
	}, gain(measure.KillDate, retailCutsPerDay(measure.KillDate), valuePerDay)...),
	needed: []measure.ID{measure.HotCarcassWeight, measure.AdjustedFat, measure.RibeyeArea, measure.BodyWallThickness},
	grid:   lambPrice,
	chart:  lambLeanQualityChart,
	sources: map[measure.ID]string{
		measure.YieldGrade:   "0.4 plus 10 times adjusted fat, U.S. standards 1992",
		measure.Cutability:   "percent boneless, closely trimmed retail cuts with body wall, confirmed on University of Maryland 2019 data",
		measure.QualityGrade: "flank streaking, conformation and maturity, U.S. standards; compensation as this project reads the published cases",
	},
}

var lambPrice = pricing{
	quality: measure.QualityGrade, yield: measure.YieldGrade, yieldWords: "yield grade", weight: measure.HotCarcassWeight, grades: lambGrades,
}

var lambLiveScan = &Method{
	Species: rules.Lamb,
	Basis:   rules.LiveScan,
	Definitions: append([]definition{
		{measure.LiveWeight, liveWeight},
		{measure.HotCarcassWeight, scannedCarcassWeight},
		{measure.MeasuredFat, measuredFat},
		{measure.AdjustedFat, adjustedFat},
		{measure.RibeyeArea, Arithmetic{{Of: reading(measure.RibeyeArea)}}},
		{measure.YieldGrade, scannedLambYieldGrade},
		{measure.WholeYieldGrade, wholeYieldGrade},
		{measure.Cutability, lambCutability},
	}, gain(measure.WeighInDate, retailCutsPerDay(measure.WeighInDate))...),
	needed: []measure.ID{measure.HotCarcassWeight, measure.AdjustedFat, measure.RibeyeArea},
}

// scannedLambYieldGrade rests on scanned fat alone, so that it has to be called an estimate here.
var scannedLambYieldGrade = Arithmetic{{Of: lambYieldGrade[0].Of, estimate: true}}
