package whatif

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"railbook/grading"
	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/measure"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// limitedBook is the default rulebook with these limits on beef, each written "measure,at least,at most,above,below,per lb".
func limitedBook(lines ...string) *rules.Rulebook {
	book := *defaultRulebook()
	book.Eligibility = nil
	for i, line := range lines {
		cells := strings.Split(strings.Replace(line, "kidney, pelvic", "kidney; pelvic", 1), ",")
		number := func(at int) (bound decimal.NullDecimal) {
			if at < len(cells) && cells[at] != "" {
				bound = valid(cells[at])
			}
			return bound
		}
		book.Eligibility = append(book.Eligibility, rules.Requirement{
			Species: rules.Beef, Measure: measure.Standard().ByName(strings.Replace(cells[0], "kidney; pelvic", "kidney, pelvic", 1)), AtLeast: number(1), AtMost: number(2), Above: number(3), Below: number(4),
			PerPound: number(5).Decimal, Failing: rules.FailNotPlaced, Place: rules.Place{Sheet: "Eligibility", Cell: fmt.Sprintf("C%d", i+2)},
		})
	}
	return &book
}

// neverDeciding writes what is warned of with its cell: "C2: yield grade <= 3.99, by cutability >= 51".
func neverDeciding(book *rules.Rulebook) []string {
	var lines []string
	for _, warning := range NeverDecides(book) {
		line := warning.Limit.Requirement.Place.Cell + ": " + limitText(warning.Limit)
		if warning.Fails != nil {
			line += fmt.Sprintf(", passed by no %s %s", warning.Fails.Species, warning.Fails.Basis)
		}
		for i, other := range warning.Others {
			line += []string{", by ", " and "}[min(i, 1)] + limitText(other)
		}
		lines = append(lines, line)
	}
	return lines
}

func limitText(limit Limit) string {
	if word := limit.Requirement.LowestWord; word != "" {
		return fmt.Sprintf("%s >= %s", limit.Requirement.Measure, word)
	}
	sign := map[grading.Bound]string{{Lower: true}: ">", {Lower: true, Closed: true}: ">=", {}: "<", {Closed: true}: "<="}[grading.Bound{Lower: limit.Bound.Lower, Closed: limit.Bound.Closed}]
	text := fmt.Sprintf("%s %s %s", limit.Requirement.Measure, sign, limit.Bound.At)
	if perPound := limit.Requirement.PerPound; !perPound.IsZero() {
		text += fmt.Sprintf(" + %s a lb", perPound)
	}
	return text
}

func TestLimitsThatNeverDecide(t *testing.T) {
	cases := []struct {
		name  string
		lines []string
		want  []string
	}{
		{
			// A cutability of 51 % forces the yield grade below 2.5 at 700 lb or more: a case seen in a published rule set.
			"a yield grade beside a cutability that forces a better one",
			[]string{"yield grade,,3.99", "cutability,51,", "hot carcass weight,700,950"},
			[]string{"C2: yield grade <= 3.99, by cutability >= 51"},
		},
		{
			"at 700 lb or more the cutability even forces a yield grade below 2.5",
			[]string{"yield grade,,,,2.5", "cutability,51,", "hot carcass weight,700,950"},
			[]string{"C2: yield grade < 2.5, by cutability >= 51 and hot carcass weight >= 700"},
		},
		{
			"at lighter weights a yield grade below 2.5 decides",
			[]string{"yield grade,,,,2.5", "cutability,51,", "hot carcass weight,600,950"},
			nil,
		},
		{
			"of two limits that do the same the later decides nothing",
			[]string{"yield grade,,,,4", "whole yield grade,,3"},
			[]string{"C3: whole yield grade <= 3, by yield grade < 4"},
		},
		{
			"no whole grade is below 1, however low the yield grade: the limit decides against every carcass",
			[]string{"yield grade,,,,1", "whole yield grade,,,,1"},
			[]string{"C3: whole yield grade < 1, passed by no beef carcass"},
		},
		{
			"a yield grade of at most 3.99 is sharper than a whole grade of 3",
			[]string{"yield grade,,3.99", "whole yield grade,,3"},
			[]string{"C3: whole yield grade <= 3, by yield grade <= 3.99"},
		},
		{
			"figures have six decimals, so below 4 is at most 3.999999",
			[]string{"yield grade,,3.999999", "yield grade,,,,4.0"},
			[]string{"C3: yield grade < 4, by yield grade <= 3.999999"},
		},
		{
			"a bound the hold limits see to",
			[]string{"hot carcass weight,150,950"},
			[]string{"C2: hot carcass weight >= 150"},
		},
		{
			"ribeye for the weight beside a line in the weight",
			[]string{"ribeye area,3.8,,,,.012", "hot carcass weight,600,900", "ribeye per hundredweight,1.5,"},
			[]string{"C4: ribeye per hundredweight >= 1.5, by ribeye area >= 3.8 + 0.012 a lb and hot carcass weight <= 900"},
		},
		{
			"limits that no carcass can pass",
			[]string{"adjusted fat,.9,", "yield grade,,2", "hot carcass weight,800,", "ribeye area,,15"},
			[]string{"C5: ribeye area <= 15, passed by no beef carcass, by adjusted fat >= 0.9 and yield grade <= 2 and hot carcass weight >= 800"},
		},
		{"a measure that is no sum is left alone", []string{"price,250,", "value,2000,", "yield grade,,3.5"}, nil},
	}
	for _, test := range cases {
		t.Run(test.name, func(t *testing.T) {
			if diff := cmp.Diff(test.want, neverDeciding(limitedBook(test.lines...))); diff != "" {
				t.Error(diff)
			}
		})
	}
}

