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

// TestNamesByTheSpeciesOfTheLine holds that a name which other species share means what the line's own species, or the one of
// the class it names, calls by it.
func TestNamesByTheSpeciesOfTheLine(t *testing.T) {
	for _, test := range []struct {
		class, species, text string
		want                 measure.ID
	}{
		{"", "swine", "marbling", measure.PorkMarbling},
		{"", "beef", "marbling", measure.Marbling},
		{"", "goat", "marbling", measure.None},
		{"Steers", "", "REA", measure.RibeyeArea},
		{"Barrows", "", "REA", measure.LoinMuscleArea},
		{"Mixed", "", "REA", measure.None},
		{"Unknown", "", "REA", measure.None},
	} {
		book := &Rulebook{
			Tables: DefaultTables(), Measures: measure.Standard(),
			Classes: []Class{{Name: "Steers", Species: Beef}, {Name: "Barrows", Species: Swine}, {Name: "Mixed", Species: Beef}, {Name: "mixed", Species: Swine}},
		}
		row := line{loading: &loading{book: book}, columns: map[string]int{"Class": 0, "Measure": 1}, row: Row{{Text: test.class}, {Text: test.text}}, asked: make([]bool, 2)}
		definition, ok := row.measure(Species(test.species))
		if got := definition.ID; got != test.want || ok != (got != measure.None) {
			t.Errorf("%q of class %q, species %q is %s, want %s", test.text, test.class, test.species, got, test.want)
		}
	}
}
