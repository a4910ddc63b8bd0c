package reading

import (
	"testing"

	"railbook/rules"
)

func TestValuesAreReadAsPeopleWriteThem(t *testing.T) {
	for _, one := range []struct {
		measure       rules.Measure
		written, want string
	}{
		{rules.RibeyeArea, "13.6", "13.6"},
		{rules.RibeyeArea, "13.6 sq in", "13.6"},
		{rules.AdjustedFat, ".40", "0.4"},
		{rules.HotCarcassWeight, "812#", "812"},
		{rules.Marbling, "Small 40", "Small 40"},
		{rules.Maturity, "A60", "A60"},
		{rules.QualityGrade, "Ch-", "Low Choice"},
		{rules.DarkCutterLowering, "1/3", "1/3"},
		{rules.DarkCutter, "yes", "yes"},
		{rules.Exhibitor, "Theo Marrick", "Theo Marrick"},
	} {
		value, err := ReadValue(one.measure, one.written, rules.Default())
		definition, _ := rules.Define(one.measure)
		if got := canonical(value, definition.Kind); err != nil || got != one.want {
			t.Errorf("%s %q: got %q, %v; want %q", one.measure, one.written, got, err, one.want)
		}
	}
}

func TestValuesThatCannotBeReadAreRefused(t *testing.T) {
	for _, one := range []struct {
		measure rules.Measure
		written string
	}{
		{rules.RibeyeArea, "big"},
		{rules.RibeyeArea, ""},
		{rules.RibeyeArea, "n/a"},
		{rules.Marbling, "lots"},
		{rules.Marbling, "5"},
		{rules.QualityGrade, "tasty"},
		{"girth", "12"},
	} {
		if value, err := ReadValue(one.measure, one.written, rules.Default()); err == nil {
			t.Errorf("%s %q was read as %v", one.measure, one.written, value)
		}
	}
}
