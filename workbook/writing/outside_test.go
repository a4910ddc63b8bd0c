package writing

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"railbook/workbook/parts"
	"railbook/workbook/reading"
)

// saved writes a workbook's bytes into a file.
func saved(t *testing.T, data []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "fair-results.xlsx")
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// resaved opens a workbook in LibreOffice and saves it again.
func resaved(t *testing.T, path, format string) string {
	t.Helper()
	folder := t.TempDir()
	command := exec.Command("soffice", "-env:UserInstallation=file://"+t.TempDir(), "--headless", "--convert-to", format, "--outdir", folder, path)
	if output, err := command.CombinedOutput(); err != nil {
		t.Fatalf("soffice: %v\n%s", err, output)
	}
	return filepath.Join(folder, strings.TrimSuffix(filepath.Base(path), filepath.Ext(path))+"."+format)
}

func TestWhatLibreOfficeSavesAgainIsReadBack(t *testing.T) {
	if testing.Short() {
		t.Skip("starts LibreOffice")
	}
	results := fairResults(t)
	results.Decisions[2].Message = "The judge's own call."
	book, err := parts.Open(resaved(t, saved(t, writeAll(t, results)), "xlsx"), parts.OpenOptions{})
	if err != nil {
		t.Fatal(err)
	}
	previous, err := reading.ReadPrevious(book)
	if err != nil {
		t.Fatal(err)
	}
	if diff := sameAsWritten(results, previous); diff != "" {
		t.Error(diff)
	}
}

// openpyxl reads the workbook as it stands, and so every sheet, link, drop-down, chart and protection of ours.
const asOpenpyxlSeesIt = `
import sys, openpyxl
book = openpyxl.load_workbook(sys.argv[1])
for sheet in book.worksheets:
    links = sum(1 for row in sheet.iter_rows() for cell in row if cell.hyperlink)
    print(sheet.title, len(sheet._charts), links, len(sheet.data_validations.dataValidation), sheet.protection.sheet,
          sheet.page_setup.paperSize, sheet.print_title_rows, sheet.sheet_properties.pageSetUpPr.fitToPage if sheet.sheet_properties.pageSetUpPr else None, sep="|")
`

func TestAnotherLibraryReadsOurSheets(t *testing.T) {
	if testing.Short() {
		t.Skip("starts Python")
	}
	path := saved(t, writeAll(t, fairResults(t)))
	output := runPython(t, asOpenpyxlSeesIt, path)
	for _, want := range []string{
		"Placings|0|0|0|False|1|$4:$4|True",
		"Draft reasons|0|0|0|True|1|$1:$3|True",
		"Judge review|0|4|",
		"Error log|0|5|0|False|1|$5:$5|True",
		"Summary|4|0|0|False|1|$1:$1|True",
		"Value grid|0|0|0|False|1|",
		"Change record|0|1|0|True|1|$3:$3|True",
		"Readings|0|0|0|True|1|$4:$4|True",
		"Run record|0|0|0|True|1|",
	} {
		if !strings.Contains(output, want) {
			t.Errorf("no sheet is %q in\n%s", want, output)
		}
	}
}

// runPython runs a script with a Python that has openpyxl.
func runPython(t *testing.T, script string, arguments ...string) string {
	t.Helper()
	for _, python := range []string{"python3", "/usr/bin/python3"} {
		if exec.Command(python, "-c", "import openpyxl").Run() != nil {
			continue
		}
		output, err := exec.Command(python, append([]string{"-c", script}, arguments...)...).CombinedOutput()
		if err != nil {
			t.Fatalf("%s: %v\n%s", python, err, output)
		}
		return string(output)
	}
	t.Fatal("no Python with openpyxl is here: install the package python3-openpyxl")
	return ""
}
