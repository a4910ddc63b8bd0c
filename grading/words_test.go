package grading

import (
	"testing"

	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// Ways of writing: plant sheets (common practice). The degree
// values are those of PMC12311919 table 6.
func TestParseMarbling(t *testing.T) {
	for _, test := range []struct {
		text  string
		scale rules.MarblingScale
		want  string // "" for ambiguous or refused
		how   MarblingHow
	}{
		{"SM 40", "", "Small 40", MarblingByWords},
		{"Sm40", "", "Small 40", MarblingByWords},
		{"Small 40", "", "Small 40", MarblingByWords},
		{"Sm⁴⁰", "", "Small 40", MarblingByWords},
		{"Sm-40", "", "Small 40", MarblingByWords},
		{"sm\u00a000", "", "Small 00", MarblingByWords},
		{"Sm⁰⁰", "", "Small 00", MarblingByWords},
		{"Slab 20", "", "Slightly Abundant 20", MarblingByWords},
		{"Sl. Ab. 20", "", "Slightly Abundant 20", MarblingByWords},
		{"MAB99", "", "Moderately Abundant 99", MarblingByWords},
		{"PD 66", "", "Practically Devoid 66", MarblingByWords},
		{"540", "", "Modest 40", MarblingByNumber},
		{"540.9", "", "Modest 40", MarblingByNumber},
		{"100", "", "Practically Devoid 00", MarblingByNumber},
		{"1040", "", "1040", MarblingByNumber},
		{"Small+", "", "Small 83", MarblingAssumed},
		{"Sm−", "", "Small 17", MarblingAssumed},
		{"Sm°", "", "Small 50", MarblingAssumed},
		{"Sm⁰", "", "Small 50", MarblingAssumed},
		{"SL", "", "Slight 50", MarblingAssumed},
		{"5.4", rules.MarblingSince22, "Modest 40", MarblingByScale},
		{"5.4", rules.MarblingBefore22, "Small 40", MarblingByScale},
		{"6", rules.MarblingReversed, "Small 00", MarblingByScale},
		{"5.4", "", "", MarblingAmbiguous},
		{"5.4", rules.MarblingHundreds, "", MarblingAmbiguous},
		{"45", rules.MarblingSince22, "", MarblingAmbiguous},
		{"Sm 4", "", "", MarblingAmbiguous},
		{"Mod 40", "", "", ""},
		{"Sm 100", "", "", ""},
		{"-40", "", "", ""},
		{"n/a", "", "", ""},
		{"", "", "", ""},
	} {
		got, ok := ParseMarbling(test.text, test.scale)
		if ok != (test.how != "") || got.Value.Text != test.want || got.How != test.how {
			t.Errorf("ParseMarbling(%q, %q) = %+v, %v; want %q %q", test.text, test.scale, got, ok, test.want, test.how)
		}
	}
}

func TestParseMaturity(t *testing.T) {
	for text, want := range map[string]string{
		"A": "A50", "A60": "A60", "A-60": "A60", "a 60": "A60", "A⁶⁰": "A60", "160": "A60", "100": "A00", "E99": "E99",
		"A+": "A83", "A°": "A50", "B maturity": "B50",
		"B100": "", "60": "", "600": "", "F20": "", "A6": "", "A60-B20": "", "": "", "old": "",
	} {
		got, ok := ParseMaturity(text)
		if ok != (want != "") || got.Value.Text != want {
			t.Errorf("ParseMaturity(%q) = %+v, %v; want %q", text, got, ok, want)
		}
		if !ok && got.Note == "" {
			t.Errorf("ParseMaturity(%q) is refused without a word why", text)
		}
	}
}

func TestParseQualityGrade(t *testing.T) {
	for text, want := range map[string]string{
		"Ch-": "Low Choice", "CH–": "Low Choice", "Low Choice": "Low Choice", "LOW CH": "Low Choice", "C°": "Average Choice",
		"Avg. Choice": "Average Choice", "Se+": "High Select", "Pr": "Prime", "Choice": "Choice", "No roll": "No roll",
		"NR": "No roll", "Prime +": "High Prime", "Std": "Standard", "Gd": "Good",
		"Se°": "", "Average Select": "", "Ut+": "", "CAB": "", "2": "", "": "",
	} {
		got, whole, ok := ParseQualityGrade(text)
		if ok != (want != "") || got.Text != want {
			t.Errorf("ParseQualityGrade(%q) = %+v, %v; want %q", text, got, ok, want)
		}
		if ok && whole != (rules.WholeGrade(want) == want) {
			t.Errorf("ParseQualityGrade(%q): whole = %v", text, whole)
		}
	}
}

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

func TestQualityRanksFollowTheOrderOfGrades(t *testing.T) {
	before := int64(-1)
	for _, words := range []string{
		"Canner", "Cutter", "Utility", "Low Commercial", "Commercial", "High Commercial", "Low Standard", "Average Standard",
		"High Standard", "Low Select", "High Select", "Low Choice", "Average Choice", "High Choice", "Low Prime", "Prime", "High Prime",
	} {
		value, _, ok := ParseQualityGrade(words)
		if !ok || value.Number.IntPart() <= before {
			t.Errorf("%s ranks %s, not above the grade before it (%d)", words, value.Number, before)
		}
		before = value.Number.IntPart()
	}
}

// A number keeps every zero of its own: a carcass of 30.5 inches is no carcass of 3.5.
func TestInchesKeepTheirZeros(t *testing.T) {
	for _, test := range []struct {
		id            measure.ID
		written, want string
	}{
		{measure.CarcassLength, "30.5", "30.5 in"},
		{measure.CarcassLength, "30", "30.0 in"},
		{measure.AdjustedFat, "0.5", "0.50 in"},
		{measure.FatAdjustment, "-0.1", "-0.10 in"},
	} {
		if got := SayNumber(test.id, decimal.RequireFromString(test.written)); got != test.want {
			t.Errorf("%s of %s is written %q, want %q", test.id, test.written, got, test.want)
		}
	}
}
