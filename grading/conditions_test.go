package grading

import (
	"testing"

	"railbook/rules/measure"
)

// What a sex means to the grade, in any spelling: none for a bull, no Prime for a cow, A alone for a bullock.
func TestGradeBySex(t *testing.T) {
	for _, test := range []struct{ sex, maturity, marbling, want string }{
		{"Bulls", "A60", "440", ""},
		{"cows", "A60", "720", "High Choice"},
		{"COW", "A60", "720", "High Choice"},
		{"stag", "A60", "720", "Low Prime"},
		{"Stags", "B20", "720", ""},
		{"Bullock/stag", "B20", "720", ""},
		{"heifers", "A60", "720", "Low Prime"},
	} {
		g := gradedBeef(t, withValues(map[measure.ID]string{measure.Sex: test.sex, measure.Maturity: test.maturity, measure.Marbling: test.marbling}))
		if value, _ := g.Figure(measure.QualityGrade); value.Text != test.want {
			t.Errorf("%v: %q", test, value.Text)
		}
	}
}

// What holds by another sign than its mark is said to be assumed, and by what.
func TestConditionSaysByWhat(t *testing.T) {
	g := gradedBeef(t, withValues(map[measure.ID]string{measure.Sex: "Stag"}))
	if figure := g.FigureOf(measure.Price); figure.Assumed != "a bullock or stag, by the sex Stag" {
		t.Errorf("%q", figure.Assumed)
	}
}

// withValues is an ordinary carcass with some values of its own.
func withValues(values map[measure.ID]string) map[measure.ID]string {
	all := map[measure.ID]string{
		measure.HotCarcassWeight: "750", measure.AdjustedFat: "0.55", measure.RibeyeArea: "12.5", measure.InternalFat: "2.5", measure.Marbling: "440", measure.Maturity: "A60",
	}
	for id, value := range values {
		all[id] = value
	}
	return all
}
