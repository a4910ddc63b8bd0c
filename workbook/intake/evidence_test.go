package intake

import (
	"fmt"
	"strings"
	"testing"

	"railbook/rules"
	"railbook/rules/measure"

	"github.com/xrash/smetrics"
	"pgregory.net/rapid"
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
		"0.2,0.2,0.2,0.1,0.1": measure.AdjustedFat, "0.2,0.2,0.2,0.2,0.1,0.1,0.1": measure.FatAdjustment,
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

// TestEnoughValuesFit holds from which share of a column's values on a heading is suggested for it: three of five, not four
// of seven.
func TestEnoughValuesFit(t *testing.T) {
	for values, want := range map[string]bool{
		"13.1,12.9,13.4,torn,lost": true, "13.1,12.9,13.4,13.6,torn,lost,wet": false,
		"13.1,12.9,13.4,131,129": true, "13.1,12.9,13.4,13.6,131,129,134": false, // 131 sq in is beyond what is looked at
	} {
		sheet := "Tag|HCW|Fat|KPH|Ribeye aera\n"
		for i, value := range strings.Split(values, ",") {
			sheet += fmt.Sprintf("%d|812|.45|2|%s\n", i+1, value)
		}
		suggested := false
		for _, finding := range readSheets(t, Options{}, sheetOf("Steers", sheet)).Findings {
			suggested = suggested || finding.Code == HeadingNotRecognised && finding.Measure == measure.RibeyeArea
		}
		if suggested != want {
			t.Errorf("ribeye area suggested for %s: %v, want %v", values, suggested, want)
		}
	}
}

// TestFewestBilingualHeadings holds that one half of a heading is read for the whole where three headings of the sheet stand
// in two languages, and not where two do: two may be anything with a stroke in it.
func TestFewestBilingualHeadings(t *testing.T) {
	for headings, want := range map[string]bool{
		"Tag|HCW|Grasa / Fat|Ojo / REA|Lomo / KPH": true, "Tag|HCW|Grasa / Fat|Ojo / REA|KPH": false,
	} {
		carcass := readSheets(t, Options{Species: rules.Beef}, sheetOf("Steers", headings+"\n101|812|.45|13.1|2\n102|790|.3|12.8|2\n")).Carcasses[0]
		if _, read := carcass.Written(measure.RibeyeArea); read != want {
			t.Errorf("ribeye area read under %s: %v, want %v", headings, read, want)
		}
	}
}

// TestFewestSameTags holds from when on a sheet with other weights for the same tags is asked about: three tags, and four
// fifths of the shorter sheet.
func TestFewestSameTags(t *testing.T) {
	for tags, want := range map[string]bool{
		"1,2": false, "1,2,3": true, "1,2,3,4,95": true, "1,2,3,94": false,
	} {
		first, second := "Tag|Class|HCW|Fat|KPH\n", "Tag|Class|HCW|Fat|KPH\n"
		for i := range 6 {
			first += fmt.Sprintf("%d|Steers|%d|.45|2\n", i+1, 801+i)
		}
		for i, tag := range strings.Split(tags, ",") {
			second += fmt.Sprintf("%s|Steers|%d|.3|2.5\n", tag, 701+i)
		}
		asked := false
		for _, finding := range readSheets(t, Options{}, sheetOf("Rail", first), sheetOf("Cooler", second)).Findings {
			asked = asked || finding.Code == "two sheets of the same carcasses"
		}
		if asked != want {
			t.Errorf("a second sheet with tags %s is asked about: %v, want %v", tags, asked, want)
		}
	}
}

// The library's distance is the measure: a heading that is passed over because of its letters alone is out of reach.
func TestLettersApartIsNeverMoreThanTheDistance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.StringOfN(rapid.SampledFrom([]rune("aabce12é")), 0, 9, -1)
		a, b := word.Draw(t, "a"), word.Draw(t, "b")
		if least, distance := lettersApart(a, b), smetrics.WagnerFischer(a, b, 1, 1, 1); least > distance {
			t.Fatalf("%q and %q: %d letters, distance %d", a, b, least, distance)
		}
	})
	for _, pair := range []struct {
		a, b string
		want int
	}{{"ribeye", "ribeye", 0}, {"ribeye", "rbeye", 1}, {"ribeye", "eyerib", 0}, {"plant", "plat1", 1}, {"", "kph", 3}} {
		if got := lettersApart(pair.a, pair.b); got != pair.want {
			t.Errorf("%q and %q: %d, want %d", pair.a, pair.b, got, pair.want)
		}
	}
}
