package grading

import (
	"github.com/shopspring/decimal"

	"railbook/rules"
)

// scannedCarcassWeight is the carcass weight of a live animal measured by ultrasound: its live weight times the dressing
// percent that the rulebook fixes. It is an estimate, and so is everything that rests on it.
var scannedCarcassWeight = arithmetic{{
	of:       quotient{over: product{figure(rules.LiveWeight), scanDressing}, under: linear("100"), places: 4},
	assumed:  "carcass weight estimated from the live weight",
	estimate: true,
}}

var scanDressing = setting{"ultrasound dressing percent", func(s *rules.Settings, species rules.Species) decimal.NullDecimal {
	return s.ScanDressingPercent[species]
}}

// scannedWeightColumn is the first computed column of every ultrasound class.
var scannedWeightColumn = Column{Measure: rules.HotCarcassWeight, Heading: "Estimated carcass weight, lb", Decimals: 1}

// beefLiveScan is a live beef animal scanned between the 12th and 13th rib. It gets no quality grade: percent
// intramuscular fat stands for it as it was read (Beef Improvement Federation Guidelines).
var beefLiveScan = &plan{
	species: rules.Beef,
	basis:   rules.LiveScan,
	definitions: append([]definition{
		{rules.LiveWeight, liveWeight},
		{rules.HotCarcassWeight, scannedCarcassWeight},
		{rules.MeasuredFat, measuredFat},
		{rules.AdjustedFat, adjustedFat},
		{rules.RibeyeArea, arithmetic{{of: reading(rules.RibeyeArea)}}},
		{rules.InternalFat, internalFat},
		{rules.YieldGrade, arithmetic{{of: rounded{beefYieldGrade, 6}}}},
		{rules.WholeYieldGrade, wholeYieldGrade},
		{rules.Cutability, arithmetic{{of: rounded{beefCutability, 6}, equation: beefRetailCuts}}},
		{rules.RibeyePerHundredweight, ribeyePerHundredweight},
	}, gain(rules.WeighInDate, retailCutsPerDay)...),
	columns: []Column{
		scannedWeightColumn,
		{Measure: rules.AdjustedFat, Heading: "Adjusted fat, in", Decimals: 2},
		{Measure: rules.YieldGrade, Heading: "Estimated yield grade", Decimals: 2, Cut: true},
		{Measure: rules.WholeYieldGrade, Heading: "Estimated whole yield grade"},
		{Measure: rules.Cutability, Heading: "Estimated cutability %", Decimals: 2},
		{Measure: rules.RibeyePerHundredweight, Heading: "Estimated ribeye per cwt", Decimals: 2},
	},
	optional: gainColumns(retailCutsPerDay),
	needed:   []rules.Measure{rules.HotCarcassWeight, rules.AdjustedFat, rules.RibeyeArea, rules.InternalFat, rules.IntramuscularFat},
}
