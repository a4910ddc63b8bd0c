package grading

import "railbook/rules"

// BodyWallThickness is the lean, bone and fat of the lower rib, in.
const BodyWallThickness rules.Measure = "body wall thickness"

// goatCutability is the percent of boneless, closely trimmed retail cuts: Montana State University Extension. There is no
// USDA grade for goats; selection 1 to 3 is judged by conformation (institutional meat purchase specifications, Series 11,
// 2001) and is read, not computed.
var goatCutability = arithmetic{{
	of: rounded{linear("60.6933", addend("-0.23174", rules.HotCarcassWeight), addend("1.96202", rules.RibeyeArea),
		addend("-1.57832", BodyWallThickness)), 6},
	equation: "retail cuts of a goat",
}}

var goatOnTheRail = &plan{
	species: rules.Goat,
	basis:   rules.OnTheRail,
	definitions: append([]definition{
		{rules.LiveWeight, liveWeight},
		{rules.HotCarcassWeight, hotCarcassWeight},
		{rules.RibeyeArea, arithmetic{{of: reading(rules.RibeyeArea)}}},
		{rules.DressingPercent, dressingPercent},
		{rules.Cutability, goatCutability},
		{rules.Price, goatPrice},
		{rules.Premium, premium},
		{rules.CarcassValue, carcassValue},
	}, gain(rules.KillDate, retailCutsPerDay, valuePerDay)...),
	columns: []Column{
		{Measure: rules.DressingPercent, Heading: "Dressing %", Decimals: 2},
		{Measure: rules.Cutability, Heading: "Cutability %", Decimals: 2},
		{Measure: rules.Price, Heading: "Price $/cwt", Decimals: 2},
		{Measure: rules.CarcassValue, Heading: "Value $", Decimals: 2},
	},
	optional: gainColumns(retailCutsPerDay, valuePerDay),
	needed:   []rules.Measure{rules.HotCarcassWeight, rules.RibeyeArea, BodyWallThickness},
	grid:     goatPrice,
	sources: map[rules.Measure]string{
		rules.Cutability: "Montana State University Extension",
	},
}

// goatPrice has no quality or yield part: no published grid with a worked answer was found.
var goatPrice = pricing{weight: rules.HotCarcassWeight}

var goatLiveScan = &plan{
	species: rules.Goat,
	basis:   rules.LiveScan,
	definitions: append([]definition{
		{rules.LiveWeight, liveWeight},
		{rules.HotCarcassWeight, scannedCarcassWeight},
		{rules.RibeyeArea, arithmetic{{of: reading(rules.RibeyeArea)}}},
		{rules.Cutability, goatCutability},
	}, gain(rules.WeighInDate, retailCutsPerDay)...),
	columns:  []Column{scannedWeightColumn, {Measure: rules.Cutability, Heading: "Estimated cutability %", Decimals: 2}},
	optional: gainColumns(retailCutsPerDay),
	needed:   []rules.Measure{rules.HotCarcassWeight, rules.RibeyeArea, BodyWallThickness},
}
