package whatif

import (
	"testing"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

var defaultBook = rules.Default()

func valid(text string) decimal.NullDecimal {
	return decimal.NewNullDecimal(decimal.RequireFromString(text))
}

func carcassOf(t testing.TB, species rules.Species, basis rules.Basis, values map[measure.ID]string) *grading.Carcass {
	t.Helper()
	readings := make(map[measure.ID]grading.Reading, len(values))
	for id, text := range values {
		readings[id] = grading.Reading{Value: testValue(t, id, text), Written: text, Plain: true}
	}
	return (&grading.Carcass{Tag: "101", Species: species, Basis: basis}).With(readings)
}

func testValue(t testing.TB, id measure.ID, text string) measure.Value {
	t.Helper()
	definition, known := measure.Define(id)
	if !known {
		t.Fatalf("no such measure: %s", id)
	}
	switch definition.Kind {
	case measure.KindMarbling:
		if reading, ok := grading.ParseMarbling(text, rules.MarblingHundreds); ok {
			return reading.Value
		}
	case measure.KindMaturity:
		if reading, ok := grading.ParseMaturity(text); ok {
			return reading.Value
		}
	case measure.KindText:
		return measure.Value{Text: text}
	case measure.KindMark:
		if text == "yes" {
			return measure.Value{Number: decimal.NewFromInt(1), Text: text}
		}
		return measure.Value{Text: text}
	}
	return measure.NumberValue(decimal.RequireFromString(text))
}

func gradedBeef(t testing.TB, values map[measure.ID]string) *grading.Graded {
	t.Helper()
	return grading.Grade(carcassOf(t, rules.Beef, rules.OnTheRail, values), defaultBook)
}

func wantNumber(t *testing.T, g *grading.Graded, id measure.ID, want string) {
	t.Helper()
	value, ok := g.Figure(id)
	if !ok || !value.Number.Equal(decimal.RequireFromString(want)) {
		t.Errorf("%s is %q (%s), want %s", id, value.Text, g.FigureOf(id).Missing, want)
	}
}

func wantNear(t *testing.T, g *grading.Graded, id measure.ID, want, within string) {
	t.Helper()
	value, ok := g.Figure(id)
	if !ok || value.Number.Sub(decimal.RequireFromString(want)).Abs().GreaterThan(decimal.RequireFromString(within)) {
		t.Errorf("%s is %q (%s), want %s within %s", id, value.Text, g.FigureOf(id).Missing, want, within)
	}
}
