package whatif

import (
	"strings"
	"testing"

	"railbook/grading"
	"railbook/rules/measure"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func TestAdviceSaysWhatTheFiguresSay(t *testing.T) {
	graded := gradedBeef(t, map[measure.ID]string{
		measure.HotCarcassWeight: "800", measure.LiveWeight: "1290", measure.AdjustedFat: ".95", measure.RibeyeArea: "13.0", measure.InternalFat: "2",
		measure.Marbling: "Small 40", measure.Maturity: "A50",
	})
	want := []string{
		"On target: the hot carcass weight (800 lb), the dressing percent (62.02 %) and the ribeye per hundredweight (1.63 sq in/cwt).",
		// 0.95 is 18.75 % past 0.80; the yield grade of 4.155 is 18.71 % past 3.5.
		"What to work on first with the next animal: the adjusted fat, .95 in here, is above the target of .80 in (the usual range); aim lower.",
		// 4.155 − .32 × .5 = 3.995: from a discount of 12.45 to none, 12.45 × 8 = 99.60. Of the range of ribeye (9 to 18 sq in)
		// that is less than .07 in is of the range of fat (.10 to 1.20 in).
		"The nearest better step was 0.50 sq in more ribeye area (13.50 sq in instead of 13.00 sq in): that reaches yield grade 3, worth $99.60 more.",
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
		if strings.Contains(sentence, "aim lower") {
			t.Error(sentence)
		}
	}
}

func TestAdviceIsTwoOrThreeSentencesOfTheCarcassAlone(t *testing.T) {
	book := pricedBook()
	rapid.Check(t, func(t *rapid.T) {
		graded := grading.Grade(someCarcass(t), book)
		advice := Advice(graded, Moves(graded))
		if len(advice) < 1 || len(advice) > 3 || cmp.Diff(advice, Advice(graded, Moves(graded))) != "" {
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
