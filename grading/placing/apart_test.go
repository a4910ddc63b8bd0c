package placing_test

import (
	"slices"
	"testing"

	"railbook/grading"
	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// What put one carcass over another is the key that decided, a limit that the lower one alone fails, or the judge.
func TestWhatPutOneCarcassOverAnother(t *testing.T) {
	largest := rules.Key{Measure: measure.RibeyeArea, Prefer: rules.Highest}
	least := func(area string) []rules.Requirement {
		return []rules.Requirement{{Measure: measure.RibeyeArea, AtLeast: valid(area), Failing: rules.FailAfter}}
	}
	for _, test := range []struct {
		name    string
		areas   []string
		limits  []rules.Requirement
		rulings []placing.Ruling
		want    placing.Apart // of the first two placed
	}{
		{"a key decides", []string{"13.5", "13"}, nil, nil, placing.Apart{Measure: measure.RibeyeArea}},
		{"equal in every key", []string{"13", "13"}, nil, nil, placing.Apart{Judge: true}},
		{"the lower one is outside the limit", []string{"13.5", "13"}, least("13.2"), nil, placing.Apart{Limit: "a limit"}},
		{"the lower one is at the limit", []string{"13.5", "13"}, least("13"), nil, placing.Apart{Measure: measure.RibeyeArea}},
		{"both are outside the limit", []string{"13.5", "13"}, least("14"), nil, placing.Apart{Measure: measure.RibeyeArea}},
		{"the judge overruled", []string{"13.5", "13"}, nil, []placing.Ruling{{Class: "Steers", Tag: "2", Place: 1, Reason: "firmer lean"}}, placing.Apart{Judge: true}},
	} {
		book := ribeyeBook(largest)
		book.Eligibility = test.limits
		herd := ribeyes(test.areas...)
		for _, carcass := range herd {
			carcass.Book = book
		}
		class := placing.PlaceClasses(placing.Entered(herd), test.rulings, book).Classes[0]
		got := class.Apart(class.Placed[0], class.Placed[1])
		if got.Measure != test.want.Measure || got.Judge != test.want.Judge || (got.Limit == "") != (test.want.Limit == "") {
			t.Errorf("%s: measure %q, limit %q, judge %v", test.name, got.Measure, got.Limit, got.Judge)
		}
		if got.Measure == measure.RibeyeArea && (got.OfUpper != "13.50 sq in" || got.OfLower != "13.00 sq in") {
			t.Errorf("%s: %q over %q", test.name, got.OfUpper, got.OfLower)
		}
	}
}

// Of two carcasses apart in price the parts of the grid that pay the upper one more are named, the largest first, and no part that
// pays it less.
func TestThePartsOfAPriceThatPutItAhead(t *testing.T) {
	book := rules.Default()
	from := func(text string) rules.Band { return rules.Band{From: valid(text), FromIsIn: true} }
	below := func(text string) rules.Band { return rules.Band{UpTo: valid(text)} }
	line := func(part rules.Part, name string, band rules.Band, adjust int64) rules.GridLine {
		return rules.GridLine{Species: rules.Beef, Part: part, Name: name, Band: band, Adjust: decimal.NewFromInt(adjust)}
	}
	book.Grid = []rules.GridLine{
		line(rules.QualityPart, "Prime", rules.Band{}, 10), line(rules.QualityPart, "Choice", rules.Band{}, 0),
		line(rules.YieldPart, "", below("3.5"), 3), line(rules.YieldPart, "", from("3.5"), -15),
		line(rules.WeightPart, "", below("760"), 0), line(rules.WeightPart, "", from("760"), 2),
	}
	book.Settings.BasePrice = map[rules.Species]decimal.NullDecimal{rules.Beef: valid("300")}
	book.Classes = []rules.Class{{Name: rules.EveryOtherClass, Species: rules.Beef, Ranking: "price"}}
	book.Rankings = []rules.Ranking{{Name: "price", Ties: rules.TiesShare, Keys: []rules.Key{{Measure: measure.Price, Prefer: rules.Highest}}}}
	upper := grading.Grade(beefOf(t, nil), book)
	lower := grading.Grade(beefOf(t, map[measure.ID]string{measure.Marbling: "420", measure.AdjustedFat: "0.95", measure.HotCarcassWeight: "770"}), book)
	lower.Carcass.Tag = "102"
	class := placing.PlaceClasses(placing.Entered([]*grading.Graded{lower, upper}), nil, book).Classes[0]
	if len(class.Placed) != 2 || class.Placed[0].Tag != "101" {
		t.Fatalf("placed %+v, left %+v", class.Placed, class.NotPlaced)
	}
	var parts []rules.Part
	for _, gap := range class.Apart(class.Placed[0], class.Placed[1]).Prices {
		parts = append(parts, gap.Part)
		if want := map[rules.Part]string{rules.QualityPart: "10", rules.YieldPart: "18"}[gap.Part]; gap.More.String() != want {
			t.Errorf("%s pays %s more, want %s", gap.Part, gap.More, want)
		}
	}
	if !slices.Equal(parts, []rules.Part{rules.YieldPart, rules.QualityPart}) {
		t.Errorf("parts %v", parts)
	}
}
