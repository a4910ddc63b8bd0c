package whatif

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
)

func TestAdviceSaysWhatTheFiguresSay(t *testing.T) {
	graded := gradedBeef(t, map[measure.ID]string{
		measure.HotCarcassWeight: "800", measure.LiveWeight: "1290", measure.AdjustedFat: ".95", measure.RibeyeArea: "13.0", measure.InternalFat: "2",
		measure.Marbling: "Small 40", measure.Maturity: "A50",
	})
	want := []string{
		// 4.155 − .32 × .5 = 3.995: from a discount of 12.45 to none, 12.45 × 8 = 99.60. Of the range of ribeye (9 to 18 sq in)
		// that is less than .07 in is of the range of fat (.10 to 1.20 in).
		"ribeye area 13 to 13.5: whole yield grade 3, $99.6",
		"adjusted fat 0.95 to 0.88: whole yield grade 3, $99.6",
		"met: hot carcass weight 800",
		"met: ribeye area 13",
		"met: marbling score 440",
		"missed: adjusted fat 0.95 above 0.45",
	}
	if diff := cmp.Diff(want, adviceTexts(Advise(graded, Moves(graded)))); diff != "" {
		t.Error(diff)
	}
}

// adviceTexts writes what is advised, a line each.
func adviceTexts(advice Advice) []string {
	var lines []string
	for _, move := range advice.Moves {
		lines = append(lines, fmt.Sprintf("%s %s to %s: %s %s, $%s", move.Measure, move.From.Number, move.To.Number, move.Reached, move.Becomes.Text, move.Worth.Decimal))
	}
	aimed := func(kind string, figures ...AimedFigure) {
		for _, figure := range figures {
			line := fmt.Sprintf("%s: %s %s", kind, figure.Measure, figure.Number)
			if !figure.Bound.IsZero() {
				line += map[bool]string{true: " above ", false: " below "}[figure.Above] + figure.Bound.String()
			}
			lines = append(lines, line)
		}
	}
	aimed("met", advice.Met...)
	aimed("past", advice.Past...)
	if advice.Missed != nil {
		aimed("missed", *advice.Missed)
	}
	if advice.AllMet {
		lines = append(lines, "all met")
	}
	return lines
}

func TestMuchRibeyeIsNothingToWorkOn(t *testing.T) {
	graded := gradedBeef(t, map[measure.ID]string{
		measure.HotCarcassWeight: "744", measure.AdjustedFat: ".55", measure.RibeyeArea: "13.7", measure.InternalFat: "1.5", measure.Marbling: "Small 30",
	})
	wantNear(t, graded, measure.RibeyePerHundredweight, "1.84", ".01") // past the 1.83 expected for the weight
	advice := Advise(graded, Moves(graded))
	for _, move := range advice.Moves {
		if move.Measure == measure.RibeyeArea && move.To.Number.LessThan(move.From.Number) {
			t.Errorf("%+v", move)
		}
	}
}

// What is told follows the money: the best first, then from the nearest on; what is far, worth nothing or under a twentieth
// of the best is not told.
func TestMovesWorthTelling(t *testing.T) {
	move := func(name, worth, share string) Move {
		made := Move{Pays: grading.PriceStep{Words: name}, share: decimal.RequireFromString(share)}
		if worth != "" {
			made.Worth = decimal.NewNullDecimal(decimal.RequireFromString(worth))
		}
		return made
	}
	for _, test := range []struct {
		name  string
		moves []Move
		want  string
	}{
		{"the best first, then the nearest", []Move{move("near", "30", ".01"), move("best", "100", ".2"), move("next", "40", ".1")}, "best near next"},
		{"a twentieth is told", []Move{move("best", "100", ".1"), move("small", "5", ".01")}, "best small"},
		{"less is not", []Move{move("best", "100", ".1"), move("small", "4.99", ".01")}, "best"},
		{"a quarter of the range is told", []Move{move("far", "100", ".25")}, "far"},
		{"more is not", []Move{move("further", "100", ".250001"), move("near", "1", ".1")}, "near"},
		{"what is worth nothing is told where nothing is worth more", []Move{move("b", "0", ".2"), move("a", "0", ".1")}, "a b"},
		{"and not where something is", []Move{move("a", "0", ".1"), move("b", "1", ".2")}, "b"},
		{"what costs money is never told", []Move{move("a", "-1", ".1")}, ""},
		{"without a price the nearest first", []Move{move("b", "", ".2"), move("a", "", ".1")}, "a b"},
	} {
		var got []string
		for _, move := range worthTelling(test.moves) {
			got = append(got, move.Pays.Words)
		}
		if signals := strings.Join(got, " "); signals != test.want {
			t.Errorf("%s: %q, want %q", test.name, signals, test.want)
		}
	}
}

