package grading

import (
	"railbook/rules"
	"railbook/rules/measure"
)

// goatCutability is the percent of boneless, closely trimmed retail cuts: Montana State University Extension. There is no
// USDA grade for goats; selection 1 to 3 is judged by conformation (institutional meat purchase specifications, Series 11,
// 2001) and is read, not computed.
var goatCutability = Arithmetic{{
	Of: Rounded{linear("60.6933", addend("-0.23174", measure.HotCarcassWeight), addend("1.96202", measure.RibeyeArea),
		addend("-1.57832", measure.BodyWallThickness)), 6},
	equation: "retail cuts of a goat",
}}

var goatOnTheRail = &Method{
	Species: rules.Goat,
	Basis:   rules.OnTheRail,
	Definitions: append([]definition{
		{measure.LiveWeight, liveWeight},
		{measure.HotCarcassWeight, hotCarcassWeight},
		{measure.RibeyeArea, Arithmetic{{Of: reading(measure.RibeyeArea)}}},
		{measure.DressingPercent, dressingPercent},
		{measure.Cutability, goatCutability},
		{measure.Price, goatPrice},
		{measure.Premium, premium},
		{measure.CarcassValue, carcassValue},
	}, gain(measure.KillDate, retailCutsPerDay(measure.KillDate), valuePerDay)...),
	needed: []measure.ID{measure.HotCarcassWeight, measure.RibeyeArea, measure.BodyWallThickness},
	grid:   goatPrice,
	sources: map[measure.ID]string{
		measure.Cutability: "Montana State University Extension",
	},
}

// goatPrice has no quality or yield part: no published grid with a worked answer was found.
var goatPrice = pricing{weight: measure.HotCarcassWeight}

var goatLiveScan = &Method{
	Species: rules.Goat,
	Basis:   rules.LiveScan,
	Definitions: append([]definition{
		{measure.LiveWeight, liveWeight},
		{measure.HotCarcassWeight, scannedCarcassWeight},
		{measure.RibeyeArea, Arithmetic{{Of: reading(measure.RibeyeArea)}}},
		{measure.Cutability, goatCutability},
	}, gain(measure.WeighInDate, retailCutsPerDay(measure.WeighInDate))...),
	needed: []measure.ID{measure.HotCarcassWeight, measure.RibeyeArea, measure.BodyWallThickness},
}
