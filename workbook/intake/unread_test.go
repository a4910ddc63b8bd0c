package intake

import (
	"strings"
	"testing"

	"railbook/rules"
)

// TestColumnsLeftUnread holds from when on a heading is taken to mean something else: nothing below it can be read, at least
// two cells say so, and none looks like a slip of the pen.
func TestColumnsLeftUnread(t *testing.T) {
	tests := []struct{ heading, cells, said string }{
		{"Grade", "7,11", "look column not read"},
		{"Grade", "7", "look cells left blank"},
		{"Grade", "7,Choice", "look cells left blank"},
		{"DC", "bruise,arthritis", "look column not read"},
		{"DC", "bruise,no", "hold unreadable value"},
		{"REA", "large,small", "look column not read"},
		{"REA", "l3.1,large", "hold unreadable value; hold unreadable value"},
		{"REA", "#DIV/0!,#DIV/0!", "hold unreadable value; hold unreadable value"},
		{"YG", "two", "look cells left blank"},
	}
	for _, test := range tests {
		sheet := "Tag|HCW|Fat|KPH|" + test.heading + "\n"
		for i, text := range strings.Split(test.cells, ",") {
			sheet += strings.Repeat("1", i+1) + "|812|.45|2|" + text + "\n"
		}
		var said []string
		for _, finding := range readSheets(t, Options{}, sheetOf("Steers", sheet)).Findings {
			if finding.Level != "note" {
				said = append(said, string(finding.Level)+" "+finding.Code)
			}
		}
		if got := strings.Join(said, "; "); got != test.said {
			t.Errorf("%s under %q: %s, want %s", test.cells, test.heading, got, test.said)
		}
	}
}

// TestBlankColumns holds that a blank column parts two tables where each has a tag or weight and measures stand twice, and
// that it parts nothing else.
func TestBlankColumns(t *testing.T) {
	tests := []struct {
		headings string
		tables   int
	}{
		{"Tag|HCW|Fat|REA||HCW|Fat|REA|Tag", 2},
		{"Tag|Class||HCW|Fat||REA|KPH", 1},
		{"Tag|Class||HCW|Fat||HCW|Fat|Tag", 2},
		{"Tag|HCW|Fat||Rail #|REA|KPH", 1},
		{"Tag|HCW|Fat|Tag|HCW|Fat", 2},
		{"Tag|HCW|Fat||Tag|HCW|Fat||Tag|HCW|Fat", 3},
	}
	for _, test := range tests {
		found := findTables(sheetOf("Steers", test.headings), newVocabulary(rules.Default(), nil))
		if len(found) != test.tables {
			t.Errorf("%s: %d tables, want %d", test.headings, len(found), test.tables)
		}
	}
}
