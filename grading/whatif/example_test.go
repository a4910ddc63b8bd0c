package whatif_test

import (
	"fmt"

	"railbook/grading/whatif"
	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// A whole yield grade of 3 or better is what a yield grade below 4 asks for already.
func ExampleNeverDecides() {
	book := rules.Default()
	four, three := decimal.NewNullDecimal(decimal.NewFromInt(4)), decimal.NewNullDecimal(decimal.NewFromInt(3))
	book.Eligibility = []rules.Requirement{
		{Species: rules.Beef, Measure: measure.YieldGrade, Below: four, Failing: rules.FailNotPlaced, Place: rules.Place{Sheet: "Eligibility", Cell: "G2"}},
		{Species: rules.Beef, Measure: measure.WholeYieldGrade, AtMost: three, Failing: rules.FailNotPlaced, Place: rules.Place{Sheet: "Eligibility", Cell: "E3"}},
	}
	for _, fault := range whatif.NeverDecides(book) {
		fmt.Println(fault.Place.Cell, fault.Message)
	}
	// Output:
	// E3 The limit of whole yield grade at most 3 can never decide anything. Every carcass that passes yield grade below 4.00 passes it too. Take it out, or change it.
}
