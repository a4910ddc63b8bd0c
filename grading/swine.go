package grading

import (
	"railbook/rules"
	"railbook/rules/measure"
)

// The names of the equations for a hog's lean. They are different scales: the name is kept with every figure.
const (
	leanRibbed   = "fat-free lean, ribbed"
	leanUnribbed = "fat-free lean, unribbed"
	leanLiveScan = "fat-free lean, live scan"
	leanWithFat  = "lean with 5 % fat"
	leanProbed   = "probe lean"
)

// Pork carcass evaluation procedures (university extension slides): ribbed, skin on. Unribbed and live scan: from memory.
// Lean with 5 % fat: Lancaster Farming 1994.
var (
	ribbedLean = linear("8.588", addend("0.465", measure.HotCarcassWeight), addend("3.005", measure.LoinMuscleArea), addend("-21.896", measure.TenthRibFat))

	unribbedLean = linear("23.568", addend("0.503", measure.HotCarcassWeight), addend("-21.348", measure.LastRibFat))

	leanWithFivePercentFat = linear("7.231", addend("0.437", measure.HotCarcassWeight), addend("3.877", measure.LoinMuscleArea), addend("-18.746", measure.TenthRibFat))

	// Lean by a probe's loin depth and fat, from memory; a university deck prints it rounded to 15.3, .5, 4.0 and 31.3. It runs about
	// two points under the ribbed equation.
	probedLean = linear("15.31", addend("0.51", measure.HotCarcassWeight), addend("3.813", measure.LoinDepth), addend("-31.277", measure.TenthRibFat))

	// 0.833 for a barrow, twice that for a gilt, less 0.534.
	barrowScanLean = linear("0.299", addend("0.291", measure.LiveWeight), addend("5.425", measure.LoinMuscleArea), addend("-16.498", measure.TenthRibFat))
	giltScanLean   = linear("1.132", addend("0.291", measure.LiveWeight), addend("5.425", measure.LoinMuscleArea), addend("-16.498", measure.TenthRibFat))
)

// leanOnTheRail is lb of lean by the rulebook's equation; a rulebook whose equation is for live scans has its carcasses
// computed by the ribbed one. The equations are for carcasses with the skin on.
var leanOnTheRail = Arithmetic{
	{onlyIf: func(g *Graded) bool { return g.marked(measure.Skinned) }, weighs: []measure.ID{measure.Skinned}, refuse: "the lean equations are for a carcass with its skin on"},
	{Of: Rounded{unribbedLean, 6}, When: leanBy(leanUnribbed), equation: leanUnribbed, assumed: skinOn, assumes: skinUnknown},
	{Of: Rounded{leanWithFivePercentFat, 6}, When: leanBy(leanWithFat), equation: leanWithFat, assumed: skinOn, assumes: skinUnknown},
	{Of: Rounded{probedLean, 6}, When: leanBy(leanProbed), equation: leanProbed, assumed: skinOn, assumes: skinUnknown},
	{Of: Rounded{ribbedLean, 6}, When: leanBy("", leanRibbed, leanLiveScan), equation: leanRibbed, assumed: skinOn, assumes: skinUnknown},
}

const skinOn = "skin on, for the sheet does not say"

func skinUnknown(g *Graded) bool {
	_, read := g.Written(measure.Skinned)
	return !read
}

func leanBy(names ...string) func(*rules.Settings) bool {
	return func(s *rules.Settings) bool {
		for _, name := range names {
			if s.LeanEquation == name {
				return true
			}
		}
		return false
	}
}

// scannedLean is lb of lean of a live hog by ultrasound.
var scannedLean = Arithmetic{
	{Of: Rounded{barrowScanLean, 6}, onlyIf: sexIs(SexBarrow), weighs: []measure.ID{measure.Sex}, equation: leanLiveScan, estimate: true},
	{Of: Rounded{giltScanLean, 6}, onlyIf: sexIs(SexGilt), equation: leanLiveScan, estimate: true},
	{refuse: "the sex is neither barrow nor gilt, which the live-scan equation needs"},
}

func sexIs(sex Sex) func(*Graded) bool {
	return func(g *Graded) bool {
		return SexOf(rules.Swine, g.ReadingOf(measure.Sex).Value.Text) == sex
	}
}

var (
	leanPercent = Arithmetic{{Of: Quotient{
		Over: linear("0", addend("100", measure.LeanWeight)), Under: ComputedFigure(measure.HotCarcassWeight), Places: 6,
		zero: "the hot carcass weight is zero",
	}}}

	// The lean a feeder pig starts with is 0.418 of its weight less 3.65 lb (from memory; it fits a published result on the
	// scale of lean with 5 % fat).
	leanGain = Arithmetic{{Of: Quotient{
		Over:  difference{ComputedFigure(measure.LeanWeight), linear("-3.65", addend("0.418", measure.StartWeight))},
		Under: ComputedFigure(measure.DaysOnFeed), Places: 6, zero: noDaysOnFeed,
	}}}

	leanGainPerDay = definition{measure.LeanGainPerDay, leanGain}

	swinePrice = pricing{
		quality: measure.PorkGrade, yield: measure.LeanPercent, yieldWords: "lean percent", weight: measure.HotCarcassWeight, grades: porkGrades,
	}
)

var swineOnTheRail = &Method{
	Species: rules.Swine,
	Basis:   rules.OnTheRail,
	Definitions: append([]definition{
		{measure.LiveWeight, liveWeight},
		{measure.HotCarcassWeight, hotCarcassWeight},
		{measure.DressingPercent, dressingPercent},
		{measure.LeanWeight, leanOnTheRail},
		{measure.LeanPercent, leanPercent},
		{measure.LeanEquationName, equationName{measure.LeanPercent}},
		{measure.PorkGrade, porkGrade},
		{measure.Price, swinePrice},
		{measure.Premium, premium},
		{measure.CarcassValue, carcassValue},
	}, gain(measure.KillDate, leanGainPerDay, valuePerDay)...),
	needed: []measure.ID{measure.HotCarcassWeight, measure.LeanPercent},
	grid:   swinePrice,
	chart:  porkGradeChart,
	sources: map[measure.ID]string{
		measure.LeanWeight:     "the equation named beside it: fat-free lean, ribbed, pork carcass evaluation procedures; lean with 5 % fat, Lancaster Farming 1994; unribbed, probe and live scan from memory",
		measure.PorkGrade:      "4 times last-rib backfat less the muscling score (7 CFR 53.153; bands 54.135, 49 FR 48673)",
		measure.LeanPercent:    "fat-free lean over hot carcass weight: pork carcass evaluation procedures (the equation used stands beside each figure)",
		measure.LeanGainPerDay: "final lean less start lean, over days; start lean 0.418 times weight less 3.65 (from memory, fits a published result)",
	},
}

var swineLiveScan = &Method{
	Species: rules.Swine,
	Basis:   rules.LiveScan,
	Definitions: append([]definition{
		{measure.LiveWeight, liveWeight},
		{measure.HotCarcassWeight, scannedCarcassWeight},
		{measure.LeanWeight, scannedLean},
		{measure.LeanPercent, leanPercent},
		{measure.LeanEquationName, equationName{measure.LeanPercent}},
	}, gain(measure.WeighInDate, leanGainPerDay)...),
	needed: []measure.ID{measure.HotCarcassWeight, measure.LeanPercent},
}
