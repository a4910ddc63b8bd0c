package intake

import (
	"strings"
	"testing"
)

// TestBlankClasses holds which blanks in a column of classes are the same as above: those below a class that is written
// once, and those between two lines of one class. Any other class nobody wrote, and the sheet's name is not taken for it.
func TestBlankClasses(t *testing.T) {
	tests := []struct{ written, classes string }{
		{"A,,B,", "A,A,B,B"},
		{"A,,A,B", "A,A,A,B"},
		{"A,A,,B,B", "A,A,,B,B"},
		{",A,,B", ",A,A,B"},
		{"A,B,A,", "A,B,A,"},
		{"A,,B,,A,", "A,,B,,A,"},
		{",,", "Steers,Steers,Steers"},
	}
	for _, test := range tests {
		sheet := "Tag|HCW|Fat|KPH|Class\n"
		for i, class := range strings.Split(test.written, ",") {
			sheet += strings.Repeat("1", i+1) + "|812|.45|2|" + class + "\n"
		}
		result := readSheets(t, Options{}, sheetOf("Steers", sheet))
		var classes []string
		for _, carcass := range result.Carcasses {
			classes = append(classes, carcass.Class)
		}
		if got := strings.Join(classes, ","); got != test.classes {
			t.Errorf("%s: the classes are %s, want %s", test.written, got, test.classes)
		}
	}
}

// TestShortLines holds which lines between carcasses are their class, by the words that say so.
func TestShortLines(t *testing.T) {
	for text, class := range map[string]string{
		"Market Heifers": "Market Heifers", "Class 2": "Class 2", "Heavyweights B": "", "Light": "Light", "Cooler B": "",
		"Late arrivals": "", "cut line": "", "DISQUALIFIED - ownership": "", "Class: Cooler B": "Cooler B", "Tamarack Meats": "",
	} {
		result := readSheets(t, Options{}, sheetOf("Beef", "Tag|HCW|Fat|REA|KPH|Marbling\n1|812|.45|13|2|430\n"+text+"\n2|801|.4|13|2|420\n"))
		want := class
		if want == "" {
			want = result.Carcasses[0].Class
		}
		if got := result.Carcasses[len(result.Carcasses)-1].Class; got != want {
			t.Errorf("below %q the class is %q, want %q", text, got, want)
		}
	}
}

// TestNotesAboutAnimals holds which notes below a table are asked about: those that name an animal's tag and a condition, or
// speak against publishing its name.
func TestNotesAboutAnimals(t *testing.T) {
	for text, asked := range map[string]bool{
		"* tag 11 was a dark cutter":                 true,
		"* tag 11 no name in the paper":              true,
		"#11 retained":                               true,
		"* tag 11 was a nice one":                    false,
		"* tag 99 was a dark cutter":                 false,
		"* dark cutters lose 11 dollars":             false,
		"Cattle were tagged; tag 11 not dark at all": false,
	} {
		found := false
		for _, finding := range readSheets(t, Options{}, sheetOf("Steers", "Tag|HCW|Fat|KPH\n11|812|.45|2\n12|801|.4|2\n\n"+text)).Findings {
			found = found || finding.Code == "note about an animal"
		}
		if found != asked {
			t.Errorf("%q: asked is %v", text, found)
		}
	}
}
