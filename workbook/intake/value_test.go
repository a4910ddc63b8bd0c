package intake

import (
	"testing"

	"railbook/rules"
	"railbook/rules/measure"
)

func TestValuesAreReadAsPeopleWriteThem(t *testing.T) {
	for _, test := range []struct {
		measure       measure.ID
		written, want string
	}{
		{measure.RibeyeArea, "13.6", "13.6"},
		{measure.RibeyeArea, "13.6 sq in", "13.6"},
		{measure.AdjustedFat, ".40", "0.4"},
		{measure.HotCarcassWeight, "812#", "812"},
		{measure.Marbling, "Small 40", "Small 40"},
		{measure.Maturity, "A60", "A60"},
		{measure.QualityGrade, "Ch-", "Low Choice"},
		{measure.DarkCutterLowering, "1/3", "1/3"},
		{measure.DarkCutter, "yes", "yes"},
		{measure.Exhibitor, "Theo Marrick", "Theo Marrick"},
	} {
		value, err := ReadValue(test.measure, test.written, rules.Default())
		definition, _ := measure.Define(test.measure)
		if got := canonical(value, definition.Kind); err != nil || got != test.want {
			t.Errorf("%s %q: got %q, %v; want %q", test.measure, test.written, got, err, test.want)
		}
	}
}

func TestValuesThatCannotBeReadAreRefused(t *testing.T) {
	for _, test := range []struct {
		measure measure.ID
		written string
	}{
		{measure.RibeyeArea, "big"},
		{measure.RibeyeArea, ""},
		{measure.RibeyeArea, "n/a"},
		{measure.Marbling, "lots"},
		{measure.Marbling, "5"},
		{measure.QualityGrade, "tasty"},
		{measure.None, "12"},
	} {
		if value, err := ReadValue(test.measure, test.written, rules.Default()); err == nil {
			t.Errorf("%s %q was read as %v", test.measure, test.written, value)
		}
	}
}
