package intake_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"railbook/workbook/sheets/sheetstest/python"
)

// TestRoundTrip has LibreOffice and openpyxl open and save every layout, and reads what they saved: the reading must be
// the same, as .xlsx and as .csv.
func TestRoundTrip(t *testing.T) {
	if testing.Short() {
		t.Skip("LibreOffice takes its time")
	}
	files, err := filepath.Glob(filepath.Join(layouts, "*.xls?"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no layouts: %v", err)
	}
	files = slices.DeleteFunc(files, ofOffice)
	files = without(files, "never-calculated.xlsx") // it would come back calculated
	oneSheet := without(files,
		"sheet-per-class.xlsx", "species-sheets.xlsx", "tag-history.xlsx", "roster-notations.xlsx", "office-extras.xlsx", // a text file holds one sheet
		"electronic-tags.xlsx", // and of an electronic tag shown as 8.4E+14 only what is shown
		"merged-cells.xlsx")    // and no merged cells
	for _, trip := range []struct {
		name    string
		through func(t *testing.T, folder string, files []string)
		files   []string
		ending  string
	}{
		{"LibreOffice xlsx", throughLibreOffice("xlsx"), files, ".xlsx"},
		{"LibreOffice csv", throughLibreOffice(`csv:Text - txt - csv (StarCalc):44,34,76`), oneSheet, ".csv"},
		{"openpyxl", throughOpenpyxl, files, ".xlsx"},
	} {
		t.Run(trip.name, func(t *testing.T) {
			folder := t.TempDir()
			trip.through(t, folder, trip.files)
			for _, file := range trip.files {
				stem := strings.TrimSuffix(filepath.Base(file), filepath.Ext(file))
				t.Run(stem, func(t *testing.T) {
					lines := slices.DeleteFunc(expectedLines(t, filepath.Join(layouts, stem+".expected.csv")), func(line expectedLine) bool {
						return trip.ending == ".csv" && line.measure == "finding" // the sheet has another name there
					})
					compareLayout(t, filepath.Join(folder, stem+trip.ending), lines)
				})
			}
		})
	}
}

func without(files []string, names ...string) []string {
	return slices.DeleteFunc(slices.Clone(files), func(file string) bool { return slices.Contains(names, filepath.Base(file)) })
}

func throughLibreOffice(format string) func(t *testing.T, folder string, files []string) {
	return func(t *testing.T, folder string, files []string) {
		needTool(t, "soffice", "libreoffice-calc")
		convert := exec.Command("soffice", append([]string{
			"-env:UserInstallation=file://" + filepath.ToSlash(t.TempDir()),
			"--headless", "--convert-to", format, "--outdir", folder,
		}, files...)...)
		if said, err := convert.CombinedOutput(); err != nil {
			t.Fatalf("LibreOffice: %v\n%s", err, said)
		}
	}
}

func throughOpenpyxl(t *testing.T, folder string, files []string) {
	const resave = `
import os, sys
from openpyxl import load_workbook
for path in sys.argv[2:]:
    load_workbook(path, data_only=True).save(os.path.join(sys.argv[1], os.path.splitext(os.path.basename(path))[0] + ".xlsx"))
`
	if _, err := python.Find(); err != nil {
		needTool(t, "a Python with openpyxl", "python3-openpyxl")
	}
	python.Run(t, resave, append([]string{folder}, files...)...)
}

// needTool skips the test where a program is missing, but fails it where CI is set.
func needTool(t *testing.T, program, install string) {
	t.Helper()
	if _, err := exec.LookPath(program); err == nil {
		return
	}
	if os.Getenv("CI") != "" {
		t.Fatalf("%s is missing: install %s", program, install)
	}
	t.Skipf("needs %s: install %s", program, install)
}