func TestALimitWithAMilderConsequenceLeavesTheOtherItsSay(t *testing.T) {
	book := limitedBook("yield grade,,3.99", "cutability,51,", "hot carcass weight,700,950")
	book.Eligibility[1].Failing = rules.FailAfter
	if lines := neverDeciding(book); lines != nil {
		t.Errorf("the cutability only places behind, and the yield grade leaves out: %s", lines)
	}
	book.Eligibility[0].Failing = rules.FailAfter
	if lines := neverDeciding(book); len(lines) != 1 {
		t.Errorf("both place behind: %s", lines)
	}
}

func TestALowestGradeBelowAnotherNeverDecides(t *testing.T) {
	book := limitedBook("quality grade,", "quality grade,")
	book.Eligibility[0].LowestWord, book.Eligibility[1].LowestWord = "Low Choice", "Low Select"
	want := []string{"C3: quality grade >= Low Select, by quality grade >= Low Choice"}
	if diff := cmp.Diff(want, neverDeciding(book)); diff != "" {
		t.Error(diff)
	}
}

func TestEveryLimitOfTheDefaultRulebookMayDecide(t *testing.T) {
	if lines := neverDeciding(defaultRulebook()); lines != nil {
		t.Error(lines)
	}
}

// limitLine draws a limit near the figures of the carcasses in fallOf.
func limitLine(t *rapid.T) string {
	id := rapid.SampledFrom([]struct {
		name     string
		from, to int // in hundredths
	}{
		{"yield grade", 100, 500},
		{"whole yield grade", 0, 699},
		{"cutability", 4500, 5400},
		{"hot carcass weight", 15000, 190000},
		{"adjusted fat", 0, 250},
		{"ribeye area", 350, 2600},
		{"kidney, pelvic and heart fat", 0, 900},
		{"ribeye per hundredweight", 50, 400},
		{"dressing percent", 4000, 8000},
	}).Draw(t, "measure")
	bound := decimal.New(int64(rapid.IntRange(id.from, id.to).Draw(t, "bound")), -2).String()
	if id.name == "whole yield grade" {
		bound = bound[:1]
	}
	columns := []string{"", "", "", ""}
	columns[rapid.IntRange(0, 3).Draw(t, "side")] = bound
	perPound := ""
	if id.name == "ribeye area" {
		perPound = rapid.SampledFrom([]string{"", ".005", "-.002"}).Draw(t, "per lb")
	}
	return strings.Join(append([]string{id.name}, append(columns, perPound)...), ",")
}

// boxPoints are carcasses over the whole box of the hold limits: its corners and a grid between.
func boxPoints(book *rules.Rulebook) []*grading.Graded {
	var points []*grading.Graded
	for _, weight := range []string{"200", "700", "701", "950", "1800"} {
		for _, fat := range []string{"0", ".3", ".6", "1.2", "1.9999"} {
			for _, ribeye := range []string{"4", "11", "14", "18", "25"} {
				for _, internal := range []string{"0", "8"} {
					for _, live := range []string{"300", "1300", "3000"} {
						carcass := measured("1", "Steers", weight, fat, ribeye, "440")
						carcass.SetReading(measure.InternalFat, grading.Reading{Value: measure.NumberValue(decimal.RequireFromString(internal))})
						carcass.SetReading(measure.LiveWeight, grading.Reading{Value: measure.NumberValue(decimal.RequireFromString(live))})
						points = append(points, grading.Grade(carcass, book))
					}
				}
			}
		}
	}
	return points
}

