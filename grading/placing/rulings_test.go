package placing_test

import (
	"fmt"
	"strings"
	"testing"

	"railbook/grading"
	"railbook/grading/placing"
	"railbook/rules"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// five are five steers of which the second to the fourth are level on every key.
func five(ties rules.Ties) ([]*grading.Graded, *rules.Rulebook) {
	book := beefBook()
	book.Rankings[0].Ties = ties
	return []*grading.Graded{
		beef("1", "Steers", "Low Prime", "2.4", "700", "1.7"),
		beef("2", "Steers", "Low Choice", "2.4", "410", "1.7"),
		beef("3", "Steers", "Low Choice", "2.4", "410", "1.7"),
		beef("4", "Steers", "Low Choice", "2.4", "410", "1.7"),
		beef("5", "Steers", "High Select", "2.4", "380", "1.7"),
	}, book
}

func TestRulings(t *testing.T) {
	const asRuled = "1 1, 2 2, 2 3, 2 4, 5 5"
	cases := []struct {
		name    string
		ties    rules.Ties
		rulings []placing.Ruling
		places  string
		refused []string
	}{
		{name: "the judge breaks a tie", ties: rules.TiesJudge, rulings: []placing.Ruling{
			{Class: "Steers", Tag: "4", Place: 2},
			{Class: "steers", Tag: "2", Place: 3},
			{Class: "Steers", Tag: "3", Place: 4},
		}, places: "1 1, 2 4, 3 2, 4 3, 5 5"},
		{
			name: "the judge breaks a part of a tie", ties: rules.TiesJudge,
			rulings: []placing.Ruling{{Class: "Steers", Tag: "4", Place: 2}}, places: "1 1, 2 4, 3 2, 3 3, 5 5",
		},
		{name: "the judge leaves two of a tie level", ties: rules.TiesJudge, rulings: []placing.Ruling{
			{Class: "Steers", Tag: "4", Place: 2}, {Class: "Steers", Tag: "3", Place: 2},
		}, places: "1 1, 2 3, 2 4, 4 2, 5 5"},
		{name: "places within a tie that leave a hole", ties: rules.TiesJudge, rulings: []placing.Ruling{
			{Class: "Steers", Tag: "4", Place: 3},
		}, places: asRuled, refused: []string{"The rulings on the tie for 2nd do not fit together: give each of 2, 3 and 4 a place from 2 to 4."}},
		{name: "a shared place is not broken without a reason", ties: rules.TiesShare, rulings: []placing.Ruling{
			{Class: "Steers", Tag: "4", Place: 2},
		}, places: asRuled, refused: []string{"The rule places 4 2nd: a place against the rule needs a reason."}},
		{name: "overruled up, others close ranks", ties: rules.TiesShare, rulings: []placing.Ruling{
			{Class: "Steers", Tag: "5", Place: 1, Reason: "the ribeye was cut on the bias"},
		}, places: "1 5, 2 1, 3 2, 3 3, 3 4"},
		{name: "overruled down, others close ranks", ties: rules.TiesShare, rulings: []placing.Ruling{
			{Class: "Steers", Tag: "1", Place: 5, Reason: "two-toned lean"},
		}, places: "1 2, 1 3, 1 4, 4 5, 5 1"},
		{name: "overruled into the middle of a tie", ties: rules.TiesShare, rulings: []placing.Ruling{
			{Class: "Steers", Tag: "5", Place: 3, Reason: "firmer lean"},
		}, places: asRuled, refused: []string{"Place 3 lies within a tie, so 5 can't stand there alone: break the tie, or give another place."}},
		{
			name: "two places for one carcass", ties: rules.TiesShare,
			rulings: []placing.Ruling{
				{Class: "Steers", Tag: "5", Place: 1, Reason: "a"}, {Class: "Steers", Tag: "5", Place: 2, Reason: "b"},
			},
			places: asRuled, refused: []string{
				"Two rulings give 5 different places: neither is followed.",
				"Two rulings give 5 different places: neither is followed.",
			},
		},
		{
			name: "two carcasses in one place", ties: rules.TiesShare,
			rulings: []placing.Ruling{
				{Class: "Steers", Tag: "5", Place: 1, Reason: "a"}, {Class: "Steers", Tag: "4", Place: 1, Reason: "b"},
			},
			places: asRuled, refused: []string{
				"The rulings put both 5 and 4 in place 1: neither is followed.",
				"The rulings put both 4 and 5 in place 1: neither is followed.",
			},
		},
		{name: "a tie broken while another is moved past it", ties: rules.TiesJudge, rulings: []placing.Ruling{
			{Class: "Steers", Tag: "5", Place: 1, Reason: "firmer lean"},
			{Class: "Steers", Tag: "4", Place: 3},
			{Class: "Steers", Tag: "2", Place: 5},
		}, places: "1 5, 2 1, 3 4, 4 3, 5 2"},
		{name: "a tag that is not there", ties: rules.TiesShare, rulings: []placing.Ruling{
			{Class: "Steers", Tag: "55", Place: 1, Reason: "a"},
		}, places: asRuled, refused: []string{"There is no carcass 55 in class Steers."}},
		{name: "a place that is not there", ties: rules.TiesShare, rulings: []placing.Ruling{
			{Class: "Steers", Tag: "5", Place: 6, Reason: "a"},
		}, places: asRuled, refused: []string{"There is no place 6 in class Steers: 5 placed."}},
	}
	for _, test := range cases {
		t.Run(test.name, func(t *testing.T) {
			herd, book := five(test.ties)
			placings := placing.PlaceClasses(placing.Entered(herd), test.rulings, book)
			if diff := cmp.Diff(test.places, placesOf(placings.Classes[0])); diff != "" {
				t.Error(diff)
			}
			var refused []string
			for _, ruling := range placings.Refused {
				refused = append(refused, ruling.Why)
			}
			if diff := cmp.Diff(test.refused, refused); diff != "" {
				t.Error(diff)
			}
		})
	}
}

func placesOf(class placing.ClassPlacing) string {
	var places []string
	for _, placed := range class.Placed {
		places = append(places, fmt.Sprint(placed.Place, " ", placed.Tag))
	}
	return strings.Join(places, ", ")
}

func TestAnOverruledPlaceSaysSo(t *testing.T) {
	herd, book := five(rules.TiesShare)
	class := placing.PlaceClasses(placing.Entered(herd), []placing.Ruling{{Class: "Steers", Tag: "5", Place: 2, Reason: "firmer lean"}}, book).Classes[0]
	want := []string{
		"1 1: ahead of 5, which the judge placed 2nd",
		"2 5: placed 2nd by the judge: firmer lean",
		"3 2: level on every key with 3 and 4: shared place",
		"3 3: level on every key with 2 and 4: shared place",
		"3 4: level on every key with 2 and 3: shared place",
	}
	if diff := cmp.Diff(want, listed(class)); diff != "" {
		t.Error(diff)
	}
	if class.Placed[1].Overruled != "firmer lean" || class.Placed[1].Decider != -1 || class.Placed[0].Decider != -1 {
		t.Errorf("overruled %q, deciders %d and %d", class.Placed[1].Overruled, class.Placed[0].Decider, class.Placed[1].Decider)
	}
}

func TestARulingOnACarcassThatIsNotPlacedIsRefused(t *testing.T) {
	herd, book := five(rules.TiesShare)
	placings := placing.PlaceClasses(entered(herd, map[*grading.Graded]placing.KeptOut{herd[0]: {Reason: "condemned", OnHold: true}}), []placing.Ruling{{Class: "Steers", Tag: "1", Place: 1, Reason: "a"}}, book)
	if len(placings.Refused) != 1 || placings.Refused[0].Why != "1 is not placed (condemned), so it can't be given a place." {
		t.Errorf("%+v", placings.Refused)
	}
}

func TestAnyRulingsKeepEveryCarcassAndEveryRulingIsFollowedOrRefused(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		herd := herdOf(t)
		book := beefBook()
		book.Rankings[0].Ties = rapid.SampledFrom([]rules.Ties{rules.TiesJudge, rules.TiesShare}).Draw(t, "ties")
		var rulings []placing.Ruling
		for range rapid.IntRange(0, 5).Draw(t, "rulings") {
			carcass := rapid.SampledFrom(herd).Draw(t, "carcass")
			rulings = append(rulings, placing.Ruling{
				Class: carcass.Class, Tag: carcass.Tag, Place: rapid.IntRange(0, 9).Draw(t, "place"),
				Reason: rapid.SampledFrom([]string{"", "firmer lean"}).Draw(t, "reason"),
			})
		}
		placings := placing.PlaceClasses(placing.Entered(herd), rulings, book)
		count := 0
		for _, class := range placings.Classes {
			count += len(class.Placed) + len(class.NotPlaced)
			for i, placed := range class.Placed {
				if i > 0 && placed.Place < class.Placed[i-1].Place || placed.Place > i+1 {
					t.Fatalf("places out of order: %s", placesOf(class))
				}
			}
		}
		if count != len(herd) {
			t.Fatalf("%d carcasses of %d", count, len(herd))
		}
		refused := map[placing.Ruling]bool{}
		for _, ruling := range placings.Refused {
			ruling.Reason = "" // the same ruling with and without a reason is one
			refused[ruling.Ruling] = true
		}
		for _, ruling := range rulings {
			ruling.Reason = ""
			if refused[ruling] {
				continue
			}
			for _, carcass := range herd {
				if carcass.Tag == ruling.Tag && placeOf(placings, carcass) != ruling.Place {
					t.Fatalf("ruling %+v was neither followed nor refused", ruling)
				}
			}
		}
	})
}
