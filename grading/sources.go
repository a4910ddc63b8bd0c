package grading

import "railbook/rules"

// sources names where the way of computing a figure is published, for the figures that all species share; a plan's own
// line goes before it. What has no publication says what it is.
var sources = map[rules.Measure]string{
	rules.DressingPercent:           "hot carcass weight as a percent of live weight (common practice)",
	rules.Price:                     "base price, plus quality, yield, weight and condition adjustments of the Value grid (Oklahoma State University Extension, grid pricing sheets)",
	rules.CarcassValue:              "price times hot carcass weight, over 100 (Mississippi State University Extension P2556)",
	"average daily gain":            "gain over days on test (common practice)",
	"weight per day of age":         "live weight over days of age (common practice)",
	"carcass weight per day of age": "hot carcass weight over days of age (common practice)",
	"carcass gain per day":          "hot carcass weight less start weight times start dressing percent, over days on feed (common practice)",
	"retail cuts per day of age":    "hot carcass weight times percent retail cuts, over days of age (common practice)",
	"value per day on feed":         "carcass gain per day times price, over 100 (this project's decision)",
}

// Source says where a figure's way of computing is published, for the record of a run; empty where nothing is known.
func Source(species rules.Species, measure rules.Measure) string {
	if plan := planFor(species, rules.OnTheRail); plan != nil {
		if source, own := plan.sources[measure]; own {
			return source
		}
	}
	return sources[measure]
}
