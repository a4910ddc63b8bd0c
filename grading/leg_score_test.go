package grading

import (
	"testing"

	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// 15 is Prime+, 10 Choice−, 7 Good− (from memory); the words are common practice.
func TestLegScoreInWords(t *testing.T) {
	for text, want := range map[string]string{
		"Pr+": "15", "High Prime": "15", "Prime": "14", "Av. Prime": "14", "Prime-": "13", "Low Prime": "13",
		"Ch+": "12", "high choice": "12", "CHOICE +": "12", "Choice": "11", "Av Ch": "11", "Ch°": "11", "avg choice": "11",
		"Ch-": "10", "Low Choice": "10", "Good+": "9", "Gd": "8", "Low Good": "7",
		"Superb": "", "Select": "", "Se+": "", "Standard": "", "Standard+": "", "High Standard": "", "Ch+/Ch": "", "": "", "U": "", "Cull": "",
	} {
		score, _, ok := ParseLegScore(text)
		if ok != (want != "") || ok && score.Number.String() != want {
			t.Errorf("%q is %v (%v), not %q", text, score.Number, ok, want)
		}
	}
}

func TestConformationOfAScore(t *testing.T) {
	for score, want := range map[int64]string{15: "High Prime", 13: "Low Prime", 12: "High Choice", 11: "Average Choice", 10: "Low Choice", 7: "Low Good", 6: "", 16: "", 0: ""} {
		grade, ok := ConformationOf(measure.NumberValue(decimal.NewFromInt(score)))
		if ok != (want != "") || ok && grade.Text != want {
			t.Errorf("%d is %q, not %q", score, grade.Text, want)
		}
		if again, _, back := ParseLegScore(grade.Text); ok && (!back || !again.Number.Equal(decimal.NewFromInt(score))) {
			t.Errorf("%s is not %d again", grade.Text, score)
		}
	}
}
