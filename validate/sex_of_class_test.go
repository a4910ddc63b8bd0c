package validate

import (
	"fmt"
	"strings"
	"testing"

	"railbook/rules"
)

// TestSexOfClass holds which sex is asked about beside the class an animal stands in, and that no class without a word for a sex
// asks (common practice).
func TestSexOfClass(t *testing.T) {
	for _, test := range []struct {
		species    rules.Species
		class, sex string
		code       string
	}{
		{rules.Beef, "Market Steers", "S", ""},
		{rules.Beef, "Market Steers", "H", sexNotOfClass},
		{rules.Beef, "Market Beef", "H", ""},
		{rules.Beef, "Steers/Heifers", "H", ""},
		{rules.Beef, "Lt H", "S", ""}, // a letter may stand for anything
		{rules.Beef, "Light Hfr", "S", sexNotOfClass},
		{rules.Beef, "Market Steers", "B", sexUnknown},
		{rules.Beef, "Market Steers", "", ""},
		{rules.Swine, "Barrows", "B", ""},
		{rules.Swine, "Barrows", "gilt", sexNotOfClass},
		{rules.Lamb, "Wethers", "ewe", sexNotOfClass},
	} {
		batch := drawLot(t, test.species, trueRow(t).but(t, "class="+test.class+"; sex="+test.sex))
		var got []string
		for _, finding := range Check(batch) {
			if finding.Code == sexUnknown || finding.Code == sexNotOfClass {
				got = append(got, finding.Code)
			}
		}
		if got := strings.Join(got, " "); got != test.code {
			t.Errorf("%s of %q in %q: %q, want %q", test.sex, test.species, test.class, got, test.code)
		}
	}
}

// TestManySexesAreOneQuestion holds from when on they are: four of another class, and one word that nobody knows at once.
func TestManySexesAreOneQuestion(t *testing.T) {
	for _, test := range []struct {
		sex       string
		number    int
		questions int
	}{{"H", 3, 3}, {"H", 4, 1}, {"B", 1, 1}, {"B", 3, 1}} {
		var rows []drawn
		for i := range test.number {
			rows = append(rows, trueRow(t).but(t, fmt.Sprintf("tag=%d; hot carcass weight=%d; live weight=%d; sex=%s", 600+37*i, 782+2*i, 1253+3*i, test.sex)))
		}
		questions := 0
		for _, finding := range Check(drawLot(t, rules.Beef, rows...)) {
			if finding.Code == sexUnknown || finding.Code == sexNotOfClass {
				questions++
			}
		}
		if questions != test.questions {
			t.Errorf("%d of sex %s: %d questions, want %d", test.number, test.sex, questions, test.questions)
		}
	}
}
