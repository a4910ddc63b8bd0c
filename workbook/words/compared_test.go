package words

import (
	"fmt"
	"testing"

	"railbook/grading"
	"railbook/grading/placing"
	"railbook/grading/whatif"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
)

func measured(sequence int, tag, weight, fat, ribeye, marbling string) *grading.Carcass {
	carcass := &grading.Carcass{Tag: tag, Class: "Steers", Species: rules.Beef, Basis: rules.OnTheRail, Sequence: sequence}
	for id, text := range map[measure.ID]string{
		measure.HotCarcassWeight: weight, measure.MeasuredFat: fat, measure.RibeyeArea: ribeye, measure.InternalFat: "2.5",
		measure.Marbling: marbling, measure.Maturity: "160",
	} {
		carcass.SetReading(id, grading.Reading{Value: measure.NumberValue(decimal.RequireFromString(text)), Written: text, Plain: true})
	}
	return carcass
}

func byPrice(places int) *rules.Rulebook {
	book := rules.Default()
	book.Classes = []rules.Class{{Name: rules.EveryOtherClass, Ranking: "price", PlacesPaid: places}}
	book.Rankings = []rules.Ranking{{Name: "price", Ties: rules.TiesShare, Keys: []rules.Key{{Measure: measure.Price, Prefer: rules.Highest}}}}
	return book
}

func atMost(text string) decimal.NullDecimal {
	return decimal.NewNullDecimal(decimal.RequireFromString(text))
}

// sideOf grades carcasses by a rulebook under which all of them compete.
func sideOf(carcasses []*grading.Carcass, book *rules.Rulebook) whatif.Side {
	graded := make([]*grading.Graded, len(carcasses))
	for i, carcass := range carcasses {
		graded[i] = grading.Grade(carcass, book)
	}
	return whatif.Side{Book: book, Entrants: placing.Entered(graded)}
}

// The prices were worked out by hand from the grid of the default rulebook.
func TestAComparisonSaysWhoMovesAndWhy(t *testing.T) {
	herd := []*grading.Carcass{
		measured(0, "101", "780", ".40", "13.6", "440"),
		measured(1, "102", "820", ".50", "13.0", "520"),
		measured(2, "103", "700", ".20", "13.5", "380"),
		measured(3, "104", "910", ".70", "13.2", "710"),
		measured(4, "105", "760", ".35", "14.0", "490"),
	}
	raised, limited := byPrice(2), byPrice(2)
	for i := range raised.Grid {
		if raised.Grid[i].Name == "Select" && raised.Grid[i].Species == rules.Beef {
			raised.Grid[i].Adjust = decimal.RequireFromString("-1.00")
		}
	}
	limited.Eligibility = append(limited.Eligibility, rules.Requirement{Measure: measure.HotCarcassWeight, AtMost: atMost("900"), Failing: rules.FailNotPlaced})
	for _, test := range []struct {
		name     string
		old, new *rules.Rulebook
		want     []string
	}{
		{"a premium raised", byPrice(2), raised, []string{
			"104 1 to 1 |  | ",
			"103 5 to 2 | Select takes -$1.00, was -$28.25 | passes 105: price $302.35 over $301.77 per cwt (for 103 Select takes -$1.00, was -$28.25); in the money now",
			"105 2 to 3 |  | 103 passes it: price $302.35 over $301.77 per cwt (for 103 Select takes -$1.00, was -$28.25); below the money now",
			"101 3 to 4 |  | 103 passes it: price $302.35 over $301.38 per cwt (for 103 Select takes -$1.00, was -$28.25)",
			"102 4 to 5 |  | 103 passes it: price $302.35 over $300.00 per cwt (for 103 Select takes -$1.00, was -$28.25)",
		}},
		{"a limit added", byPrice(2), limited, []string{
			"105 2 to 1 |  | 104 is no longer placed",
			"101 3 to 2 |  | 104 is no longer placed; in the money now",
			"102 4 to 3 |  | 104 is no longer placed",
			"103 5 to 4 |  | 104 is no longer placed",
			"104 1 to 0 |  | not placed now: hot carcass weight 910 lb, at most 900 lb",
		}},
	} {
		t.Run(test.name, func(t *testing.T) {
			var got []string
			for _, row := range whatif.Compare(sideOf(herd, test.old), sideOf(herd, test.new)).Classes[0].Rows {
				got = append(got, fmt.Sprintf("%s %d to %d | %s | %s", row.Tag, row.Old.Place, row.New.Place, phrase.JoinAnd(PriceWhy(row)), PlaceWhy(row)))
			}
			if diff := cmp.Diff(test.want, got); diff != "" {
				t.Error(diff)
			}
		})
	}
}

