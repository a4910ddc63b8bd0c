package grading

import (
	"testing"

	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

func TestTheJudgesGradeStandsBeforeTheComputedOne(t *testing.T) {
	carcass := (&Carcass{Tag: "1", Species: rules.Beef, Basis: rules.OnTheRail}).With(map[measure.ID]Reading{
		measure.HotCarcassWeight: {Value: measure.NumberValue(decimal.RequireFromString("780"))},
		measure.AdjustedFat:      {Value: measure.NumberValue(decimal.RequireFromString("0.40"))},
		measure.RibeyeArea:       {Value: measure.NumberValue(decimal.RequireFromString("13.6"))},
		measure.InternalFat:      {Value: measure.NumberValue(decimal.RequireFromString("2.5"))},
		measure.Marbling:         {Value: measure.Value{Number: decimal.RequireFromString("540"), Text: "Modest 40"}},
		measure.Maturity:         {Value: measure.Value{Number: decimal.RequireFromString("150"), Text: "A50"}},
	})
	computed := Grade(carcass, rules.Default())
	if grade := computed.FigureOf(measure.QualityGrade).Value.Text; grade != "Average Choice" {
		t.Fatalf("A50 with Modest 40 is %q", grade)
	}
	call, _, ok := ParseQualityGrade("High Select")
	if !ok {
		t.Fatal("High Select is no grade")
	}
	carcass.SetReading(measure.QualityGrade, Reading{Value: call, Written: "High Select"})
	judged := Grade(carcass, rules.Default())
	if grade := judged.FigureOf(measure.QualityGrade).Value; grade.Text != "High Select" || !grade.Number.LessThan(computed.FigureOf(measure.QualityGrade).Value.Number) {
		t.Errorf("the grade is %v", grade)
	}
	// Select against Choice on the default grid: -28.25 $/cwt (USDA Market News LM_CT155, week of 6 January 2025).
	loss := computed.FigureOf(measure.Price).Value.Number.Sub(judged.FigureOf(measure.Price).Value.Number)
	if !loss.Equal(decimal.RequireFromString("28.25")) {
		t.Errorf("the call moves the price by %s", loss)
	}
}
