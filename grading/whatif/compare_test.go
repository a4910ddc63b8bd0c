package whatif

import (
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"

	"railbook/grading"
	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/measure"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// measured makes a beef carcass of its measurements: weight, fat, ribeye, KPH and marbling in hundreds.
func measured(tag, class, weight, fat, ribeye, marbling string) *grading.Carcass {
	carcass := &grading.Carcass{
		Tag: tag, Class: class, Species: rules.Beef, Basis: rules.OnTheRail, Place: rules.Place{Sheet: "Rail", Cell: "A" + tag},
	}
	for id, text := range map[measure.ID]string{
		measure.HotCarcassWeight: weight, measure.MeasuredFat: fat, measure.RibeyeArea: ribeye, measure.InternalFat: "2.5",
		measure.Marbling: marbling, measure.Maturity: "160",
	} {
		carcass.SetReading(id, grading.Reading{Value: measure.NumberValue(decimal.RequireFromString(text)), Written: text, Plain: true})
	}
	return carcass
}

var defaultRulebook = sync.OnceValue(rules.Default)

func priceBook(keys ...rules.Key) *rules.Rulebook {
	book := *defaultRulebook()
	book.Grid = slices.Clone(book.Grid)
	book.Classes = []rules.Class{{Name: rules.EveryOtherClass, Ranking: "price", PlacesPaid: 2}}
	if keys == nil {
		keys = []rules.Key{
			{Measure: measure.Price, Prefer: rules.Highest}, {Measure: measure.Cutability, Prefer: rules.Highest, Decimals: valid("1")},
		}
	}
	book.Rankings = []rules.Ranking{{Name: "price", Ties: rules.TiesShare, Keys: keys}}
	return &book
}

// sideOf grades carcasses by a rulebook under which all of them compete.
func sideOf(carcasses []*grading.Carcass, book *rules.Rulebook) Side {
	graded := make([]*grading.Graded, len(carcasses))
	for i, carcass := range carcasses {
		graded[i] = grading.Grade(carcass, book)
	}
	return Side{Book: book, Entrants: placing.Entered(graded)}
}

// drove draws cattle whose figures cross the borders of the grid.
func drove(t *rapid.T) []*grading.Carcass {
	var herd []*grading.Carcass
	for i := range rapid.IntRange(2, 12).Draw(t, "carcasses") {
		tenths := func(name string, from, to int) string {
			return decimal.New(int64(rapid.IntRange(from, to).Draw(t, name)), -1).String()
		}
		herd = append(herd, measured(fmt.Sprint(i+1), rapid.SampledFrom([]string{"Steers", "Heifers"}).Draw(t, "class"),
			fmt.Sprint(rapid.IntRange(58, 92).Draw(t, "weight")*10), tenths("fat", 1, 9), tenths("ribeye", 100, 150),
			fmt.Sprint(rapid.IntRange(30, 75).Draw(t, "marbling")*10)))
	}
	return numbered(herd)
}

func TestARulebookAgainstItselfChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		herd := drove(t)
		comparison := Compare(sideOf(herd, priceBook()), sideOf(herd, priceBook()))
		rows := 0
		for _, class := range comparison.Classes {
			for _, row := range class.Rows {
				rows++
				if row.Moved() || row.Repriced() || row.Old.Eligible() != row.New.Eligible() || row.PriceChanges != nil || row.Passing != nil {
					t.Fatalf("%s: %v %v", row.Tag, row.PriceChanges, row.Passing)
				}
			}
		}
		if rows != len(herd) {
			t.Fatalf("%d rows of %d carcasses", rows, len(herd))
		}
		if diff := cmp.Diff(fmt.Sprint(comparison.OldAll), fmt.Sprint(comparison.NewAll)); diff != "" {
			t.Fatal(diff)
		}
	})
}

