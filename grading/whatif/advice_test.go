package whatif

import (
	"strings"
	"testing"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

func TestAdviceSaysWhatTheFiguresSay(t *testing.T) {
	graded := gradedBeef(t, map[measure.ID]string{
		measure.HotCarcassWeight: "800", measure.LiveWeight: "1290", measure.AdjustedFat: ".95", measure.RibeyeArea: "13.0", measure.InternalFat: "2",
		measure.Marbling: "Small 40", measure.Maturity: "A50",
	})
	want := []string{
		// 4.155 − .32 × .5 = 3.995: from a discount of 12.45 to none, 12.45 × 8 = 99.60. Of the range of ribeye (9 to 18 sq in)
		// that is less than .07 in is of the range of fat (.10 to 1.20 in).
		"The change worth most: 0.50 sq in more ribeye area (13.50 sq in instead of 13.00 sq in). It reaches yield grade 3, worth $99.60 more.",
		"The nearest: 0.07 in less adjusted fat (0.88 in instead of 0.95 in). It reaches yield grade 3, worth $99.60 more.",
		"Aims met: hot carcass weight (800 lb), ribeye area (13.00 sq in) and marbling score (Small 40).",
	}
	if diff := cmp.Diff(want, Advice(graded, Moves(graded))); diff != "" {
		t.Error(diff)
	}
}

func TestMuchRibeyeIsNothingToWorkOn(t *testing.T) {
	graded := gradedBeef(t, map[measure.ID]string{
		measure.HotCarcassWeight: "744", measure.AdjustedFat: ".55", measure.RibeyeArea: "13.7", measure.InternalFat: "1.5", measure.Marbling: "Small 30",
	})
	wantNear(t, graded, measure.RibeyePerHundredweight, "1.84", ".01") // past the 1.83 expected for the weight
	for _, sentence := range Advice(graded, Moves(graded)) {
		if strings.Contains(sentence, "less ribeye") {
			t.Error(sentence)
		}
	}
}

func TestAdviceIsOneToFourSentencesOfTheCarcassAlone(t *testing.T) {
	book := pricedBook()
	rapid.Check(t, func(t *rapid.T) {
		graded := grading.Grade(someCarcass(t), book)
		advice := Advice(graded, Moves(graded))
		if len(advice) < 1 || len(advice) > 4 || cmp.Diff(advice, Advice(graded, Moves(graded))) != "" {
			t.Fatalf("%q", advice)
		}
		for _, sentence := range advice {
			for _, word := range []string{" you ", "should have", "fault", "bad", "poor", "fail", "%!", "()"} {
				if strings.Contains(sentence, word) {
					t.Fatalf("%q says %q", sentence, word)
				}
			}
		}
	})
}

// What is told follows the money: the best first, then from the nearest on; what is far, worth nothing or under a twentieth
// of the best is not told.
func TestMovesWorthTelling(t *testing.T) {
	move := func(name, worth, share string) Move {
		made := Move{Line: name, share: decimal.RequireFromString(share)}
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
		for _, move := range Telling(test.moves) {
			got = append(got, move.Line)
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
		for _, sentence := range Advice(graded, Moves(graded), doubted) {
			if strings.Contains(sentence, doubted.String()) || strings.Contains(sentence, "yield grade") && doubted != measure.Marbling || strings.Contains(sentence, "More of the same") {
				t.Errorf("with %s in doubt: %s", doubted, sentence)
			}
		}
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
	for fat, said := range map[string]bool{".16": false, ".26": true} {
		carcass := &grading.Carcass{Species: rules.Lamb}
		for id, number := range map[measure.ID]string{measure.HotCarcassWeight: "60", measure.AdjustedFat: fat, measure.RibeyeArea: "3"} {
			carcass.SetReading(id, grading.Reading{Value: measure.NumberValue(decimal.RequireFromString(number))})
		}
		graded := grading.Grade(carcass, rules.Default())
		if got := strings.Contains(strings.Join(Advice(graded, Moves(graded)), " "), "less adjusted fat"); got != said {
			t.Errorf("%s in of fat: less is told: %v", fat, got)
		}
		carcass.ClearReading(measure.AdjustedFat)
		carcass.SetReading(measure.MeasuredFat, grading.Reading{Value: measure.NumberValue(decimal.RequireFromString(fat))})
		graded = grading.Grade(carcass, rules.Default())
		if got := strings.Contains(strings.Join(Advice(graded, Moves(graded)), " "), "less measured fat"); got != said {
			t.Errorf("%s in of measured fat: less is told: %v", fat, got)
		}
	}
}

// A hog with less fat than its aim begins at has passed the aim, not met it; no card says that every aim is met then.
func TestEveryAimIsMetOnlyWhereItIs(t *testing.T) {
	for fat, want := range map[string]string{
		".42": "Past its aim on the good side: tenth-rib fat (0.42 in).", ".60": "Every aim is met.", ".59": "Past its aim on the good side: tenth-rib fat (0.59 in).",
	} {
		carcass := &grading.Carcass{Species: rules.Swine}
		for name, number := range map[string]string{"hot carcass weight": "200", "tenth-rib fat": fat, "loin muscle area": "7.5", "lean color": "3"} {
			carcass.SetReading(measure.Standard().ByName(name), grading.Reading{Value: measure.NumberValue(decimal.RequireFromString(number))})
		}
		graded := grading.Grade(carcass, rules.Default())
		if got := strings.Join(Advice(graded, nil), " "); !strings.Contains(got, want) {
			t.Errorf("%s in: %s", fat, got)
		}
	}
}

// Where no price tells what a change is worth, one is the nearest, and the others are others.
func TestOneChangeIsTheNearest(t *testing.T) {
	carcass := &grading.Carcass{Species: rules.Lamb}
	for name, text := range map[string]string{"hot carcass weight": "60", "adjusted fat": ".42", "ribeye area": "3"} {
		carcass.SetReading(measure.Standard().ByName(name), grading.Reading{Value: measure.NumberValue(decimal.RequireFromString(text))})
	}
	graded := grading.Grade(carcass, rules.Default())
	moves := Moves(graded)
	if len(moves) == 0 {
		t.Fatal("nothing would have moved it")
	}
	sentences := strings.Join(Advice(graded, append(moves, moves[0])), " ")
	if strings.Count(sentences, "The nearest: ") != 1 || !strings.Contains(sentences, "Or: ") {
		t.Error(sentences)
	}
}
