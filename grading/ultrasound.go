package grading

import (
	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// scannedCarcassWeight is the carcass weight of a live animal measured by ultrasound: its live weight times the dressing
// percent that the rulebook fixes. It is an estimate, and so is everything that rests on it.
var scannedCarcassWeight = Arithmetic{{
	Of:       Quotient{Over: product{ComputedFigure(measure.LiveWeight), scanDressing}, Under: linear("100"), Places: 4},
	assumed:  "carcass weight estimated from the live weight",
	estimate: true,
}}

var scanDressing = setting{"ultrasound dressing percent", func(s *rules.Settings, species rules.Species) decimal.NullDecimal {
	return s.ScanDressingPercent[species]
}}

// beefLiveScan is a live beef animal scanned between the 12th and 13th rib. It gets no quality grade: percent
// intramuscular fat stands for it as it was read (Beef Improvement Federation Guidelines).
var beefLiveScan = &Method{
	Species: rules.Beef,
	Basis:   rules.LiveScan,
	Definitions: append([]definition{
		{measure.LiveWeight, liveWeight},
		{measure.HotCarcassWeight, scannedCarcassWeight},
		{measure.MeasuredFat, measuredFat},
		{measure.AdjustedFat, adjustedFat},
		{measure.RibeyeArea, Arithmetic{{Of: reading(measure.RibeyeArea)}}},
		{measure.InternalFat, internalFat},
		{measure.YieldGrade, Arithmetic{{Of: Rounded{beefYieldGrade, 6}}}},
		{measure.WholeYieldGrade, wholeYieldGrade},
		{measure.Cutability, Arithmetic{{Of: Rounded{beefCutability, 6}, equation: beefRetailCuts}}},
		{measure.RibeyePerHundredweight, ribeyePerHundredweight},
	}, gain(measure.WeighInDate, retailCutsPerDay(measure.WeighInDate))...),
	needed: []measure.ID{measure.HotCarcassWeight, measure.AdjustedFat, measure.RibeyeArea, measure.InternalFat, measure.IntramuscularFat},
}
