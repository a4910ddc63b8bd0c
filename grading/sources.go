package grading

import "railbook/rules"

// sources names for each species where the way of computing a figure is published; a species' own line goes before the
// line of all species. What has no publication says what it is.
var sources = map[rules.Species]map[rules.Measure]string{
	"": {
		rules.DressingPercent:           "hot carcass weight as a percent of live weight (common practice)",
		rules.Price:                     "base price, plus quality, yield, weight and condition adjustments of the Value grid (Oklahoma State University Extension, grid pricing sheets)",
		rules.CarcassValue:              "price times hot carcass weight, over 100 (Mississippi State University Extension P2556)",
		"average daily gain":            "gain over days on test (common practice)",
		"weight per day of age":         "live weight over days of age (common practice)",
		"carcass weight per day of age": "hot carcass weight over days of age (common practice)",
		"carcass gain per day":          "hot carcass weight less start weight times start dressing percent, over days on feed (common practice)",
		"retail cuts per day of age":    "hot carcass weight times percent retail cuts, over days of age (common practice)",
		"value per day on feed":         "carcass gain per day times price, over 100 (this project's decision)",
	},
	rules.Beef: {
		rules.YieldGrade:             "7 CFR 54.105(a), since moved to an AMS standard (81 FR 10565, 2016); BIF Guidelines, Final Calculated Yield Grade",
		rules.WholeYieldGrade:        "the yield grade with its fraction dropped, within 1 to 5 (7 CFR 54.105; BIF Guidelines)",
		rules.Cutability:             "percent boneless, closely trimmed retail cuts of round, loin, rib and chuck: Montana State University Extension 2017; Utah State University Extension 2004",
		rules.RibeyePerHundredweight: "ribeye area per hundred pounds of hot carcass weight (common practice)",
		rules.MarblingScore:          "hundreds a degree, Small 00 = 400 (National Beef Quality Audit; BIF Guidelines)",
		rules.OverallMaturity:        "skeletal and lean maturity, with slightly more weight on skeletal (contest teaching set)",
		rules.QualityGrade:           "least marbling by maturity, USDA carcass beef standards; thirds within a grade as contests name them",
	},
	rules.Swine: {
		"lean weight":           "the equation named beside it: fat-free lean, ribbed, pork carcass evaluation procedures; lean with 5 % fat, Lancaster Farming 1994; unribbed and live scan from memory",
		"pork carcass grade":    "4 times last-rib backfat less the muscling score (7 CFR 53.153; bands 54.135, 49 FR 48673)",
		"fat-free lean percent": "fat-free lean over hot carcass weight: pork carcass evaluation procedures (the equation used stands beside each figure)",
		"lean gain per day":     "final lean less start lean, over days; start lean 0.418 times weight less 3.65 (from memory, fits a published result)",
	},
	rules.Lamb: {
		rules.YieldGrade:   "0.4 plus 10 times adjusted fat, U.S. standards 1992",
		rules.Cutability:   "percent boneless, closely trimmed retail cuts with body wall, confirmed on University of Maryland 2019 data",
		rules.QualityGrade: "flank streaking, conformation and maturity, U.S. standards; compensation as this project reads the published cases",
	},
	rules.Goat: {
		rules.Cutability: "Montana State University Extension",
	},
}

// Source says where a figure's way of computing is published, for the record of a run; empty where nothing is known.
func Source(species rules.Species, measure rules.Measure) string {
	if source, own := sources[species][measure]; own {
		return source
	}
	return sources[""][measure]
}
