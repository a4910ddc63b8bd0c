package words

import (
	"strings"
	"testing"

	"railbook/grading"
	"railbook/grading/whatif"
	"railbook/rules"
	"railbook/rules/measure"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// moveOf is a change of a measure that reaches a yield grade of 3; no worth where there is no price.
func moveOf(id measure.ID, from, to, worth string) whatif.Move {
	move := whatif.Move{
		Measure: id, From: measure.NumberValue(grading.Exact(from)), To: measure.NumberValue(grading.Exact(to)),
		Reached: measure.WholeYieldGrade, Becomes: measure.NumberValue(grading.Exact("3")),
	}
	if worth != "" {
		move.Worth = decimal.NewNullDecimal(grading.Exact(worth))
	}
	return move
}

func aimed(id measure.ID, number string) whatif.AimedFigure {
	return whatif.AimedFigure{Measure: id, Number: grading.Exact(number)}
}

// The sentences that stand on a family's card; no published source has such words.
func TestAdviceSaysWhatWasFound(t *testing.T) {
	ribeye, fat := moveOf(measure.RibeyeArea, "13", "13.5", "99.6"), moveOf(measure.AdjustedFat, "0.95", "0.88", "99.6")
	met := []whatif.AimedFigure{aimed(measure.HotCarcassWeight, "800"), aimed(measure.RibeyeArea, "13"), aimed(measure.MarblingScore, "440")}
	lean := []whatif.AimedFigure{{Measure: measure.TenthRibFat, Number: grading.Exact(".42"), Bound: grading.Exact(".6")}}
	missed := whatif.AimedFigure{Measure: measure.AdjustedFat, Number: grading.Exact(".5"), Bound: grading.Exact(".45"), Above: true}
	below := whatif.AimedFigure{Measure: measure.MarblingScore, Number: grading.Exact("390"), Bound: grading.Exact("400")}
	const (
		mostRibeye = "The change worth most: 0.50 sq in more ribeye area (13.50 sq in instead of 13.00 sq in). It reaches yield grade 3, worth $99.60 more."
		lessFat    = "0.07 in less adjusted fat (0.88 in instead of 0.95 in). It reaches yield grade 3, "
		goodPlan   = "More of the same is a good plan."
	)
	for _, test := range []struct {
		name   string
		advice whatif.Advice
		want   []string
	}{
		{"nothing", whatif.Advice{}, []string{"There is too little here to draw advice from. Ask the judge what was seen on the rail."}},
		{"the most worth, then the nearest", whatif.Advice{Moves: []whatif.Move{ribeye, fat}}, []string{mostRibeye, "The nearest: " + lessFat + "worth $99.60 more."}},
		{"the third is another", whatif.Advice{Moves: []whatif.Move{ribeye, fat, fat}}, []string{
			mostRibeye, "The nearest: " + lessFat + "worth $99.60 more.", "Or: " + lessFat + "worth $99.60 more.",
		}},
		{"a fourth is not told", whatif.Advice{Moves: []whatif.Move{ribeye, ribeye, ribeye, fat}}, []string{
			mostRibeye, strings.Replace(mostRibeye, "The change worth most", "The nearest", 1), strings.Replace(mostRibeye, "The change worth most", "Or", 1),
		}},
		{"without a price the first is the nearest", whatif.Advice{Moves: []whatif.Move{moveOf(measure.AdjustedFat, "0.95", "0.88", ""), fat}}, []string{
			"The nearest: " + lessFat + "though no price is set to say what that is worth.", "Or: " + lessFat + "worth $99.60 more.",
		}},
		{"a change leaves the missed aim unsaid", whatif.Advice{Moves: []whatif.Move{ribeye}, Missed: &missed}, []string{mostRibeye}},
		{"a change leaves the good plan unsaid", whatif.Advice{Moves: []whatif.Move{ribeye}, Met: met[:1], AllMet: true}, []string{mostRibeye, "Aims met: hot carcass weight (800 lb)."}},
		{"too much", whatif.Advice{Missed: &missed}, []string{"Aim for less adjusted fat next time: 0.50 in here, and the aim is 0.45 in."}},
		{"too little", whatif.Advice{Missed: &below}, []string{"Aim for more marbling score next time: Slight 90 here, and the aim is Small 00."}},
		{"all met", whatif.Advice{Met: met, AllMet: true}, []string{
			"Aims met: hot carcass weight (800 lb), ribeye area (13.00 sq in) and marbling score (Small 40).", "Every aim is met. " + goodPlan,
		}},
		{"a fourth aim is not named", whatif.Advice{Met: append(met[:3:3], lean...)}, []string{
			"Aims met: hot carcass weight (800 lb), ribeye area (13.00 sq in) and marbling score (Small 40).",
		}},
		{"past its aim", whatif.Advice{Met: met[:1], Past: lean, AllMet: true}, []string{
			"Aims met: hot carcass weight (800 lb).", "Past its aim on the good side: tenth-rib fat (0.42 in). " + goodPlan,
		}},
		{"past its aim, and another in doubt", whatif.Advice{Met: met[:1], Past: lean}, []string{"Aims met: hot carcass weight (800 lb)."}},
	} {
		t.Run(test.name, func(t *testing.T) {
			if diff := cmp.Diff(test.want, Advice(test.advice)); diff != "" {
				t.Error(diff)
			}
		})
	}
}

func TestAChangeHasItsWords(t *testing.T) {
	price := func(words string) whatif.Move {
		move := moveOf(measure.HotCarcassWeight, "590", "600", "10")
		move.Reached, move.Pays.Words = measure.Price, words
		return move
	}
	graded := moveOf(measure.Marbling, "490", "500", "0")
	graded.Reached, graded.Becomes = measure.QualityGrade, measure.Value{Text: "Average Choice"}
	for _, test := range []struct {
		move whatif.Move
		want string
	}{
		{price("weight 600 up to 900 lb"), "10 lb more hot carcass weight (600 lb instead of 590 lb), the price of weight 600 up to 900 lb, worth $10.00 more"},
		{price(""), "10 lb more hot carcass weight (600 lb instead of 590 lb), a better price, worth $10.00 more"},
		{graded, "more marbling, by 10 points (Modest 00 instead of Small 90), Average Choice, which this price grid pays the same"},
		{moveOf(measure.MusclingScore, "2", "3", "-1.5"), "a muscling score 1 higher (3 instead of 2), yield grade 3, worth $1.50 less on this price grid"},
		{moveOf(measure.MusclingScore, "3", "2", ""), "a muscling score 1 lower (2 instead of 3), yield grade 3, though no price is set to say what that is worth"},
	} {
		if got := moveChange(test.move) + ", " + moveReached(test.move) + ", " + moveWorth(test.move); got != test.want {
			t.Errorf("%q, want %q", got, test.want)
		}
	}
}

func TestWhereInItsGradeACarcassStandsIsSaid(t *testing.T) {
	stretch := whatif.Stretch{Measure: measure.Marbling, From: grading.MarblingValue(400), At: grading.MarblingValue(440)}
	if got, want := Within(stretch), "Here that begins at marbling of Small 00; this carcass has Small 40."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	stretch.Next = atMost("500")
	if got, want := Within(stretch), "Here that begins at marbling of Small 00, and the next better one is 60 points away, at Modest 00; this carcass has Small 40."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

// Whatever a carcass is, its family reads one to four sentences, and none of them blames anybody.
func TestAdviceIsOneToFourSentencesOfTheCarcassAlone(t *testing.T) {
	book := *rules.Default()
	book.Settings.BasePrice = map[rules.Species]decimal.NullDecimal{rules.Beef: atMost("300"), rules.Lamb: atMost("310")}
	rapid.Check(t, func(t *rapid.T) {
		number := func(name string, from, upTo int, exponent int32) string {
			return decimal.New(int64(rapid.IntRange(from, upTo).Draw(t, name)), exponent).String()
		}
		carcass := measured(0, "101", number("weight", 520, 1080, 0), number("fat", 10, 115, -2), number("ribeye", 95, 175, -1), number("marbling", 210, 880, 0))
		if rapid.Bool().Draw(t, "lamb") {
			carcass = measured(0, "101", number("weight", 46, 95, 0), number("fat", 5, 48, -2), number("ribeye", 16, 45, -1), number("streaking", 210, 880, 0))
			carcass.Species = rules.Lamb
		}
		graded := grading.Grade(carcass, &book)
		var doubted []measure.ID
		if rapid.Bool().Draw(t, "in doubt") {
			doubted = append(doubted, measure.RibeyeArea)
		}
		advice := Advice(whatif.Advise(graded, whatif.Moves(graded), doubted...))
		if len(advice) < 1 || len(advice) > 4 {
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
