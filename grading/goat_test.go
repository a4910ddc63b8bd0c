package grading

import (
	"math/rand/v2"
	"testing"

	"railbook/rules"
	"railbook/rules/measure"
)

// Montana State University Extension prints the equation and no worked example: 35 lb, 1.6 sq in, .4 in is
// 60.6933 − 8.1109 + 3.139232 − .631328, computed by hand.
func TestGoatCutability(t *testing.T) {
	g := gradedAs(t, rules.Goat, rules.OnTheRail, defaultBook, map[measure.ID]string{
		measure.HotCarcassWeight: "35", measure.RibeyeArea: "1.6", measure.BodyWallThickness: ".4", measure.LiveWeight: "70",
	})
	wantNumber(t, g, measure.Cutability, "55.090304")
	wantNumber(t, g, measure.DressingPercent, "50")
}

// Live scan contests take the carcass weight as 48 % of the live weight (common practice).
func TestScannedGoatCarcassWeight(t *testing.T) {
	g := gradedAs(t, rules.Goat, rules.LiveScan, defaultBook, map[measure.ID]string{
		measure.LiveWeight: "80", measure.RibeyeArea: "1.6", measure.BodyWallThickness: ".4",
	})
	wantNumber(t, g, measure.HotCarcassWeight, "38.4")
	if !g.FigureOf(measure.Cutability).Estimate || !g.FigureOf(measure.HotCarcassWeight).Estimate {
		t.Error("the figures of a scan are not called estimates")
	}
}

func borderGoat(random *rand.Rand) map[measure.ID]Reading {
	readings := map[measure.ID]Reading{
		measure.HotCarcassWeight:  plainReading(decimalBetween(random, 180, 750, 1)),
		measure.RibeyeArea:        plainReading(decimalBetween(random, 60, 300, 2)),
		measure.BodyWallThickness: plainReading(decimalBetween(random, 20, 100, 2)),
	}
	borderDates(random, readings, 50, 100)
	return readings
}
