package whatif_test

import (
	"fmt"

	"railbook/grading"
	"railbook/grading/placing"
	"railbook/grading/whatif"
	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// A lamb's yield grade is 0.4 + 10 × fat (U.S. standards for lamb, 1992): with a hundredth of an inch less this one is a 3.
func ExampleMoves() {
	lamb := &grading.Carcass{Species: rules.Lamb, Basis: rules.OnTheRail}
	for id, number := range map[measure.ID]string{measure.HotCarcassWeight: "62", measure.AdjustedFat: "0.36"} {
		lamb.SetReading(id, grading.Reading{Value: measure.NumberValue(decimal.RequireFromString(number))})
	}
	for _, move := range whatif.Moves(grading.Grade(lamb, rules.Default())) {
		fmt.Printf("%s %s instead of %s: %s %s instead of %s\n", move.Measure, move.To.Text, move.From.Text, move.Reached, move.Becomes.Text, move.Was.Text)
	}
	// Output:
	// adjusted fat 0.35 instead of 0.36: whole yield grade 3 instead of 4
}

// Where the lean decides in place of the weight, the second hog passes the first.
func ExampleCompare() {
	side := func(key measure.ID) whatif.Side {
		book := rules.Default()
		book.Classes = []rules.Class{{Name: rules.EveryOtherClass, Ranking: "hogs"}}
		book.Rankings = []rules.Ranking{{Name: "hogs", Ties: rules.TiesShare, Keys: []rules.Key{{Measure: key, Prefer: rules.Highest}}}}
		var graded []*grading.Graded
		for at, numbers := range [][3]string{{"214", "0.9", "6.8"}, {"205", "0.6", "7.4"}} {
			hog := &grading.Carcass{Tag: fmt.Sprint(at + 1), Class: "Barrows", Species: rules.Swine, Basis: rules.OnTheRail, Sequence: at}
			for i, id := range []measure.ID{measure.HotCarcassWeight, measure.TenthRibFat, measure.LoinMuscleArea} {
				hog.SetReading(id, grading.Reading{Value: measure.NumberValue(decimal.RequireFromString(numbers[i]))})
			}
			graded = append(graded, grading.Grade(hog, book))
		}
		return whatif.Side{Book: book, Entrants: placing.Entered(graded)}
	}
	comparison := whatif.Compare(side(measure.HotCarcassWeight), side(measure.LeanPercent))
	for _, row := range comparison.Classes[0].Rows {
		fmt.Println(row.Tag, "was", row.Old.Place, "and is", row.New.Place)
	}
	// Output:
	// 2 was 2 and is 1
	// 1 was 1 and is 2
}

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
