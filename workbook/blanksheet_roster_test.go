package workbook

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"railbook/rules"

	"github.com/xuri/excelize/v2"
)

// A roster as an entry program's export gives it: names in two columns, two weights, places as people say them.
// Common practice; the names are invented.
const exported = `Tag,First name,Last name,Class,Weigh-in wt,Live wt,Live placing,T-shirt
0412,Rowan,Candlewick,Market steers,812,1244,1st,M
0413,Hazel,Tinderbox,Market steers,790,1210,2,L
0414,Umber,Gatepost,,905,1402,3rd place,S
`

func TestNothingOfAnExportedRosterIsLost(t *testing.T) {
	roster := filepath.Join(t.TempDir(), "roster.csv")
	if err := os.WriteFile(roster, []byte(exported), 0o600); err != nil {
		t.Fatal(err)
	}
	blank, err := WriteBlankSheet(Options{Species: rules.Beef}, SheetOptions{Roster: roster})
	if err != nil {
		t.Fatal(err)
	}
	file, err := excelize.OpenFile(blank.Path)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := file.GetRows(file.GetSheetName(0))
	if err != nil {
		t.Fatal(err)
	}
	under := func(line []string, heading string) string { return line[slices.Index(rows[7], heading)] }
	for i, want := range []struct{ name, live, fair, place string }{
		{"Rowan Candlewick", "1244", "812", "1"},
		{"Hazel Tinderbox", "1210", "790", "2"},
		{"Umber Gatepost", "1402", "905", "3"},
	} {
		line := rows[slices.IndexFunc(rows, func(row []string) bool { return slices.Contains(row, want.name) })]
		got := struct{ name, live, fair, place string }{
			under(line, "Exhibitor"), under(line, "Live weight, lb"), under(line, "Fair weight, lb"), under(line, "Live placing"),
		}
		if got != want {
			t.Errorf("line %d is %+v, want %+v", i+1, got, want)
		}
	}
	warnings := strings.Join(blank.Warnings, "\n")
	for _, words := range []string{"1 entry has no class, though others have one: tag 0414", `"T-shirt" (H1)`} {
		if !strings.Contains(warnings, words) {
			t.Errorf("no warning says %q:\n%s", words, warnings)
		}
	}
	if len(blank.Warnings) != 2 {
		t.Errorf("%d warnings, want 2:\n%s", len(blank.Warnings), warnings)
	}
}
