package whatif

import (
	"fmt"
	"math/big"
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

func idleLines(book *rules.Rulebook) []string {
	var lines []string
	for _, fault := range IdleLimits(book) {
		lines = append(lines, fault.Place.Cell+": "+fault.Message)
		if !fault.Warning {
			lines = append(lines, "not a warning")
		}
	}
	return lines
}

func TestIdleLimits(t *testing.T) {
	cases := []struct {
		name  string
		lines []string
		want  []string
	}{
		{
			// A cutability of 51 % forces the yield grade below 2.5 at 700 lb or more: a case seen in a published rule set.
			"a yield grade beside a cutability that forces a better one",
			[]string{"yield grade,,3.99", "cutability,51,", "hot carcass weight,700,950"},
			[]string{"C2: The limit of yield grade at most 3.99 can never decide anything. Every carcass that passes cutability at least 51.00 % passes it too. Take it out, or change it."},
		},
		{
			"at 700 lb or more the cutability even forces a yield grade below 2.5",
			[]string{"yield grade,,,,2.5", "cutability,51,", "hot carcass weight,700,950"},
			[]string{"C2: The limit of yield grade below 2.50 can never decide anything. Every carcass that passes cutability at least 51.00 % and hot carcass weight at least 700 lb passes it too. Take it out, or change it."},
		},
		{
			"at lighter weights a yield grade below 2.5 decides",
			[]string{"yield grade,,,,2.5", "cutability,51,", "hot carcass weight,600,950"},
			nil,
		},
		{
			"of two limits that do the same the later is idle",
			[]string{"yield grade,,,,4", "whole yield grade,,3"},
			[]string{"C3: The limit of whole yield grade at most 3 can never decide anything. Every carcass that passes yield grade below 4.00 passes it too. Take it out, or change it."},
		},
		{
			"no whole grade is below 1, however low the yield grade: the limit decides against every carcass",
			[]string{"yield grade,,,,1", "whole yield grade,,,,1"},
			[]string{"C3: No carcass can pass whole yield grade below 1. Change one of them, or every carcass of beef on the rail fails."},
		},
		{
			"a yield grade of at most 3.99 is sharper than a whole grade of 3",
			[]string{"yield grade,,3.99", "whole yield grade,,3"},
			[]string{"C3: The limit of whole yield grade at most 3 can never decide anything. Every carcass that passes yield grade at most 3.99 passes it too. Take it out, or change it."},
		},
		{
			"figures have six decimals, so below 4 is at most 3.999999",
			[]string{"yield grade,,3.999999", "yield grade,,,,4.0"},
			[]string{"C3: The limit of yield grade below 4.00 can never decide anything. Every carcass that passes yield grade at most 3.999999 passes it too. Take it out, or change it."},
		},
		{
			"a bound the hold limits see to",
			[]string{"hot carcass weight,150,950"},
			[]string{"C2: The limit of hot carcass weight at least 150 lb can never decide anything. No carcass within the limits of the Limits sheet can fail it. Take it out, or change it."},
		},
		{
			"ribeye for the weight beside a line in the weight",
			[]string{"ribeye area,3.8,,,,.012", "hot carcass weight,600,900", "ribeye per hundredweight,1.5,"},
			[]string{"C4: The limit of ribeye per hundredweight at least 1.50 sq in/cwt can never decide anything. Every carcass that passes ribeye area at least 3.80 sq in and 0.012 more for each lb and hot carcass weight at most 900 lb passes it too. Take it out, or change it."},
		},
		{
			"limits that no carcass can pass",
			[]string{"adjusted fat,.9,", "yield grade,,2", "hot carcass weight,800,", "ribeye area,,15"},
			[]string{"C5: No carcass can pass adjusted fat at least .90 in, yield grade at most 2.00, hot carcass weight at least 800 lb and ribeye area at most 15.00 sq in. Change one of them, or every carcass of beef on the rail fails."},
		},
		{"a measure that is no sum is left alone", []string{"price,250,", "value,2000,", "yield grade,,3.5"}, nil},
	}
	for _, one := range cases {
		t.Run(one.name, func(t *testing.T) {
			if diff := cmp.Diff(one.want, idleLines(limitedBook(one.lines...))); diff != "" {
				t.Error(diff)
			}
		})
	}
}

func TestALimitWithAMilderConsequenceMakesNoneIdle(t *testing.T) {
	book := limitedBook("yield grade,,3.99", "cutability,51,", "hot carcass weight,700,950")
	book.Eligibility[1].Failing = rules.FailAfter
	if lines := idleLines(book); lines != nil {
		t.Errorf("the cutability only places behind, and the yield grade leaves out: %s", lines)
	}
	book.Eligibility[0].Failing = rules.FailAfter
	if lines := idleLines(book); len(lines) != 1 {
		t.Errorf("both place behind: %s", lines)
	}
}

func TestALowestGradeBelowAnotherIsIdle(t *testing.T) {
	book := limitedBook("quality grade,", "quality grade,")
	book.Eligibility[0].LowestWord, book.Eligibility[1].LowestWord = "Low Choice", "Low Select"
	want := []string{"C3: The limit of quality grade at least Low Select can never decide anything. Every carcass that passes quality grade at least Low Choice passes it too. Take it out, or change it."}
	if diff := cmp.Diff(want, idleLines(book)); diff != "" {
		t.Error(diff)
	}
}

func TestTheDefaultRulebookHasNoIdleLimit(t *testing.T) {
	if lines := idleLines(defaultRulebook()); lines != nil {
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

// TestNoLimitThatDecidesIsCalledIdle takes every bound that is called idle out of the rulebook and looks, over a grid of
// measures, for a carcass that then passes and did not before.
func TestNoLimitThatDecidesIsCalledIdle(t *testing.T) {
	points := boxPoints(limitedBook())
	if testing.Short() {
		points = slices.DeleteFunc(points, func(point *grading.Graded) bool { return point.ReadingOf(measure.LiveWeight).Value.Text != "1300" })
	}
	found := 0
	rapid.Check(t, func(t *rapid.T) {
		var lines []string
		for range rapid.IntRange(2, 5).Draw(t, "limits") {
			lines = append(lines, limitLine(t))
		}
		book := limitedBook(lines...)
		without := *book
		without.Eligibility = slices.Clone(book.Eligibility)
		for _, fault := range IdleLimits(book) {
			if !strings.HasPrefix(fault.Message, "The limit of") {
				continue
			}
			found++
			without.Eligibility = slices.DeleteFunc(without.Eligibility, func(one rules.Requirement) bool { return one.Place == fault.Place })
		}
		if len(without.Eligibility) == len(book.Eligibility) {
			return
		}
		class := placing.Entries{Rule: book.Classes[0], Species: rules.Beef, Basis: rules.OnTheRail}
		for _, point := range points {
			before, after := placing.LimitsOf(class, book).Failures(point, book), placing.LimitsOf(class, &without).Failures(point, book)
			if (before.NotPlaced() == "") != (after.NotPlaced() == "") {
				t.Fatalf("%s\nidle: %s\nyet it decides on weight %s, fat %s, ribeye %s: %s", strings.Join(lines, "\n"), idleLines(book),
					point.ReadingOf(measure.HotCarcassWeight).Value.Text, point.ReadingOf(measure.MeasuredFat).Value.Text,
					point.ReadingOf(measure.RibeyeArea).Value.Text, before.NotPlaced())
			}
		}
	})
	if found == 0 {
		t.Error("no idle limit was drawn: the check saw nothing")
	}
}

// first and second are the two measures of a drawn system; which ones they are is all the same to it.
const first, second = measure.HotCarcassWeight, measure.RibeyeArea

// TestFeasibleAgreesWithASearch compares the exact method with trying every point of a grid that holds all corners of
// systems of small whole numbers in two measures.
func TestFeasibleAgreesWithASearch(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var system []inequality
		for range rapid.IntRange(1, 5).Draw(t, "inequalities") {
			number := func(name string) *big.Rat { return big.NewRat(int64(rapid.IntRange(-2, 2).Draw(t, name)), 1) }
			system = append(system, inequality{
				map[measure.ID]*big.Rat{first: number("x"), second: number("y")}, number("bound"), rapid.Bool().Draw(t, "strict"),
			})
		}
		for _, id := range []measure.ID{first, second} {
			system = append(system, atLeast(id, big.NewRat(-3, 1)), atMost(id, big.NewRat(3, 1)))
		}
		if got, want := feasible(system), searched(system); got != want {
			t.Fatalf("feasible says %v, the search %v", got, want)
		}
	})
}

// searched looks for a solution among the corners of the system, the midpoints between them and the middles of three.
func searched(system []inequality) bool {
	meets := func(x, y *big.Rat, strictly bool) bool {
		for _, one := range system {
			sum := new(big.Rat).Mul(one.coefficients[first], x)
			if one.coefficients[first] == nil {
				sum = new(big.Rat)
			}
			if one.coefficients[second] != nil {
				sum.Add(sum, new(big.Rat).Mul(one.coefficients[second], y))
			}
			if order := sum.Cmp(one.bound); order > 0 || order == 0 && one.strict && strictly {
				return false
			}
		}
		return true
	}
	for i := range system {
		if system[i].coefficients[first] == nil {
			system[i].coefficients[first] = new(big.Rat)
		}
		if system[i].coefficients[second] == nil {
			system[i].coefficients[second] = new(big.Rat)
		}
	}
	sumX, sumY := new(big.Rat), new(big.Rat)
	corners := int64(0)
	for i, a := range system {
		for _, b := range system[i+1:] {
			determinant := new(big.Rat).Sub(new(big.Rat).Mul(a.coefficients[first], b.coefficients[second]), new(big.Rat).Mul(a.coefficients[second], b.coefficients[first]))
			if determinant.Sign() == 0 {
				continue
			}
			x := new(big.Rat).Sub(new(big.Rat).Mul(a.bound, b.coefficients[second]), new(big.Rat).Mul(a.coefficients[second], b.bound))
			y := new(big.Rat).Sub(new(big.Rat).Mul(a.coefficients[first], b.bound), new(big.Rat).Mul(a.bound, b.coefficients[first]))
			x.Quo(x, determinant)
			y.Quo(y, determinant)
			if meets(x, y, false) {
				sumX.Add(sumX, x)
				sumY.Add(sumY, y)
				corners++
			}
		}
	}
	if corners == 0 {
		return false
	}
	// The system is bounded: where anything meets it strictly, the middle of its corners does.
	return meets(sumX.Quo(sumX, big.NewRat(corners, 1)), sumY.Quo(sumY, big.NewRat(corners, 1)), true)
}