// fallsUnder tells from the measurements alone whether a line of the default grid counts for a carcass. The yield
// equation is that of 7 CFR 54.105(a); the marbling lines for a young carcass those of the U.S. standards.
func fallsUnder(line rules.GridLine, carcass *grading.Carcass) bool {
	number := func(id measure.ID) decimal.Decimal { return carcass.ReadingOf(id).Value.Number }
	switch line.Part {
	case rules.WeightPart:
		return line.Band.Holds(number(measure.HotCarcassWeight))
	case rules.YieldPart:
		grade := decimal.RequireFromString("3.00").Add(number(measure.MeasuredFat).Mul(decimal.RequireFromString("2.5"))).
			Add(number(measure.HotCarcassWeight).Mul(decimal.RequireFromString("0.0038"))).
			Sub(number(measure.RibeyeArea).Mul(decimal.RequireFromString("0.32")))
		return line.Band.Holds(grade)
	case rules.QualityPart:
		lines := map[string][2]int64{"Prime": {700, 1000}, "Choice": {400, 700}, "Select": {300, 400}, "Standard": {100, 300}}
		marbling := number(measure.Marbling).IntPart()
		return marbling >= lines[line.Name][0] && marbling < lines[line.Name][1]
	}
	return false
}

func TestChangingOnePremiumRepricesExactlyTheCarcassesItShould(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		herd := drove(t)
		old, new := priceBook(), priceBook()
		at := rapid.IntRange(0, len(new.Grid)-1).Draw(t, "line")
		line := new.Grid[at]
		new.Grid[at].Adjust = line.Adjust.Add(decimal.New(int64(rapid.IntRange(1, 3000).Draw(t, "cents")), -2))
		comparison := Compare(sideOf(herd, old), sideOf(herd, new))
		for _, class := range comparison.Classes {
			for _, row := range class.Rows {
				under := row.Old.Price.Valid && fallsUnder(line, row.Carcass)
				if row.Repriced() != under {
					t.Fatalf("%s under %+v: %v, repriced: %v", row.Tag, line, under, row.Repriced())
				}
				if under && (len(row.PriceChanges) != 1 || row.PriceChanges[0].Kind != StepChanged) {
					t.Fatalf("%s: why %v", row.Tag, row.PriceChanges)
				}
				if (row.Old.Place != row.New.Place || row.Old.Shared != row.New.Shared) != (row.Passing != nil) {
					t.Fatalf("%s moved: %v, by %v", row.Tag, row.Moved(), row.Passing)
				}
			}
		}
		for _, class := range comparison.Classes {
			for _, a := range class.Rows {
				for _, b := range class.Rows {
					alike := fallsUnder(line, a.Carcass) == fallsUnder(line, b.Carcass)
					if alike && a.Old.Place > 0 && b.Old.Place > 0 && a.Old.Place < b.Old.Place && a.New.Place >= b.New.Place {
						t.Fatalf("the line moves both or neither of %s and %s, and their order changed", a.Tag, b.Tag)
					}
				}
			}
		}
	})
}

