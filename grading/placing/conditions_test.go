package placing

import (
	"slices"
	"testing"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// conditionSigns lists every sign of every condition of cattle in the spellings of offices and plants, and what it sets.
// What only asks (bone, dates, a remark) sets nothing.
var conditionSigns = []struct {
	condition measure.ID
	values    map[measure.ID]string
	is        bool
	clash     bool // signs contradict each other
}{
	{measure.DarkCutter, map[measure.ID]string{measure.DarkCutter: "yes"}, true, false},
	{measure.DarkCutter, map[measure.ID]string{measure.DarkCutter: "no"}, false, false},
	{measure.DarkCutter, map[measure.ID]string{measure.DarkCutterLowering: "2"}, true, false},
	{measure.DarkCutter, map[measure.ID]string{measure.DarkCutterLowering: "6"}, true, false},
	{measure.DarkCutter, map[measure.ID]string{measure.DarkCutterLowering: "0"}, false, false},
	{measure.DarkCutter, map[measure.ID]string{measure.DarkCutter: "yes", measure.DarkCutterLowering: "0"}, true, false},
	{measure.DarkCutter, map[measure.ID]string{measure.DarkCutter: "no", measure.DarkCutterLowering: "0"}, false, false},
	{measure.DarkCutter, map[measure.ID]string{measure.DarkCutter: "no", measure.DarkCutterLowering: "2"}, true, true},
	{measure.DarkCutter, map[measure.ID]string{measure.Remarks: "dark cutter"}, false, false},
	{measure.Bullock, map[measure.ID]string{measure.Bullock: "yes"}, true, false},
	{measure.Bullock, map[measure.ID]string{measure.Bullock: "no"}, false, false},
	{measure.Bullock, map[measure.ID]string{measure.Sex: "stag"}, true, false},
	{measure.Bullock, map[measure.ID]string{measure.Sex: " STAGS "}, true, false},
	{measure.Bullock, map[measure.ID]string{measure.Sex: "Bullock"}, true, false},
	{measure.Bullock, map[measure.ID]string{measure.Sex: "Bullock/Stag"}, true, false},
	{measure.Bullock, map[measure.ID]string{measure.Sex: "bullock or stag"}, true, false},
	{measure.Bullock, map[measure.ID]string{measure.Sex: "Young bull"}, true, false},
	{measure.Bullock, map[measure.ID]string{measure.Sex: "Steer"}, false, false},
	{measure.Bullock, map[measure.ID]string{measure.Sex: "unknown"}, false, false},
	{measure.Bullock, map[measure.ID]string{measure.Sex: "steer", measure.Bullock: "yes"}, true, true},
	{measure.Bullock, map[measure.ID]string{measure.Sex: "Hfr.", measure.Bullock: "yes"}, true, true},
	{measure.Bullock, map[measure.ID]string{measure.Sex: "stag", measure.Bullock: "no"}, true, true},
	{measure.Bullock, map[measure.ID]string{measure.Sex: "stag", measure.Bullock: "yes"}, true, false},
	{measure.Bull, map[measure.ID]string{measure.Sex: "bull"}, true, false},
	{measure.Bull, map[measure.ID]string{measure.Sex: "Bulls"}, true, false},
	{measure.Bull, map[measure.ID]string{measure.Sex: "steer"}, false, false},
	{measure.Cow, map[measure.ID]string{measure.Sex: "Cow"}, true, false},
	{measure.Cow, map[measure.ID]string{measure.Sex: "COWS"}, true, false},
	{measure.Cow, map[measure.ID]string{measure.Sex: "heifer"}, false, false},
	{measure.Hardbone, map[measure.ID]string{measure.Hardbone: "yes"}, true, false},
	{measure.Hardbone, map[measure.ID]string{measure.Maturity: "C50"}, false, false},
	{measure.DairyType, map[measure.ID]string{measure.DairyType: "yes"}, true, false},
	{measure.DairyType, map[measure.ID]string{measure.Breed: "Holstein"}, false, false},
	{measure.Over30Months, map[measure.ID]string{measure.Over30Months: "yes"}, true, false},
	{measure.Over30Months, map[measure.ID]string{measure.Under30Months: "yes"}, false, false},
	{measure.Over30Months, map[measure.ID]string{measure.Under30Months: "yes", measure.Over30Months: "yes"}, true, true},
	{measure.Over30Months, map[measure.ID]string{measure.Under30Months: "yes", measure.Over30Months: "no"}, false, false},
	{measure.Over30Months, map[measure.ID]string{measure.BirthDate: "2021-01-01", measure.KillDate: "2025-08-01"}, false, false},
	{measure.Condemned, map[measure.ID]string{measure.Condemned: "yes"}, true, false},
	{measure.Retained, map[measure.ID]string{measure.Retained: "yes"}, true, false},
	{measure.Trimmed, map[measure.ID]string{measure.Trimmed: "yes"}, true, false},
	{measure.BloodSplash, map[measure.ID]string{measure.BloodSplash: "yes"}, true, false},
}

// Every sign in every spelling, beside what the condition means to the price, the grade, eligibility and the groups: all
// of them take it from one place.
func TestOneConditionForEveryReader(t *testing.T) {
	for _, test := range conditionSigns {
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
		g := grading.Grade(beefOf(t, test.values), book)
		condition := g.Condition(test.condition)
		if condition.Is != test.is || condition.Contradicted() != test.clash {
			t.Errorf("%v: %s is %t, contradicted %t", test.values, test.condition, condition.Is, condition.Contradicted())
		}
		if want, known := gradeUnder(test.condition, test.is, test.values); known {
			if figure := g.FigureOf(measure.QualityGrade); figure.Value.Text != want {
				t.Errorf("%v: quality grade %q (%s), want %q", test.values, figure.Value.Text, figure.Missing, want)
			}
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
		fails := LimitsOf(Entries{base: "Steers", Species: rules.Beef}, book).Failures(g, book)
		if (len(fails) > 0) != test.is {
			t.Errorf("%v: fails %q", test.values, fails.words())
		}
		want := map[bool]string{true: "red", false: "blue"}[test.is]
		groups := standardsOf(Entries{base: "Steers", Species: rules.Beef}, book)
		if group := groups.group(g, false, book); group != want {
			t.Errorf("%v: group %q, want %q", test.values, group, want)
		}
	}
}

// gradeUnder is the quality grade of a carcass of Slightly Abundant 20 in A60, Low Prime by itself: a bull gets none, a cow is
// High Choice at most, and the judge's lowering counts from the middle of the label (a third of a grade, or a whole one).
func gradeUnder(condition measure.ID, is bool, values map[measure.ID]string) (grade string, known bool) {
	if values[measure.Maturity] != "" {
		return "", false // another column of the chart
	}
	switch lowering := values[measure.DarkCutterLowering]; {
	case condition == measure.Bull && is:
		return "", true
	case condition == measure.Cow && is, lowering == "2":
		return "High Choice", true
	case lowering == "6":
		return "Low Choice", true
	}
	return "Low Prime", true
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
