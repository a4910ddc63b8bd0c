package grading

import (
	"testing"

	"railbook/rules"
	"railbook/rules/measure"
)

// The plant's own grade stands for a carcass without marbling where the rulebook says so, and only there; a grade that the
// judge called goes before it, and marbling that is there or can't be read is not passed over.
func TestThePlantsGradeStandsWithoutMarbling(t *testing.T) {
	stands := *rules.Default()
	stands.Settings.WithoutMarbling = rules.QualityOfPlant
	grade := func(text string) Reading {
		value, _, _ := ParseQualityGrade(text)
		return Reading{Value: value, Written: text}
	}
	base := map[measure.ID]Reading{measure.SheetQualityGrade: grade("Ch-")}
	tests := []struct {
		name   string
		book   *rules.Rulebook
		more   map[measure.ID]Reading
		wanted string
		needed bool // whether the marbling is still needed
	}{
		{"as the rulebook ships", rules.Default(), nil, "", true},
		{"where it stands", &stands, nil, "Low Choice", false},
		{"beside marbling", &stands, map[measure.ID]Reading{measure.Marbling: {Value: MarblingValue(750), Written: "750"}}, "Low Prime", false},
		{"beside marbling that can't be read", &stands, map[measure.ID]Reading{measure.Marbling: {Written: "5.4", Unreadable: true}}, "", true},
		{"beside the judge's call", &stands, map[measure.ID]Reading{measure.QualityGrade: grade("Se+")}, "High Select", true},
		{"where it can't be read", &stands, map[measure.ID]Reading{measure.SheetQualityGrade: {Written: "xx", Unreadable: true}}, "", true},
	}
	for _, test := range tests {
		carcass := &Carcass{Species: rules.Beef, Basis: rules.OnTheRail}
		for _, readings := range []map[measure.ID]Reading{base, test.more} {
			for id, reading := range readings {
				carcass.SetReading(id, reading)
			}
		}
		graded := Grade(carcass, test.book)
		figure, _ := graded.Figure(measure.QualityGrade)
		if figure.Text != test.wanted || graded.Without(measure.MarblingScore) != test.needed {
			t.Errorf("%s: got %q and marbling needed %t, want %q and %t", test.name, figure.Text, graded.Without(measure.MarblingScore), test.wanted, test.needed)
		}
		if stamped := graded.FigureOf(measure.QualityGrade).Assumed == "the plant's own quality grade, for no marbling is given"; stamped != (test.name == "where it stands") {
			t.Errorf("%s: marked as the plant's: %t", test.name, stamped)
		}
	}
}

// How plants write parts of Choice: common practice.
func TestPartsOfChoice(t *testing.T) {
	for text, wanted := range map[string]string{
		"T2/3": "Choice", "U2/3": "Choice", "Top 2/3 Ch": "Choice", "Upper 2/3 Choice": "Choice", "Top Choice": "Choice", "upper 2/3rds choice": "Choice",
		"B1/3": "Low Choice", "Bottom 1/3 Choice": "Low Choice",
		"T": "", "T Ch": "", "T1/3": "", "B2/3": "", "Upper": "", "CAB": "", "2/3": "",
	} {
		value, _ := ParsePartOfChoice(text)
		if value.Text != wanted {
			t.Errorf("%q: got %q, want %q", text, value.Text, wanted)
		}
	}
	for text, wanted := range map[string]string{
		"HiCh": "High Choice", "LoCh": "Low Choice", "AvgCh": "Average Choice", "HighPrime": "High Prime", "LoSe": "Low Select", "Low": "", "AvgSe": "", "HiSt": "High Standard", "HiCu": "",
	} {
		value, _, _ := ParseQualityGrade(text)
		if value.Text != wanted {
			t.Errorf("%q: got %q, want %q", text, value.Text, wanted)
		}
	}
}
