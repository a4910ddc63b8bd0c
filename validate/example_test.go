package validate_test

import (
	"fmt"

	"github.com/shopspring/decimal"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/validate"
)

// A ribeye of 115 square inches is held.
func ExampleCheck() {
	book := rules.Default()
	steer := &grading.Carcass{Tag: "0401", Species: rules.Beef, Basis: rules.OnTheRail, Place: rules.Place{Sheet: "Steers", Cell: "A4"}}
	for id, written := range map[measure.ID]string{measure.HotCarcassWeight: "737", measure.AdjustedFat: "0.4", measure.RibeyeArea: "115"} {
		steer.SetReading(id, grading.Reading{
			Value: measure.NumberValue(decimal.RequireFromString(written)), Written: written, Place: rules.Place{Sheet: "Steers", Cell: "G4"},
		})
	}
	graded := grading.Grade(steer, book)
	for _, finding := range validate.Check(&validate.Batch{Book: book, Carcasses: []*grading.Graded{graded}}) {
		if finding.Measure == measure.RibeyeArea {
			fmt.Println(finding.Level, finding.Code, finding.At)
		}
	}
	// Output: hold ribeye area out of range sheet "Steers", cell G4
}
