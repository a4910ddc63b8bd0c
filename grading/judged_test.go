package grading

import (
	"testing"

	"github.com/shopspring/decimal"

	"railbook/rules"
)

func TestTheJudgesGradeStandsBeforeTheComputedOne(t *testing.T) {
	carcass := &Carcass{Tag: "1", Species: rules.Beef, Basis: rules.OnTheRail, Readings: map[rules.Measure]Reading{
		rules.HotCarcassWeight: {Value: rules.NumberValue(decimal.RequireFromString("780"))},
		rules.AdjustedFat:      {Value: rules.NumberValue(decimal.RequireFromString("0.40"))},
		rules.RibeyeArea:       {Value: rules.NumberValue(decimal.RequireFromString("13.6"))},
		rules.InternalFat:      {Value: rules.NumberValue(decimal.RequireFromString("2.5"))},
		rules.Marbling:         {Value: rules.Value{Number: decimal.RequireFromString("540"), Text: "Modest 40"}},
		rules.Maturity:         {Value: rules.Value{Number: decimal.RequireFromString("150"), Text: "A50"}},
	}}
	computed := Grade(carcass, rules.Default())
	if grade := computed.Figures[rules.QualityGrade].Value.Text; grade != "Average Choice" {
		t.Fatalf("A50 with Modest 40 is %q", grade)
	}
	call, _, ok := ParseQualityGrade("High Select")
	if !ok {
		t.Fatal("High Select is no grade")
	}
	carcass.Readings[rules.QualityGrade] = Reading{Value: call, Written: "High Select"}
	judged := Grade(carcass, rules.Default())
	if grade := judged.Figures[rules.QualityGrade].Value; grade.Text != "High Select" || !grade.Number.LessThan(computed.Figures[rules.QualityGrade].Value.Number) {
		t.Errorf("the grade is %v", grade)
	}
	// Select against Choice on the default grid: -28.25 $/cwt (USDA Market News LM_CT155, week of 6 January 2025).
	loss := computed.Figures[rules.Price].Value.Number.Sub(judged.Figures[rules.Price].Value.Number)
	if !loss.Equal(decimal.RequireFromString("28.25")) {
		t.Errorf("the call moves the price by %s", loss)
	}
}
