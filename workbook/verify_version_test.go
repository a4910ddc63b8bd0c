package workbook

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"railbook/rules"
	"railbook/workbook/record"
)

// A newer program may check more and say it in other words: whoever verifies is told that the program is another one.
func TestVerifyingWithAnotherVersionSaysSo(t *testing.T) {
	path := signedFair(t)
	edit(t, path, path, func(file *excelize.File) { put(t, file, "Sheet1", "E5", 799) })
	for version, want := range map[string]bool{"": false, "9.9.9": true} {
		found, err := Verify(path, Options{Version: version})
		if err != nil {
			t.Fatal(err)
		}
		if words := found.Report(); strings.Contains(words, "version 9.9.9") != want {
			t.Errorf("verified with version %q:\n%s", version, words)
		}
	}
}

// Of a workbook that an older version signed, what was changed since is said by its cell, and nothing that only this version would
// write or ask otherwise.
func TestAWorkbookSignedByAnOlderVersionIsCompared(t *testing.T) {
	kept := filepath.Join("..", "testdata", "kept", "fair-signed.xlsx")
	for name, row := range map[string]struct {
		change func(t *testing.T, file *excelize.File) rules.Place
		words  string
	}{
		"nothing": {func(*testing.T, *excelize.File) rules.Place { return rules.Place{} }, ""},
		"a value": {func(t *testing.T, file *excelize.File) rules.Place {
			put(t, file, "Rail sheet", "G9", 14.6)
			return rules.Place{Sheet: "Rail sheet", Cell: "G9"}
		}, `is now "14.6"`},
		"a remark of the judge": {func(t *testing.T, file *excelize.File) rules.Place {
			for _, decided := range reviewRows(t, file) {
				if decided.at(record.DecisionColumn) == "correct to" {
					decided.write(map[string]string{record.RemarkColumn: "typed later"})
					return rules.Place{Sheet: record.JudgeReviewSheet}
				}
			}
			t.Fatal("nothing was corrected")
			return rules.Place{}
		}, "typed later"},
		"a price of the grid": {func(t *testing.T, file *excelize.File) rules.Place {
			cells, err := file.SearchSheet(record.ValueGridSheet, "Prime")
			if err != nil || len(cells) == 0 {
				t.Fatal(cells, err)
			}
			put(t, file, record.ValueGridSheet, "F"+strings.TrimLeft(cells[0], "ABC"), 19)
			return rules.Place{}
		}, `is now "19"`},
	} {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "signed.xlsx")
			var at rules.Place
			edit(t, kept, path, func(file *excelize.File) { at = row.change(t, file) })
			found, err := Verify(path, Options{Version: "9.9.9"})
			if err != nil {
				t.Fatal(err)
			}
			words := found.Report()
			if !strings.Contains(words, "another version of this program") {
				t.Errorf("it is not said that another version signed it:\n%s", words)
			}
			switch {
			case row.words == "" && len(found.Differences) > 0, row.words != "" && len(found.Differences) != 1:
				t.Errorf("%d differences:\n%s", len(found.Differences), words)
			case row.words != "" && !strings.Contains(found.Differences[0].Message, row.words):
				t.Errorf("want %q:\n%s", row.words, words)
			case at.Sheet != "" && (found.Differences[0].At.Sheet != at.Sheet || at.Cell != "" && found.Differences[0].At != at):
				t.Errorf("want %v:\n%s", at, words)
			}
		})
	}
}
