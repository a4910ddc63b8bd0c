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
		{"REA", "", measure.None}, // the ribeye of cattle, the loin of hogs
		{"no such thing", Beef, measure.None},
	} {
		got := measure.None
		if names := loading.byHeading(test.text, test.species); len(names) == 1 {
			got = measure.Standard().ByName(names[0])
		}
		if got != test.want {
			t.Errorf("%s of %q is %s, want %s", test.text, test.species, got, test.want)
		}
	}
}
