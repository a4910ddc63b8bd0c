package rules

import (
	"testing"

	"railbook/rules/measure"
)

// A board writes a measure as its sheets head it; a heading of a sheet's own figure means the computed one.
func TestNamesABoardMayType(t *testing.T) {
	loading := &loading{book: &Rulebook{Tables: DefaultTables()}}
	for _, test := range []struct {
		text    string
		species Species
		want    measure.ID // none where the name means different measures, or nothing
	}{
		{"HCW", "", measure.HotCarcassWeight},
		{"hcw", Beef, measure.HotCarcassWeight},
		{"REA", Beef, measure.RibeyeArea},
		{"KPH", Beef, measure.InternalFat},
		{"BF", Beef, measure.MeasuredFat},
		{"YG", Beef, measure.YieldGrade},
		{"LEA", Swine, measure.LoinMuscleArea},
		{"no such thing", Beef, measure.None},
	} {
		definition, _ := loading.byHeading(test.text, test.species)
		if definition.ID != test.want {
			t.Errorf("%s of %q is %s, want %s", test.text, test.species, definition.ID, test.want)
		}
	}
}
