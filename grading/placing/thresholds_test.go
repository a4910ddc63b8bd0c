package placing_test

import (
	"fmt"
	"testing"

	"railbook/grading"
	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/measure"
)

// ribeyes is a class of carcasses that differ in their ribeye.
func ribeyes(areas ...string) []*grading.Graded {
	var herd []*grading.Graded
	for i, area := range areas {
		herd = append(herd, made(fmt.Sprint(i+1), "Steers", "ribeye area="+area))
	}
	return herd
}

func ribeyeBook(keys ...rules.Key) *rules.Rulebook {
	return &rules.Rulebook{
		Classes:  []rules.Class{{Name: rules.EveryOtherClass, Ranking: "ribeye"}},
		Rankings: []rules.Ranking{{Name: "ribeye", Ties: rules.TiesShare, Keys: keys}},
	}
}

// A carcass falls under the line with its class's own name before one that lists the name, and under that before the line for
// every other class, whatever species and basis these name; of two that fit alike the first holds.
func TestTheNarrowestLineOfAClassHolds(t *testing.T) {
	named := rules.Class{Name: "Steers", Ranking: "ribeye", PlacesPaid: 1}
	listed := rules.Class{Name: "Market beef", Matches: []string{"Steers"}, Species: rules.Beef, Basis: rules.OnTheRail, Ranking: "ribeye", PlacesPaid: 2}
	listedBare := rules.Class{Name: "Market beef", Matches: []string{"Steers"}, Ranking: "ribeye", PlacesPaid: 3}
	other := rules.Class{Name: rules.EveryOtherClass, Species: rules.Beef, Basis: rules.OnTheRail, Ranking: "ribeye", PlacesPaid: 4}
	ofSpecies := rules.Class{Name: "Steers", Species: rules.Beef, Ranking: "ribeye", PlacesPaid: 5}
	ofBasis := rules.Class{Name: "Steers", Basis: rules.OnTheRail, Ranking: "ribeye", PlacesPaid: 6}
	again := rules.Class{Name: "steers", Ranking: "ribeye", PlacesPaid: 7}
	for _, test := range []struct {
		classes []rules.Class
		want    int
	}{
		{[]rules.Class{other, listed, named}, 1},
		{[]rules.Class{other, listed}, 2},
		{[]rules.Class{other, listedBare}, 3},
		{[]rules.Class{other}, 4},
		{[]rules.Class{named, ofBasis, ofSpecies}, 5},
		{[]rules.Class{named, ofBasis}, 6},
		{[]rules.Class{named, again}, 1},
		{[]rules.Class{again, named}, 7},
	} {
		book := ribeyeBook(rules.Key{Measure: measure.RibeyeArea, Prefer: rules.Highest})
		book.Classes = test.classes
		if got := placing.PlaceClasses(placing.Entered(ribeyes("13")), nil, book).Classes[0].Rule.PlacesPaid; got != test.want {
			t.Errorf("of %v line %d holds, want %d", test.classes, got, test.want)
		}
	}
}

// At its bound a key of yes and no still says yes.
func TestAYesOrNoHoldsAtItsBound(t *testing.T) {
	for _, test := range []struct {
		prefer      rules.Prefer
		first, last string
	}{
		{rules.PassAtLeast, "13", "12.9"},
		{rules.PassAtMost, "13", "13.1"},
	} {
		class := placing.PlaceClasses(placing.Entered(ribeyes(test.last, test.first)), nil,
			ribeyeBook(rules.Key{Measure: measure.RibeyeArea, Prefer: test.prefer, Bound: valid("13")})).Classes[0]
		if class.Placed[0].Tag != "2" || class.Placed[0].Shared {
			t.Errorf("%s 13: %s is before %s", test.prefer, test.last, test.first)
		}
	}
}

// Six decimals are compared, and no more.
func TestSixDecimalsAreCompared(t *testing.T) {
	for _, test := range []struct {
		a, b  string
		level bool
	}{
		{"13.0000011", "13.0000014", true},
		{"13.0000014", "13.0000016", false},
		{"13.000001", "13.000002", false},
	} {
		class := placing.PlaceClasses(placing.Entered(ribeyes(test.a, test.b)), nil, ribeyeBook(rules.Key{Measure: measure.RibeyeArea, Prefer: rules.Highest})).Classes[0]
		if class.Placed[0].Shared != test.level {
			t.Errorf("%s and %s share a place: %v", test.a, test.b, class.Placed[0].Shared)
		}
	}
}

// Without places paid, five places are taken pair by pair; the sixth is set against the one above it.
func TestFivePlacesAreTakenPairByPair(t *testing.T) {
	book := ribeyeBook(rules.Key{Measure: measure.RibeyeArea, Prefer: rules.Highest})
	for _, paid := range []int{0, 3} {
		book.Classes[0].PlacesPaid = paid
		class := placing.PlaceClasses(placing.Entered(ribeyes("17", "16", "15", "14", "13", "12", "11")), nil, book).Classes[0]
		for at := range class.Placed {
			reason := class.Reason(at)
			want, against := placing.Over, at+1
			switch {
			case paid == 3 && at >= 3:
				want, against = placing.BelowMoney, 2
			case at >= 5:
				want, against = placing.Below, at-1
			}
			other := reason.Pair.Lower
			if want != placing.Over {
				other = reason.Pair.Upper
			}
			if reason.Stands != want || other.Tag != class.Placed[against].Tag {
				t.Errorf("%d paid, place %d stands %d against %s, want %d against %s", paid, at+1, reason.Stands, other.Tag, want, class.Placed[against].Tag)
			}
		}
	}
}

// Of three advantages of the lower carcass two are granted, of two both.
func TestTwoAdvantagesAreGranted(t *testing.T) {
	for _, marbling := range []string{"540", "530"} {
		herd := []*grading.Graded{beef("1", "Steers", "Average Choice", "2.8", "530", "1.60"), beef("2", "Steers", "Low Choice", "2.5", marbling, "1.70")}
		class := placing.PlaceClasses(placing.Entered(herd), nil, beefBook()).Classes[0]
		var granted []measure.ID
		for _, difference := range class.Reason(0).Pair.Granted {
			granted = append(granted, difference.Key.Measure)
		}
		want := map[string]string{
			"540": fmt.Sprint([]measure.ID{measure.YieldGrade, measure.MarblingScore}),
			"530": fmt.Sprint([]measure.ID{measure.YieldGrade, measure.RibeyePerHundredweight}),
		}[marbling]
		if fmt.Sprint(granted) != want {
			t.Errorf("marbling %s: granted %v, want %s", marbling, granted, want)
		}
	}
}
