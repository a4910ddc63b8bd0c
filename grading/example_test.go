package grading_test

import (
	"fmt"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// A steer of 794 lb graded and priced by the default rulebook.
func ExampleGrade() {
	steer := &grading.Carcass{Tag: "0412", Species: rules.Beef, Basis: rules.OnTheRail}
	for id, text := range map[measure.ID]string{
		measure.HotCarcassWeight: "794", measure.AdjustedFat: "0.4", measure.RibeyeArea: "13.1",
		measure.InternalFat: "2.5", measure.Marbling: "440", measure.Maturity: "150",
	} {
		steer.SetReading(id, grading.Reading{Value: measure.NumberValue(decimal.RequireFromString(text)), Written: text, Plain: true})
	}
	graded := grading.Grade(steer, rules.Default())
	for _, id := range []measure.ID{measure.YieldGrade, measure.WholeYieldGrade, measure.QualityGrade, measure.Price} {
		value, _ := graded.Figure(id)
		fmt.Println(id, grading.Say(id, value))
	}
	fmt.Println("dressing percent:", graded.FigureOf(measure.DressingPercent).Missing)
	// Output:
	// yield grade 2.83
	// whole yield grade 2
	// quality grade Low Choice
	// price $301.38 per cwt
	// dressing percent: no live weight
}
