package words_test

import (
	"fmt"

	"railbook/grading"
	"railbook/grading/whatif"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/workbook/words"

	"github.com/shopspring/decimal"
)

// What a family reads of a lamb that a hundredth of an inch of fat keeps from yield grade 3.
func ExampleAdvice() {
	lamb := &grading.Carcass{Species: rules.Lamb, Basis: rules.OnTheRail}
	for id, number := range map[measure.ID]string{measure.HotCarcassWeight: "62", measure.AdjustedFat: "0.36", measure.RibeyeArea: "2.8"} {
		lamb.SetReading(id, grading.Reading{Value: measure.NumberValue(decimal.RequireFromString(number))})
	}
	graded := grading.Grade(lamb, rules.Default())
	for _, sentence := range words.Advice(whatif.Advise(graded, whatif.Moves(graded))) {
		fmt.Println(sentence)
	}
	// Output:
	// The nearest: 0.01 in less adjusted fat (0.35 in instead of 0.36 in). It reaches yield grade 3, though no price is set to say what that is worth.
	// Aims met: ribeye area (2.80 sq in).
}
