package grading

import (
	"testing"

	"github.com/shopspring/decimal"

	"railbook/rules"
	"railbook/rules/measure"
)

// Either side of every step and target: steps hold their lower end and not their upper one, a side counts alone. The terms
// are worked out by hand.
func TestPointsBySteps(t *testing.T) {
	fat := func(part rules.PointsPart) rules.PointsPart {
		part.Index, part.Measure = "merit", measure.AdjustedFat
		return part
	}
	number := func(text string) rules.PointsPart { return rules.PointsPart{Weight: Exact(text)} }
	step := func(weight, from, upTo string) rules.PointsPart {
		part := number(weight)
		part.Step, part.Band = true, rules.Band{From: maybe(from), FromIsIn: true, UpTo: maybe(upTo)}
		return fat(part)
	}
	aimed := func(weight, target string, side rules.Side) rules.PointsPart {
		part := number(weight)
		part.Target, part.Side = maybe(target), side
		return fat(part)
	}
	graded := func(weight, grade string) rules.PointsPart {
		part := number(weight)
		part.Index, part.Measure, part.Step, part.Grade = "merit", measure.QualityGrade, true, grade
		return part
	}
	for _, test := range []struct {
		part      rules.PointsPart
		fat, want string
	}{
		{step("5", "0.40", "0.60"), "0.39", "0"},
		{step("5", "0.40", "0.60"), "0.40", "5"},
		{step("5", "0.40", "0.60"), "0.59", "5"},
		{step("5", "0.40", "0.60"), "0.60", "0"},
		{step("5", "", "0.60"), "0.10", "5"},
		{step("-3", "0.60", ""), "0.60", "-3"},
		{aimed("-100", "0.60", rules.SideBelow), "0.55", "-5"},
		{aimed("-100", "0.60", rules.SideBelow), "0.60", "0"},
		{aimed("-100", "0.60", rules.SideBelow), "0.65", "0"},
		{aimed("-100", "0.60", rules.SideAbove), "0.65", "-5"},
		{aimed("-100", "0.60", rules.SideAbove), "0.55", "0"},
		{aimed("-100", "0.60", ""), "0.55", "-5"},
		{graded("10", "Choice"), "0.40", "10"}, // Low Choice
		{graded("10", "Low Choice"), "0.40", "10"},
		{graded("10", "Average Choice"), "0.40", "0"},
		{graded("10", "Select"), "0.40", "0"},
	} {
		book := rules.Default()
		book.Points = []rules.PointsPart{test.part}
		g := Grade(carcassOf(t, rules.Beef, rules.OnTheRail, withValues(map[measure.ID]string{measure.AdjustedFat: test.fat})), book)
		if figure := Points(g, "merit", book); figure.Missing != "" || !figure.Value.Number.Equal(Exact(test.want)) {
			t.Errorf("%+v at %s in: %s %s, want %s", test.part, test.fat, figure.Value.Number, figure.Missing, test.want)
		}
	}
}

// maybe reads a number; blank is none.
func maybe(text string) decimal.NullDecimal {
	if text == "" {
		return decimal.NullDecimal{}
	}
	return decimal.NewNullDecimal(Exact(text))
}
