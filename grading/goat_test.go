package grading

import (
	"math/rand/v2"
	"testing"

	"railbook/rules"
)

// Montana State University Extension prints the equation and no worked example: 35 lb, 1.6 sq in, .4 in is
// 60.6933 − 8.1109 + 3.139232 − .631328, computed by hand.
func TestGoatCutability(t *testing.T) {
	g := gradedAs(t, rules.Goat, rules.OnTheRail, defaultBook, map[rules.Measure]string{
		rules.HotCarcassWeight: "35", rules.RibeyeArea: "1.6", BodyWallThickness: ".4", rules.LiveWeight: "70",
	})
	wantNumber(t, g, rules.Cutability, "55.090304")
	wantNumber(t, g, rules.DressingPercent, "50")
}

// Live scan contests take the carcass weight as 48 % of the live weight (common practice).
func TestScannedGoatCarcassWeight(t *testing.T) {
	g := gradedAs(t, rules.Goat, rules.LiveScan, defaultBook, map[rules.Measure]string{
		rules.LiveWeight: "80", rules.RibeyeArea: "1.6", BodyWallThickness: ".4",
	})
	wantNumber(t, g, rules.HotCarcassWeight, "38.4")
	if !g.Figures[rules.Cutability].Estimate || !g.Figures[rules.HotCarcassWeight].Estimate {
		t.Error("the figures of a scan are not called estimates")
	}
}

func borderGoat(random *rand.Rand) map[rules.Measure]Reading {
	readings := map[rules.Measure]Reading{
		rules.HotCarcassWeight: plainReading(decimalBetween(random, 180, 750, 1)),
		rules.RibeyeArea:       plainReading(decimalBetween(random, 60, 300, 2)),
		BodyWallThickness:      plainReading(decimalBetween(random, 20, 100, 2)),
	}
	borderDates(random, readings, 50, 100)
	return readings
}
