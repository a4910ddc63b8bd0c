package intake

import (
	"fmt"
	"strings"
	"testing"

	"railbook/rules"
	"railbook/rules/measure"
)

// TestTagByValues holds which column is taken for the tag where no heading says so: text or whole numbers, all different, on
// three lines at least, the leftmost of those that fit.
func TestTagByValues(t *testing.T) {
	tests := []struct{ heading, tags, want string }{
		{"", "1041,1042,1047", "1041 1042 1047"},
		{"No.", "A12,A13,B12", "A12 A13 B12"},
		{"No.", "1041,1042", ""},
		{"No.", "1041,1042,1041", ""},
		{"No.", "10.5,11.5,12.5", ""},
		{"No.", "good,better,best", ""},
	}
	for _, test := range tests {
		sheet := test.heading + "|HCW|Fat|REA|KPH\n"
		for _, tag := range strings.Split(test.tags, ",") {
			sheet += tag + "|812|.45|13.1|2\n"
		}
		r := newReader(rules.Default(), Options{Species: rules.Beef})
		r.scanSheet(sheetOf("Sheet1", sheet), false)
		var tags []string
		if r.countTables(carcassTable) > 0 {
			r.readTables()
			for _, carcass := range r.result.Carcasses {
				tags = append(tags, carcass.Tag)
			}
		}
		if got := strings.Join(tags, " "); got != test.want {
			t.Errorf("%q over %s: tags %q, want %q", test.heading, test.tags, got, test.want)
		}
	}
}

// TestAdjustedFatByValues holds from which size on a column headed "Fat adj" is the adjusted fat: above 0.15 in on most lines.
// An adjustment is rarely more than a tenth or two (common practice).
func TestAdjustedFatByValues(t *testing.T) {
	for values, want := range map[string]measure.ID{
		"0.45,0.3,0.5": measure.AdjustedFat, "0.15,0.15,0.1": measure.FatAdjustment, "0.16,0.16,0": measure.AdjustedFat,
		"0.16,0.1,-0.1": measure.FatAdjustment, "0.45,,": measure.FatAdjustment,
	} {
		sheet := "Tag|HCW|Fat|KPH|Fat adj\n"
		for i, value := range strings.Split(values, ",") {
			sheet += fmt.Sprintf("%d|812|.45|2|%s\n", i+1, value)
		}
		carcass := readSheets(t, Options{}, sheetOf("Steers", sheet)).Carcasses[0]
		if _, ok := carcass.Written(want); !ok {
			t.Errorf("%s was not read as %s", values, want)
		}
	}
}
