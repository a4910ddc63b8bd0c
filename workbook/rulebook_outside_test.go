package workbook

import (
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"railbook/rules"
	"railbook/workbook/sheets/sheetstest/python"
)

// A board edits the rulebook in whatever spreadsheet program it has: LibreOffice saves it and nothing of it is lost.
func TestRulebookSavedByLibreOfficeIsTheSame(t *testing.T) {
	t.Parallel()
	if testing.Short() {
		t.Skip("starts LibreOffice")
	}
	path := newRulebook(t, "rulebook.xlsx", "")
	saved := t.TempDir()
	profile := "-env:UserInstallation=file://" + filepath.ToSlash(filepath.Join(t.TempDir(), "profile"))
	convert := exec.Command("soffice", profile, "--headless", "--convert-to", "xlsx", "--outdir", saved, path)
	if words, err := convert.CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, words)
	}
	book, faults, err := LoadRulebook(filepath.Join(saved, "rulebook.xlsx"), Options{})
	if err != nil || book == nil || len(faults) > 0 {
		t.Fatal(err, faults)
	}
	if book.SHA256 != rules.Default().SHA256 {
		t.Error("the rulebook is another one after LibreOffice saved it")
	}
}

// openpyxl finds the sheets in order, numbers as numbers, and drop-downs on the cells with few right answers.
func TestRulebookReadByOpenpyxl(t *testing.T) {
	script := `
import openpyxl, sys
book = openpyxl.load_workbook(sys.argv[1])
print(",".join(book.sheetnames))
grid = book["Value grid"]
print(grid["H5"].value, grid["H5"].number_format, grid["A5"].value)
rules = {str(r.sqref): r.formula1 for r in grid.data_validations.dataValidation}
print(rules["B5:B304"])
print({str(r.sqref): r.formula1 for r in book["Limits"].data_validations.dataValidation}["B5:B304"].split("!")[0])
print(grid.print_title_rows, grid.page_setup.paperSize, grid.freeze_panes)
`
	words := python.Run(t, script, newRulebook(t, "rulebook.xlsx", ""))
	want := `Guide,Settings,Value grid,Limits,Classes,Ranking,Eligibility,Groups,Awards,Points,Headings,Targets,Premiums,Price matrix,Measures
17.54 +0.00_);-0.00_);0.00_) beef
"quality,yield,weight,condition"
Measures
$4:$4 1 A5
`
	if got := strings.ReplaceAll(words, "\r", ""); got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}
