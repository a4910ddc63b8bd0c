package placing_test

import (
	"encoding/csv"
	"os"
	"slices"
	"strings"
	"testing"

	"railbook/grading"
	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// conditionSign is one line of testdata/conditions.csv, which lists every sign of every condition of cattle in the spellings of
// offices and plants, what it sets, whether the signs contradict each other, and the quality grade of the carcass below with it. What
// only asks (bone, dates, a remark) sets nothing. The carcass has Slightly Abundant 20 in A60, Low Prime by itself: a bull gets no
// grade, a cow is High Choice at most, and the judge's lowering counts from the middle of the label (1/6 into Prime, so 1/3 and 1/2
// of a grade leave High Choice, 2/3 Average Choice and a whole one Low Choice). "-" is another column of the chart.
type conditionSign struct {
	condition measure.ID
	values    map[measure.ID]string
	is        bool
	clash     bool
	grade     string
}

func conditionSigns(t *testing.T) (signs []conditionSign) {
	t.Helper()
	file, err := os.Open("testdata/conditions.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	lines, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range lines[1:] {
		values := map[measure.ID]string{}
		for _, written := range strings.Split(line[1], "; ") {
			name, value, _ := strings.Cut(written, "=")
			values[measureNamed(t, name)] = value
		}
		signs = append(signs, conditionSign{measureNamed(t, line[0]), values, line[2] == "yes", line[3] == "yes", line[4]})
	}
	return signs
}

func measureNamed(t *testing.T, name string) measure.ID {
	t.Helper()
	id := measure.Standard().ByName(name)
	if id == measure.None {
		t.Fatalf("%q is no measure", name)
	}
	return id
}

// Every sign in every spelling, beside what the condition means to the price, the grade, eligibility and the groups: all
// of them take it from one place.
func TestOneConditionForEveryReader(t *testing.T) {
	for _, test := range conditionSigns(t) {
		book := rules.Default()
		book.Grid = append(slices.Clone(book.Grid), rules.GridLine{
			Species: rules.Beef, Part: rules.ConditionPart, Name: "test of " + test.condition.String(), Adjust: decimal.NewFromInt(-1),
		})
		line := &book.Grid[len(book.Grid)-1]
		if at := slices.IndexFunc(book.Grid, func(l rules.GridLine) bool {
			return l.Part == rules.ConditionPart && l.Name == test.condition.String()
		}); at < 0 {
			line.Name, line.Mark = test.condition.String(), test.condition
		}
		book.Eligibility = []rules.Requirement{{Species: rules.Beef, Measure: test.condition, MustNotBe: true, Failing: rules.FailAfter}}
		book.Groups = []rules.Standard{
			{Species: rules.Beef, Group: "blue", Order: 1, Measure: test.condition, MustNot: true},
			{Species: rules.Beef, Group: "red", Order: 2},
		}
		book.Classes = []rules.Class{{Name: "every other class", Species: rules.Beef, Ranking: "weight"}}
		book.Rankings = []rules.Ranking{{Name: "weight", Keys: []rules.Key{{Measure: measure.HotCarcassWeight, Prefer: rules.Highest}}}}
		g := grading.Grade(beefOf(t, test.values), book)
		condition := g.Condition(test.condition)
		if condition.Is != test.is || condition.Contradicted() != test.clash {
			t.Errorf("%v: %s is %t, contradicted %t", test.values, test.condition, condition.Is, condition.Contradicted())
		}
		if figure := g.FigureOf(measure.QualityGrade); figure.Value.Text != test.grade && test.grade != "-" {
			t.Errorf("%v: quality grade %q (%s), want %q", test.values, figure.Value.Text, figure.Missing, test.grade)
		}
		if value, _ := g.Figure(test.condition); value.Number.IsPositive() != test.is {
			t.Errorf("%v: the figure of %s is %v", test.values, test.condition, value)
		}
		priced := slices.ContainsFunc(g.PriceSteps(), func(step grading.PriceStep) bool {
			return step.Line != nil && step.Line.Name == test.condition.String()
		})
		if figure := g.FigureOf(measure.Price); figure.Missing == "" && priced != test.is {
			t.Errorf("%v: priced as %s: %t", test.values, test.condition, priced)
		}
		entries := placing.SortIntoClasses(placing.Entered([]*grading.Graded{g}), book)[0]
		if fails := placing.LimitsOf(entries, book).Failures(g, book); (len(fails) > 0) != test.is {
			t.Errorf("%v: fails %v", test.values, fails)
		}
		want := map[bool]string{true: "red", false: "blue"}[test.is]
		placed := placing.PlaceClasses(placing.Entered([]*grading.Graded{g}), nil, book).Classes[0].Placed
		if len(placed) != 1 || placed[0].Group != want {
			t.Errorf("%v: placed %v, want in the group %q", test.values, placed, want)
		}
	}
}

// beefOf is an ordinary carcass with some values of its own.
func beefOf(t *testing.T, values map[measure.ID]string) *grading.Carcass {
	t.Helper()
	carcass := &grading.Carcass{Tag: "101", Class: "Steers", Species: rules.Beef, Basis: rules.OnTheRail}
	set := func(id measure.ID, text string) {
		carcass.SetReading(id, grading.Reading{Value: valueWritten(t, id, text), Written: text})
	}
	for id, text := range map[measure.ID]string{
		measure.HotCarcassWeight: "750", measure.AdjustedFat: "0.55", measure.RibeyeArea: "12.5", measure.InternalFat: "2.5",
		measure.Marbling: "720", measure.Maturity: "A60",
	} {
		set(id, text)
	}
	for id, text := range values {
		set(id, text)
	}
	return carcass
}
