package workbook

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"railbook/workbook/intake"
	"railbook/workbook/record"
)

// Whatever a file is called and whatever its cells hold, its results are read again as they were written: nothing of them seems to
// have been changed since.
func TestResultsOfOddFilesAreReadAgainAsTheyAre(t *testing.T) {
	whole := partsOfFile(t, smallFair(t))
	sheet := func(old, new string) map[string]string {
		parts := map[string]string{}
		for name, text := range whole {
			parts[name] = strings.Replace(text, old, new, 1)
		}
		return parts
	}
	for name, parts := range map[string]map[string]string{
		"\x1b[31mred \x07.xlsx":    whole,
		"no letter \xff.xlsx":      whole,
		"no character \ufffe.xlsx": whole,
		"turned \u202eround.xlsx":  whole,
		"two\nlines.xlsx":          whole,
		"long name.xlsx":           sheet("Exhibitor C", strings.Repeat("Zyndra ", 9000)),
		"merged.xlsx":              sheet("</sheetData>", `</sheetData><mergeCells count="1"><mergeCell ref="A3:XFD3"/></mergeCells>`),
	} {
		t.Run(strings.ToValidUTF8(name, ""), func(t *testing.T) {
			path := filepath.Join(t.TempDir(), name)
			if err := os.WriteFile(path, packageOf(t, parts), 0o600); err != nil {
				t.Skipf("this system has no such names: %v", err)
			}
			first, err := Grade(path, Options{})
			if err != nil {
				t.Fatal(err)
			}
			again, err := Grade(first.Path, Options{})
			if err != nil || !again.Same {
				t.Fatalf("graded again: %+v, %v", again, err)
			}
		})
	}
}

// A roster that the results keep and that can't be read any more is said with what keeps it, and can be named anew.
func TestAKeptRosterThatCannotBeRead(t *testing.T) {
	roster := filepath.Join(t.TempDir(), "entries.csv")
	if err := os.WriteFile(roster, []byte("Tag,Exhibitor\nA101,Zyndra Qorblat\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	work, err := checked(smallFair(t), Options{Rosters: []string{roster}})
	if err != nil {
		t.Fatal(err)
	}
	work.previous = &intake.Previous{Carried: []record.Carried{{Role: record.RosterRole, Name: "entries.csv"}}}
	work.options.Rosters = nil
	err = work.openAttached()
	if err == nil || !strings.Contains(err.Error(), "small.xlsx keeps the roster that was read beside it") || !strings.Contains(err.Error(), "--roster") {
		t.Errorf("%v", err)
	}
	work.options.Rosters = []string{roster}
	if err := work.openAttached(); err != nil {
		t.Errorf("named anew: %v", err)
	}
}
