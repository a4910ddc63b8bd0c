package sheetstest

import (
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"railbook/workbook/xlsx"
)

// Saved writes a workbook's bytes into a file.
func Saved(t *testing.T, data []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "fair-results.xlsx")
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// Resaved opens workbooks in LibreOffice and saves them again. Their names differ: LibreOffice, whose start takes seconds, is started once.
func Resaved(t *testing.T, format string, paths ...string) (saved []string) {
	t.Helper()
	folder := t.TempDir()
	command := exec.Command("soffice", "-env:UserInstallation=file://"+t.TempDir(), "--headless", "--convert-to", format, "--outdir", folder)
	command.Args = append(command.Args, paths...)
	if output, err := command.CombinedOutput(); err != nil {
		t.Fatalf("soffice: %v\n%s", err, output)
	}
	for _, path := range paths {
		saved = append(saved, filepath.Join(folder, strings.TrimSuffix(filepath.Base(path), filepath.Ext(path))+"."+format))
	}
	return saved
}

// Recalculated saves a workbook with LibreOffice, every formula calculated anew.
func Recalculated(t *testing.T, path string) string {
	t.Helper()
	return RecalculatedAll(t, []string{path})[0]
}

// RecalculatedAll does so with several, which have names of their own, in one start of LibreOffice.
func RecalculatedAll(t *testing.T, paths []string) (saved []string) {
	t.Helper()
	if testing.Short() {
		t.Skip("LibreOffice takes seconds")
	}
	office, err := exec.LookPath("soffice")
	if err != nil {
		t.Skip("no LibreOffice here")
	}
	profile, folder := t.TempDir(), t.TempDir()
	const settings = `<?xml version="1.0" encoding="UTF-8"?><oor:items xmlns:oor="http://openoffice.org/2001/registry">` +
		`<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item></oor:items>`
	if err := os.MkdirAll(filepath.Join(profile, "user"), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(profile, "user", "registrymodifications.xcu"), []byte(settings), 0o600); err != nil {
		t.Fatal(err)
	}
	command := exec.Command(office, "-env:UserInstallation=file://"+profile, "--headless", "--convert-to", "xlsx", "--outdir", folder)
	command.Args = append(command.Args, paths...)
	if output, err := command.CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, output)
	}
	for _, path := range paths {
		saved = append(saved, filepath.Join(folder, filepath.Base(path)))
	}
	return saved
}

func Alike(a, b xlsx.Cell) bool {
	if a.Kind != xlsx.Number {
		return a.Raw == b.Raw
	}
	x, errX := strconv.ParseFloat(a.Raw, 64)
	y, errY := strconv.ParseFloat(b.Raw, 64)
	return errX == nil && errY == nil && math.Abs(x-y) <= 1e-9*math.Max(1, math.Abs(x))
}

// BlankBook is a fair's workbook with nothing on its one sheet.
func BlankBook(t Tester) *xlsx.Book {
	t.Helper()
	draft := xlsx.NewDraft()
	if _, err := draft.NewSheet("Kill sheet", ""); err != nil {
		t.Fatal(err)
	}
	data, err := draft.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	book, err := xlsx.OpenBytes("county-fair.xlsx", data, xlsx.OpenOptions{})
	if err != nil {
		t.Fatal(err)
	}
	return book
}

// Tester is what a test, a benchmark and a property have in common.
type Tester interface {
	Helper()
	Fatal(...any)
}

// openpyxl reads the workbook as it stands, and so every sheet, link, drop-down, chart and protection of ours.
const AsOpenpyxlSeesIt = `
import sys, openpyxl
book = openpyxl.load_workbook(sys.argv[1])
for sheet in book.worksheets:
    links = sum(1 for row in sheet.iter_rows() for cell in row if cell.hyperlink)
    print(sheet.title, len(sheet._charts), links, len(sheet.data_validations.dataValidation), sheet.protection.sheet,
          sheet.page_setup.paperSize, sheet.print_title_rows, sheet.sheet_properties.pageSetUpPr.fitToPage if sheet.sheet_properties.pageSetUpPr else None, sep="|")
`