func TestCompareTellsWhoMovesAndWhy(t *testing.T) {
	herd := []*grading.Carcass{
		measured("101", "Steers", "780", ".40", "13.6", "440"),
		measured("102", "Steers", "820", ".50", "13.0", "520"),
		measured("103", "Steers", "700", ".20", "13.5", "380"),
		measured("104", "Steers", "910", ".70", "13.2", "710"),
		measured("105", "Steers", "760", ".35", "14.0", "490"),
	}
	numbered(herd)
	old, new := priceBook(), priceBook()
	for i := range new.Grid {
		if new.Grid[i].Name == "Select" {
			new.Grid[i].Adjust = decimal.RequireFromString("-1.00")
		}
	}
	new.Eligibility = append(slices.Clone(new.Eligibility),
		rules.Requirement{Measure: measure.HotCarcassWeight, AtMost: valid("900"), Failing: rules.FailNotPlaced},
		rules.Requirement{Measure: measure.YieldGrade, Below: valid("4"), Failing: rules.FailNotPlaced})
	comparison := Compare(sideOf(herd, old), sideOf(herd, new))
	var got []string
	for _, row := range comparison.Classes[0].Rows {
		line := fmt.Sprintf("%s %d to %d", row.Tag, row.Old.Place, row.New.Place)
		for _, change := range row.PriceChanges {
			line += fmt.Sprintf(" | %s %s, was %s", change.New.Words, change.New.Adjust.Number, change.Old.Adjust.Number)
		}
		if row.Passing != nil {
			over := row.Passing.Over
			line += fmt.Sprintf(" | %d %s by key %d for %d", row.Passing.Kind, row.Passing.Other.Tag, over.Key, len(over.Causes))
		}
		got = append(got, line)
	}
	want := []string{
		"103 5 to 1 | Select -1, was -28.25 | 0 105 by key 0 for 1",
		"105 2 to 2",
		"101 3 to 3",
		"102 4 to 4",
		"104 1 to 0",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	class := comparison.Classes[0]
	// By hand: values 2,350.76 + 2,460.00 + 1,925.70 + 2,879.88 + 2,293.45, and 103 at 302.35 brings 2,116.45.
	if class.Old.Value.String() != "11909.79" || class.New.Value.String() != "12100.54" {
		t.Errorf("values %s and %s", class.Old.Value, class.New.Value)
	}
	// 17.54 x 9.10 = 159.61; 1.38 x 7.80 = 10.76; 1.77 x 7.60 = 13.45; 3.35 x 7.00 = 23.45; discounts 1.07 x 9.10 = 9.74 and 28.25 x 7.
	if class.Old.Premiums.String() != "207.27" || class.Old.Discounts.String() != "-207.49" {
		t.Errorf("premiums %s, discounts %s", class.Old.Premiums, class.Old.Discounts)
	}
	if class.Old.PriceSpread().String() != "41.37" || class.New.Eligible != 4 || class.Old.Eligible != 5 {
		t.Errorf("spread %s, eligible %d and %d", class.Old.PriceSpread(), class.Old.Eligible, class.New.Eligible)
	}
	var unused []string
	for _, never := range comparison.NewUnused {
		unused = append(unused, unusedText(never))
	}
	for _, text := range []string{"beef: Standard -40.93", "beef: weight 400 -29.29", "limit: yield grade 4"} {
		if !slices.Contains(unused, text) {
			t.Errorf("not listed: %s", text)
		}
	}
	if slices.ContainsFunc(unused, func(text string) bool {
		return strings.Contains(text, "Prime") || strings.Contains(text, "hot carcass") || strings.Contains(text, "condemned")
	}) {
		t.Errorf("listed though it counts: %q", unused)
	}
}

// unusedText names what decided nothing: a line of the grid by its money, a limit by the bound that it must be below.
func unusedText(never Unused) string {
	switch line := never.Line; {
	case line == nil:
		return fmt.Sprint("limit: ", never.Limit.Measure, " ", never.Limit.Below.Decimal)
	case line.Part == rules.WeightPart:
		return fmt.Sprint(line.Species, ": weight ", line.Band.From.Decimal, " ", line.Adjust)
	default:
		return fmt.Sprint(line.Species, ": ", line.Name, " ", line.Adjust)
	}
}

func TestKeysThatBreakTiesAreCounted(t *testing.T) {
	herd := []*grading.Carcass{
		measured("1", "Steers", "780", ".40", "13.6", "440"), // price 301.38
		measured("2", "Steers", "760", ".40", "13.2", "420"), // price 301.38: the cutability breaks the tie
		measured("3", "Steers", "820", ".50", "13.0", "520"), // price 300.00
		measured("4", "Steers", "820", ".50", "13.0", "500"), // the same: shared
	}
	numbered(herd)
	tally := Compare(sideOf(herd, priceBook()), sideOf(herd, priceBook())).NewAll
	want := []KeyUse{{"price", 1, "price", 1, 2}, {"price", 2, "cutability", 1, 1}}
	if diff := cmp.Diff(want, tally.Keys); diff != "" {
		t.Error(diff)
	}
	if tally.SharedPlaces != 1 || tally.InSharedPlace != 2 {
		t.Errorf("%d shared places, %d carcasses in them", tally.SharedPlaces, tally.InSharedPlace)
	}
}

// numbered gives carcasses the order in which they would be read.
func numbered(herd []*grading.Carcass) []*grading.Carcass {
	for i, carcass := range herd {
		carcass.Sequence = i
	}
	return herd
}
