package grading

import (
	"railbook/rules"
	"railbook/rules/measure"
)

// sources names where the way of computing a figure is published, for the figures that all species share; a plan's own
// line goes before it. What has no publication says what it is.
var sources = map[measure.ID]string{
	measure.DressingPercent:     "hot carcass weight as a percent of live weight (common practice)",
	measure.Price:               "base price, plus quality, yield, weight and condition adjustments of the Value grid (Oklahoma State University Extension, grid pricing sheets)",
	measure.CarcassValue:        "price times hot carcass weight, over 100 (Mississippi State University Extension P2556)",
	measure.AverageDailyGain:    "gain over days on test (common practice)",
	measure.WeightPerDayOfAge:   "live weight over days of age (common practice)",
	measure.CarcassWeightPerDay: "hot carcass weight over days of age (common practice)",
	measure.CarcassGainPerDay:   "hot carcass weight less start weight times start dressing percent, over days on feed (common practice)",
	measure.RetailCutsPerDay:    "hot carcass weight times percent retail cuts, over days of age (common practice)",
	measure.ValuePerDayOnFeed:   "carcass gain per day times price, over 100 (this project's decision)",
}

// Source says where a figure's way of computing is published, for the record of a run; empty where nothing is known.
func Source(species rules.Species, id measure.ID) string {
	if method := methodFor(species, rules.OnTheRail); method != nil {
		if source, own := method.sources[id]; own {
			return source
		}
	}
	return sources[id]
}
