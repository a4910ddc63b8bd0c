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
	for _, warning := range whatif.NeverDecides(book) {
		limit, other := warning.Limit.Requirement, warning.Others[0].Requirement
		fmt.Printf("%s: %s at most %s, because of %s below %s\n", limit.Place.Cell, limit.Measure, limit.AtMost.Decimal, other.Measure, other.Below.Decimal)
	}
	// Output:
	// E3: whole yield grade at most 3, because of yield grade below 4
}