func TestWhatChangedBesidesThePlaceIsSaid(t *testing.T) {
	for _, test := range []struct {
		was, is whatif.Outcome
		want    []string
	}{
		{whatif.Outcome{Shared: true}, whatif.Outcome{Shared: true, JudgeTie: true}, []string{"the judge breaks its tie now"}},
		{whatif.Outcome{Shared: true, JudgeTie: true}, whatif.Outcome{Shared: true}, []string{"its tie is shared now"}},
		{whatif.Outcome{Shared: true, JudgeTie: true}, whatif.Outcome{Shared: true, JudgeTie: true}, nil},
		{whatif.Outcome{JudgeTie: true}, whatif.Outcome{Shared: true}, nil},
		{whatif.Outcome{Group: "blue"}, whatif.Outcome{}, []string{"group none, was blue"}},
		{whatif.Outcome{Paid: true}, whatif.Outcome{Paid: true}, nil},
		{whatif.Outcome{Awards: []string{"Champion"}}, whatif.Outcome{Awards: []string{"Reserve"}}, []string{"receives Reserve", "no longer receives Champion"}},
	} {
		if diff := cmp.Diff(test.want, besides(test.was, test.is)); diff != "" {
			t.Errorf("%+v to %+v: %s", test.was, test.is, diff)
		}
	}
}

func TestAMoveIsSaidInTwoWords(t *testing.T) {
	out := whatif.Outcome{WhyNotPlaced: "condemned"}
	for _, test := range []struct {
		was, is whatif.Outcome
		want    string
	}{
		{whatif.Outcome{Place: 2}, whatif.Outcome{Place: 2}, ""},
		{out, whatif.Outcome{Place: 2}, "now placed"},
		{whatif.Outcome{Place: 2}, out, "now left out"},
		{whatif.Outcome{Place: 3}, whatif.Outcome{Place: 1}, "up 2"},
		{whatif.Outcome{Place: 1}, whatif.Outcome{Place: 2, Shared: true}, "down 1"},
		{whatif.Outcome{Place: 2}, whatif.Outcome{Place: 2, Shared: true}, "now shared"},
		{whatif.Outcome{Place: 2, Shared: true}, whatif.Outcome{Place: 2}, "now alone"},
		{whatif.Outcome{Place: 2, Paid: true}, whatif.Outcome{Place: 2}, "same place"},
		{whatif.Outcome{Place: 2, Shared: true, Paid: true}, whatif.Outcome{Place: 2, Shared: true}, "same place"},
	} {
		if got := Moved(whatif.Compared{Old: test.was, New: test.is}); got != test.want {
			t.Errorf("%+v to %+v: %q, want %q", test.was, test.is, got, test.want)
		}
	}
}

func TestWhoIsLetInOrKeptOutIsSaid(t *testing.T) {
	behind := whatif.Outcome{Place: 4, After: true, Fails: []string{"too light", "too lean"}}
	for _, test := range []struct {
		was, is whatif.Outcome
		want    string
	}{
		{behind, whatif.Outcome{Place: 1}, "becomes eligible; was not: too light; too lean"},
		{whatif.Outcome{Place: 1}, behind, "is eligible no more: too light; too lean"},
		{whatif.Outcome{Place: 1}, whatif.Outcome{WhyNotPlaced: "condemned"}, "is eligible no more: condemned"},
	} {
		if got := Eligibility(whatif.Compared{Old: test.was, New: test.is}); got != test.want {
			t.Errorf("%q, want %q", got, test.want)
		}
	}
}

func TestWhatChangedIsToldOnce(t *testing.T) {
	choice := grading.PriceStep{Words: "Choice", Line: &rules.GridLine{}, Adjust: measure.NumberValue(grading.Exact("2"))}
	raised := []whatif.PriceChange{{Kind: whatif.StepAdded, New: choice}}
	first, second := herdOf("14", "13.5")[0], herdOf("14", "13.5")[1]
	class := placing.PlaceClasses(placing.Entered([]*grading.Graded{first, second}), nil, byPrice(2)).Classes[0]
	over := &whatif.Over{Upper: first, Lower: second, Ranker: class.Ranker(byPrice(2)), Key: -1}
	byMoney := &whatif.Over{Upper: first, Lower: second, Ranker: class.Ranker(byPrice(2)), Causes: []whatif.Cause{{Of: first, Changes: raised}}}
	passes := func(over *whatif.Over) whatif.Compared {
		return whatif.Compared{
			Old: whatif.Outcome{Place: 2}, New: whatif.Outcome{Place: 1}, PriceChanges: raised,
			Passing: &whatif.Passing{Kind: whatif.Passes, Other: second, Over: over},
		}
	}
	for _, test := range []struct {
		row  whatif.Compared
		want string
	}{
		{passes(over), "Passes 2: by the judge. Choice pays +$2.00 now."},
		{passes(byMoney), "Passes 2: " + overWith(byMoney.Ranker, first, second, 0) + " (for 1 Choice pays +$2.00 now)."},
		{whatif.Compared{Old: whatif.Outcome{WhyNotPlaced: "condemned"}, New: whatif.Outcome{WhyNotPlaced: "too light"}}, "Left out: too light."},
		{whatif.Compared{Old: whatif.Outcome{Place: 1}, New: whatif.Outcome{WhyNotPlaced: "too light"}}, "Not placed now: too light."},
		{whatif.Compared{Old: whatif.Outcome{Place: 1}, New: whatif.Outcome{Place: 1}}, ""},
	} {
		if got := WhyOtherwise(test.row); got != test.want {
			t.Errorf("%q, want %q", got, test.want)
		}
	}
}