// No advice rests on a measure in doubt, and none says that all is well while one is.
func TestNoAdviceRestsOnADoubtedMeasure(t *testing.T) {
	graded := gradedBeef(t, map[measure.ID]string{
		measure.HotCarcassWeight: "800", measure.LiveWeight: "1290", measure.AdjustedFat: ".95", measure.RibeyeArea: "13.0", measure.InternalFat: "2",
		measure.Marbling: "Small 40", measure.Maturity: "A50",
	})
	for _, doubted := range []measure.ID{measure.AdjustedFat, measure.RibeyeArea, measure.HotCarcassWeight, measure.Marbling} {
		advice := Advise(graded, Moves(graded), doubted)
		for _, line := range adviceTexts(advice) {
			if strings.Contains(line, doubted.String()) || strings.Contains(line, "yield grade") && doubted != measure.Marbling {
				t.Errorf("with %s in doubt: %s", doubted, line)
			}
		}
		if advice.AllMet {
			t.Errorf("with %s in doubt all is said to be met", doubted)
		}
	}
	if hog := hogOf(".60"); !Advise(hog, nil).AllMet || Advise(hog, nil, measure.LastRibFat).AllMet {
		t.Error("all is met where nothing is in doubt, and only there")
	}
	if Advise(grading.Grade(plainCarcass(rules.Swine, nil), defaultBook), nil).AllMet {
		t.Error("all is met without a figure")
	}
}

// The aim of a lamb's ribeye grows with the carcass: 1.4 + .02 × 60 is 2.6 sq in (Virginia Cooperative Extension).
func TestAnAimThatGrowsWithTheCarcass(t *testing.T) {
	carcass := (&grading.Carcass{Species: rules.Lamb}).With(map[measure.ID]grading.Reading{measure.HotCarcassWeight: {Value: measure.NumberValue(decimal.NewFromInt(60))}})
	aim, ok := Aim(grading.Grade(carcass, rules.Default()), measure.RibeyeArea)
	if !ok || !aim.From.Decimal.Equal(decimal.RequireFromString("2.6")) {
		t.Errorf("%v %v", aim, ok)
	}
}

// A lamb of .16 in of fat meets its aim (yield grade 2, U.S. standards 1992); what no price pays is no reason to leave it.
func TestNoAdviceLeavesAnAimForNothing(t *testing.T) {
	for fat, advised := range map[string]bool{".16": false, ".26": true} {
		carcass := &grading.Carcass{Species: rules.Lamb}
		for id, number := range map[measure.ID]string{measure.HotCarcassWeight: "60", measure.AdjustedFat: fat, measure.RibeyeArea: "3"} {
			carcass.SetReading(id, grading.Reading{Value: measure.NumberValue(decimal.RequireFromString(number))})
		}
		graded := grading.Grade(carcass, rules.Default())
		if got := advisesLess(Advise(graded, Moves(graded)), measure.AdjustedFat); got != advised {
			t.Errorf("%s in of fat: less is advised: %v", fat, got)
		}
		carcass.ClearReading(measure.AdjustedFat)
		carcass.SetReading(measure.MeasuredFat, grading.Reading{Value: measure.NumberValue(decimal.RequireFromString(fat))})
		graded = grading.Grade(carcass, rules.Default())
		if got := advisesLess(Advise(graded, Moves(graded)), measure.MeasuredFat); got != advised {
			t.Errorf("%s in of measured fat: less is advised: %v", fat, got)
		}
	}
}

func advisesLess(advice Advice, id measure.ID) bool {
	return slices.ContainsFunc(advice.Moves, func(move Move) bool { return move.Measure == id && move.To.Number.LessThan(move.From.Number) })
}

// A hog with less fat than its aim begins at has passed the aim, not met it; one with more than it ends at misses it.
func TestAnAimIsMetFromEndToEnd(t *testing.T) {
	for fat, want := range map[string]string{
		".59": "past: tenth-rib fat 0.59 below 0.6", ".60": "met: tenth-rib fat 0.6", "1.00": "met: tenth-rib fat 1", "1.01": "missed: tenth-rib fat 1.01 above 1",
	} {
		advice := Advise(hogOf(fat), nil)
		if lines := adviceTexts(advice); !slices.Contains(lines, want) || advice.AllMet == strings.HasPrefix(want, "missed") {
			t.Errorf("%s in: %q", fat, lines)
		}
	}
}

// hogOf meets its aims but for what its fat does.
func hogOf(fat string) *grading.Graded {
	return grading.Grade(plainCarcass(rules.Swine, map[measure.ID]string{
		measure.HotCarcassWeight: "200", measure.TenthRibFat: fat, measure.LoinMuscleArea: "7.5", measure.LeanColor: "3",
	}), defaultBook)
}

// Of the aims that are missed the one furthest off for its size is told: 900 lb is an eighth past 800, .54 in a fifth past .45.
func TestTheAimFurthestOffForItsSizeIsTold(t *testing.T) {
	for _, test := range []struct {
		weight, fat string
		want        measure.ID
	}{{"900", ".54", measure.AdjustedFat}, {"1000", ".54", measure.HotCarcassWeight}, {"960", ".54", measure.HotCarcassWeight}} {
		steer := gradedBeef(t, map[measure.ID]string{measure.HotCarcassWeight: test.weight, measure.AdjustedFat: test.fat, measure.RibeyeArea: "13"})
		if missed := Advise(steer, nil).Missed; missed == nil || missed.Measure != test.want {
			t.Errorf("%s lb and %s in: %+v, want the %s", test.weight, test.fat, missed, test.want)
		}
	}
}