// TestNoLimitThatDecidesIsSaidNeverTo takes every bound that is said never to decide out of the rulebook and looks, over a grid of
// measures, for a carcass that then passes and did not before.
func TestNoLimitThatDecidesIsSaidNeverTo(t *testing.T) {
	points := boxPoints(limitedBook())
	if testing.Short() {
		points = slices.DeleteFunc(points, func(point *grading.Graded) bool { return point.ReadingOf(measure.LiveWeight).Value.Text != "1300" })
	}
	found := 0
	holds := func(t *rapid.T) {
		var lines []string
		for range rapid.IntRange(2, 5).Draw(t, "limits") {
			lines = append(lines, limitLine(t))
		}
		book := limitedBook(lines...)
		without := *book
		without.Eligibility = slices.Clone(book.Eligibility)
		for _, warning := range NeverDecides(book) {
			if warning.Fails != nil {
				continue
			}
			found++
			place := warning.Limit.Requirement.Place
			without.Eligibility = slices.DeleteFunc(without.Eligibility, func(requirement rules.Requirement) bool { return requirement.Place == place })
		}
		if len(without.Eligibility) == len(book.Eligibility) {
			return
		}
		class := placing.Entries{Rule: book.Classes[0], Species: rules.Beef, Basis: rules.OnTheRail}
		for _, point := range points {
			before, after := placing.LimitsOf(class, book).Failures(point, book), placing.LimitsOf(class, &without).Failures(point, book)
			if (before.NotPlaced() == "") != (after.NotPlaced() == "") {
				t.Fatalf("%s\nsaid: %s\nyet it decides on weight %s, fat %s, ribeye %s: %s", strings.Join(lines, "\n"), neverDeciding(book),
					point.ReadingOf(measure.HotCarcassWeight).Value.Text, point.ReadingOf(measure.MeasuredFat).Value.Text,
					point.ReadingOf(measure.RibeyeArea).Value.Text, before.NotPlaced())
			}
		}
	}
	for range 10 { // the few draws of a quick run may hold no such limit
		if rapid.Check(t, holds); found > 0 {
			break
		}
	}
	if found == 0 {
		t.Error("no limit that never decides was drawn: the check saw nothing")
	}
}

// TestWhatAPointMeetsIsNoContradiction draws a point, ranges that hold it and sums that are within their bounds at it.
func TestWhatAPointMeetsIsNoContradiction(t *testing.T) {
	ids := []measure.ID{measure.HotCarcassWeight, measure.RibeyeArea, measure.AdjustedFat}
	rapid.Check(t, func(t *rapid.T) {
		number := func(name string, from, to int) decimal.Decimal {
			return decimal.New(int64(rapid.IntRange(from, to).Draw(t, name)), -1)
		}
		ranges := measureRanges{of: map[measure.ID]*measureRange{}}
		point := map[measure.ID]decimal.Decimal{}
		for _, id := range ids {
			point[id] = number("point", -30, 30)
			if rapid.Bool().Draw(t, "has a least") {
				ranges.rangeOf(id).atLeast(point[id].Sub(number("below", 0, 20)))
			}
			if rapid.Bool().Draw(t, "has a most") {
				ranges.rangeOf(id).atMost(point[id].Add(number("above", 0, 20)))
			}
		}
		drawn := func() boundedSum {
			sum := boundedSum{coefficients: map[measure.ID]decimal.Decimal{}, most: number("to spare", 0, 10)}
			for _, id := range ids {
				sum.coefficients[id] = number("coefficient", -20, 20)
				sum.most = sum.most.Add(sum.coefficients[id].Mul(point[id]))
			}
			return sum
		}
		first, second := drawn(), drawn()
		if ranges.beyond(first) || ranges.apart(first, second) {
			t.Fatalf("%v within %v and %v is said to be impossible", point, first, second)
		}
	})
}

// By hand: 2 x + y is at most 10, and x + 2 y at least 21. With x of at least 0 they are apart, for y would have to be at
// most 10 and at least 10.5; with y up to 20 and x below 0 they are not.
func TestTwoSumsAreToldApartByTheRangeOfAMeasure(t *testing.T) {
	x, y := measure.HotCarcassWeight, measure.RibeyeArea
	sum := func(ofX, ofY, most string) boundedSum {
		return boundedSum{map[measure.ID]decimal.Decimal{x: decimal.RequireFromString(ofX), y: decimal.RequireFromString(ofY)}, decimal.RequireFromString(most)}
	}
	for _, test := range []struct {
		leastX, second string
		apart          bool
	}{{"0", "-21", true}, {"0", "-20", false}, {"-1", "-21", false}, {"-0.3", "-21", true}, {"-0.4", "-21", false}} {
		ranges := measureRanges{of: map[measure.ID]*measureRange{}}
		ranges.rangeOf(x).atLeast(decimal.RequireFromString(test.leastX))
		if got := ranges.apart(sum("2", "1", "10"), sum("-1", "-2", test.second)); got != test.apart {
			t.Errorf("with x of at least %s, x + 2 y of at least %s: apart is %v", test.leastX, strings.TrimPrefix(test.second, "-"), got)
		}
	}
}

// A step of an index adds its points once, however great the figure is: it is no multiple of it.
func TestAnIndexWithStepsIsNoSum(t *testing.T) {
	book := limitedBook()
	book.Points = []rules.PointsPart{{Index: "frame", Measure: measure.RibeyeArea, Weight: grading.One, Step: true, Band: rules.Band{From: valid("10"), FromIsIn: true}}}
	id := measure.Points
	class := limitedClasses(book)[0]
	if sum, ok := class.sumOf(id); ok {
		t.Errorf("the index is taken for %v", sum)
	}
	book.Points[0].Step = false
	if _, ok := class.sumOf(id); !ok {
		t.Error("without steps it is a sum")
	}
}
