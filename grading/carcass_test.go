package grading

import (
	"testing"

	"railbook/rules"
	"railbook/rules/measure"
)

// Two boards declare a measure of one name, and one of them another besides: a carcass read by the one rulebook has under
// the other what that knows by name, and never what merely stands at the same place in its table.
func TestCarcassUnderAnotherRulebookKeepsWhatHasTheSameName(t *testing.T) {
	with := func(names ...string) *measure.Table {
		table := measure.Standard()
		for _, name := range names {
			next, err := table.With(measure.Definition{Name: name, Kind: measure.KindNumber})
			if err != nil {
				t.Fatal(err)
			}
			table = next
		}
		return table
	}
	first, second := with("rib color", "texture"), with("frame", "texture")
	carcass := &Carcass{Tag: "0401"}
	carcass.SetReading(measure.Tag, Reading{Written: "0401"})
	carcass.SetReading(first.ByName("rib color"), Reading{Written: "3"})
	carcass.SetReading(first.ByName("texture"), Reading{Written: "fine"})
	under := Grade(carcass, &rules.Rulebook{Measures: second}).Carcass
	if got := under.ReadingOf(second.ByName("texture")).Written; got != "fine" {
		t.Errorf("texture is %q", got)
	}
	if got, there := under.Written(second.ByName("frame")); there {
		t.Errorf("rib color was taken for the frame: %q", got.Written)
	}
	if under.ReadingOf(measure.Tag).Written != "0401" || under.CountReadings() != 2 || carcass.CountReadings() != 3 {
		t.Errorf("%d readings under the second rulebook, %d under the first", under.CountReadings(), carcass.CountReadings())
	}
	if plain := (&Carcass{Tag: "0402"}); plain.Under(second) != plain {
		t.Error("a carcass with no measure of a rulebook's own was copied")
	}
}
