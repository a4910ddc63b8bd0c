package intake

import (
	"strings"
	"testing"

	"railbook/rules"
	"railbook/rules/measure"
)

// TestOneThingInTwoCells holds what is read where a column's values, and those beside it, tell what it is: degrees of marbling
// and the place within them, maturities beside the skeletal one, the two parts of a name, a score of a goat's fat cover, a
// line of zeros (common practice).
func TestOneThingInTwoCells(t *testing.T) {
	for name, test := range map[string]struct {
		species      rules.Species
		sheet, reads string
	}{
		"degree and place":          {rules.Beef, "Tag|HCW|Fat|Marb degree|Amt\n1|812|.4|Small|30\n2|801|.4|Slight|0", "marbling=Small 30; marbling=Slight 00"},
		"a place of one digit":      {rules.Beef, "Tag|HCW|Fat|Marbling|Amt\n1|812|.4|Small|30\n2|801|.4|Slight|5", "marbling=Small 30; marbling=?"},
		"a price behind the degree": {rules.Beef, "Tag|HCW|Fat|Marbling|Price\n1|812|.4|Small|30\n2|801|.4|Slight|20", "marbling=Small 50; marbling=Slight 50"},
		"more than a place":         {rules.Beef, "Tag|HCW|Fat|Marbling|Amt\n1|812|.4|Small|30\n2|801|.4|Slight|120", "marbling=Small 50; marbling=Slight 50"},
		"maturities":                {rules.Beef, "Tag|HCW|Fat|Skel|Lean|Overall\n1|812|.4|A60|A50|A55", "maturity=A55 skeletal-maturity=A60 lean-maturity=A50"},
		"lean of another kind":      {rules.Beef, "Tag|HCW|Fat|Skel|Lean\n1|812|.4|A60|52.1", "skeletal-maturity=A60"},
		"lean without skeletal":     {rules.Beef, "Tag|HCW|Fat|Lean\n1|812|.4|A50", ""},
		"first and last":            {rules.Beef, "Tag|HCW|Fat|Last|First\n1|812|.4|Quill|Ada", "exhibitor=Ada Quill"},
		"first alone":               {rules.Beef, "Tag|HCW|Fat|First|Second\n1|812|.4|Quill|Ada", ""},
		"a score of fat cover":      {rules.Goat, "Tag|HCW|REA|Fat cover\n1|42|2.1|2\n2|40|2.0|1", "fat-cover=2; fat-cover=1"},
		"fat cover in inches":       {rules.Goat, "Tag|HCW|REA|Fat cover\n1|42|2.1|.08\n2|40|2.0|1", "measured-fat=0.08; measured-fat=1"},
		"nothing but zeros":         {rules.Beef, "Tag|HCW|Fat|KPH\n1|812|.4|2\n2|0|0|0", "hot-carcass-weight=812 measured-fat=0.4 kidney,-pelvic-and-heart-fat=2"},
		"one zero":                  {rules.Beef, "Tag|HCW|KPH\n1|812|2\n2|800|0", "kidney,-pelvic-and-heart-fat=2; kidney,-pelvic-and-heart-fat=0"},
		"a full stop":               {rules.Beef, "Tag|HCW|Fat\n1|'812.|.4\n2|'812..|.4", "hot-carcass-weight=812; hot-carcass-weight=?"},
		"the same exhibitor":        {rules.Beef, "Tag|Exhibitor|HCW|Fat\n1|Ada Quill|812|.4\n2|same|800|.4", "exhibitor=Ada Quill; exhibitor=?"},
	} {
		var got []string
		for _, line := range strings.Split(tell(readSheets(t, Options{Species: test.species}, sheetOf("Sheet1", test.sheet))), "\n") {
			_, readings, isCarcass := strings.Cut(line, ":")
			if !isCarcass {
				continue
			}
			var wanted []string
			for _, text := range splitReadings(readings) {
				if id, _, _ := strings.Cut(text, "="); strings.Contains(test.reads, id+"=") || !strings.Contains(commonReadings, id) {
					wanted = append(wanted, text)
				}
			}
			if len(wanted) > 0 {
				got = append(got, strings.Join(wanted, " "))
			}
		}
		if got := strings.Join(got, "; "); got != test.reads {
			t.Errorf("%s: %q, want %q", name, got, test.reads)
		}
	}
}

// commonReadings are what every sheet here has, and what is looked at only where a row names it.
const commonReadings = "hot-carcass-weight measured-fat ribeye-area"

// splitReadings parts "a=1 2 b=3" before each word that has a value.
func splitReadings(line string) (list []string) {
	for _, word := range strings.Fields(line) {
		if strings.Contains(word, "=") || len(list) == 0 {
			list = append(list, word)
			continue
		}
		list[len(list)-1] += " " + word
	}
	return list
}

// TestColumnWithoutAHeading holds that a column without a heading whose values alone can be a measure is offered for it.
func TestColumnWithoutAHeading(t *testing.T) {
	for _, test := range []struct{ first, second, cell string }{
		{"13.1", "note", "D1"}, {"13.1", "12.9", ""}, {"31.1", "note", ""},
	} {
		result := readSheets(t, Options{Species: rules.Beef}, sheetOf("Steers", "Tag|HCW|Fat|||KPH\n101|812|.4|"+test.first+"|"+test.second+"|2\n102|801|.4|"+test.first+"|"+test.second+"|2"))
		if got := result.Blocks[0].Unheaded[measure.RibeyeArea]; got != test.cell {
			t.Errorf("%s and %s: %q, want %q", test.first, test.second, got, test.cell)
		}
	}
}
