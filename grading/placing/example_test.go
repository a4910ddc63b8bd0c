package placing_test

import (
	"fmt"

	"railbook/grading"
	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// Three goats are placed by the default rulebook.
func ExamplePlaceClasses() {
	book := rules.Default()
	var goats []*grading.Graded
	for _, goat := range []struct{ tag, weight, ribeye, bodyWall string }{
		{"71", "42", "1.9", "0.5"}, {"72", "44", "2.4", "0.5"}, {"73", "40", "", "0.6"},
	} {
		carcass := &grading.Carcass{Tag: goat.tag, Class: "Goats", Species: rules.Goat, Basis: rules.OnTheRail}
		for id, text := range map[measure.ID]string{measure.HotCarcassWeight: goat.weight, measure.RibeyeArea: goat.ribeye, measure.BodyWallThickness: goat.bodyWall} {
			if text != "" {
				carcass.SetReading(id, grading.Reading{Value: measure.NumberValue(decimal.RequireFromString(text)), Written: text, Plain: true})
			}
		}
		goats = append(goats, grading.Grade(carcass, book))
	}
	for _, class := range placing.PlaceClasses(placing.Entered(goats), nil, book).Classes {
		for _, placed := range class.Placed {
			fmt.Println(placed.Place, placed.Tag)
		}
		for _, notPlaced := range class.NotPlaced {
			fmt.Println("not placed:", notPlaced.Tag, notPlaced.Reason)
		}
	}
	// Output:
	// 1 72
	// 2 71
	// not placed: 73 placed by cutability: no ribeye area
}
