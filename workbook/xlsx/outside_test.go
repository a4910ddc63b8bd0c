package xlsx

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"railbook/rules/address"
	"railbook/workbook/sheets/sheetstest/python"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"
)

// readOutside reads every cell of a workbook with openpyxl: its value or formula, its format and its look.
func readOutside(t *testing.T, path string) map[string]string {
	t.Helper()
	return readAllOutside(t, []string{path})[0]
}

// readAllOutside reads several workbooks with one start of openpyxl.
func readAllOutside(t *testing.T, paths []string) (cells []map[string]string) {
	t.Helper()
	interpreter, err := python.Find()
	if err != nil {
		t.Skip(err)
	}
	const script = `
import json, sys, openpyxl, warnings
warnings.simplefilter("ignore")
def read(path):
    book = openpyxl.load_workbook(path)
    cells = {}
    for sheet in book.worksheets:
        for row in sheet.iter_rows():
            for cell in row:
                if cell.value is not None or cell.has_style:
                    cells[sheet.title + "!" + cell.coordinate] = repr((cell.value, cell.data_type, cell.number_format,
                        cell.font.name, cell.font.sz, cell.font.b, cell.fill.fgColor.rgb, cell.border.bottom.style,
                        cell.alignment.wrap_text, cell.protection.locked, cell.comment.text if cell.comment else None))
        cells[sheet.title + "!"] = repr((str(sheet.merged_cells), sheet.freeze_panes, sorted(sheet.tables), len(sheet._images), len(sheet._charts)))
    return cells
print(json.dumps([read(path) for path in sys.argv[1:]]))`
	command := exec.Command(interpreter, append([]string{"-c", script}, paths...)...)
	command.Stderr = os.Stderr
	output, err := command.Output()
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(output, &cells); err != nil {
		t.Fatal(err)
	}
	return cells
}

// resave opens workbooks in LibreOffice, calculates them anew and saves them, with one start of it. Their names differ.
func resave(t *testing.T, paths ...string) (saved []string) {
	t.Helper()
	if testing.Short() {
		t.Skip("LibreOffice takes seconds")
	}
	office, err := exec.LookPath("soffice")
	if err != nil {
		t.Skip("no LibreOffice here")
	}
	profile, folder := t.TempDir(), t.TempDir()
	settings := `<?xml version="1.0" encoding="UTF-8"?><oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">` +
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

// richWorkbook makes a workbook with all that a fair's workbook may carry, under part names that are not the usual ones.
func richWorkbook(t *testing.T) []byte {
	t.Helper()
	file := excelize.NewFile()
	do := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	sheet := `O'Neil & "Söhne" <1>`
	do(file.SetSheetName("Sheet1", sheet))
	_, err := file.NewSheet("placings")
	do(err)
	for row := 1; row <= 8; row++ {
		do(file.SetSheetRow(sheet, address.Cell(1, row), &[]any{fmt.Sprintf("%04d", row), 800.5 + float64(row), "x", row%2 == 0}))
	}
	style, err := file.NewStyle(&excelize.Style{Font: &excelize.Font{Bold: true, Family: "Arial", Size: 9}, Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"CCE5FF"}}, NumFmt: 10})
	do(err)
	do(file.SetCellStyle(sheet, "A1", "C2", style))
	do(file.SetCellFormula(sheet, "B9", "SUM(E2:E8)"))
	do(file.AddComment(sheet, excelize.Comment{Cell: "A2", Author: "Plant", Text: "weighed twice"}))
	do(file.AddTable(sheet, &excelize.Table{Range: "A1:D8", Name: "rail"}))
	do(file.AddChart("placings", "B2", &excelize.Chart{Type: excelize.Col, Series: []excelize.ChartSeries{{Values: "'O''Neil & \"Söhne\" <1>'!$B$2:$B$8"}}}))
	validation := excelize.NewDataValidation(true)
	validation.SetSqref("C2:C8")
	do(validation.SetDropList([]string{"x", "y"}))
	do(file.AddDataValidation(sheet, validation))
	format, err := file.NewConditionalStyle(&excelize.Style{Font: &excelize.Font{Color: "FF0000"}})
	do(err)
	do(file.SetConditionalFormat(sheet, "B2:B8", []excelize.ConditionalFormatOptions{{Type: "cell", Criteria: ">", Value: "804", Format: &format}}))
	do(file.SetDefinedName(&excelize.DefinedName{Name: "weights", RefersTo: `'O''Neil & "Söhne" <1>'!$B$2:$B$8`}))
	do(file.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", RefersTo: "placings!$1:$1", Scope: "placings"}))
	do(file.SetPanes(sheet, &excelize.Panes{Freeze: true, YSplit: 1, TopLeftCell: "A2", ActivePane: "bottomLeft"}))
	buffer, err := file.WriteToBuffer()
	do(err)
	all, err := unpack("rich.xlsx", bytes.NewReader(buffer.Bytes()), int64(buffer.Len()), nil)
	do(err)
	parts := map[string]string{}
	for name, data := range all.parts {
		renamed := strings.NewReplacer("sheet1.xml", "sheet3.xml", "chart1.xml", "chart2.xml", "drawing1.xml", "drawing2.xml", "tables/table1.xml", "tables/table2.xml")
		parts[renamed.Replace(name)] = renamed.Replace(string(data))
	}
	return pack(t, parts)
}

// gradeRich adds columns and sheets to the rich workbook.
func gradeRich(t *testing.T, data []byte) *Book {
	t.Helper()
	book := open(t, data)
	appended := block(book.Sheets()[0].Name, 6, 1, 8)
	appended.Row = func(row int) []NewCell {
		grid := []NewCell{
			{Formula: fmt.Sprintf("ROUND(B%d*2,6)", row), Shape: "plain", Kind: Number, Value: fmt.Sprint(2 * (800.5 + float64(row)))},
			{Formula: fmt.Sprintf(`IF(B%d<>0,"A & B","")`, row), Kind: Text, Value: "A & B"},
			{Kind: Text, Value: "look"},
		}
		return grid
	}
	if err := book.Append(appended); err != nil {
		t.Fatal(err)
	}
	taken, err := book.NewSheet("Placings", "railbook_sheet_placings")
	if err != nil {
		t.Fatal(err)
	}
	if taken != "Placings (2)" {
		t.Errorf("the new sheet is called %q", taken)
	}
	if err := book.Draft().AddChart(taken, "B2", Chart{Series: []Series{{Up: "placings!$B$2:$B$8", Colour: "262626"}}}); err != nil {
		t.Fatal(err)
	}
	writeRow(t, book, taken, "Place", "Tag")
	return book
}

// Another library reads every cell of the input unchanged in the output, and what is new is there.
func TestNothingOfTheUsersIsLost(t *testing.T) {
	data := richWorkbook(t)
	before := readOutside(t, save(t, "rich.xlsx", data))
	book := gradeRich(t, data)
	path := filepath.Join(t.TempDir(), "rich-results.xlsx")
	if err := saveAs(book, path); err != nil {
		t.Fatal(err)
	}
	after := readOutside(t, path)
	for cell, was := range before {
		if after[cell] != was {
			t.Errorf("%s was %s, is %s", cell, was, after[cell])
		}
	}
	sheet := book.Sheets()[0].Name
	for cell, want := range map[string]string{"F2": "'=ROUND(B2*2,6)'", "G2": `'=IF(B2<>0,"A & B","")'`, "H8": "'look'"} {
		if got := after[sheet+"!"+cell]; !strings.HasPrefix(got, "("+want) {
			t.Errorf("%s is %s, want %s", cell, got, want)
		}
	}
	results, err := Open(path, OpenOptions{})
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(map[string]string{"railbook_sheet_placings": "Placings (2)"}, results.Ours()); diff != "" {
		t.Error(diff)
	}
	if found, err := results.Strip(); !found || err != nil {
		t.Fatal(found, err)
	}
	stripped := filepath.Join(t.TempDir(), "stripped.xlsx")
	if err := saveAs(results, stripped); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(before, readOutside(t, stripped)); diff != "" {
		t.Error(diff)
	}
	original := open(t, data)
	for _, sheet := range original.sheets {
		if diff := cmp.Diff(string(original.contents.parts[sheet.part]), string(results.contents.parts[sheet.part])); diff != "" {
			t.Errorf("%s: %s", sheet.part, diff)
		}
	}
}

// LibreOffice opens the results, calculates every formula to the cached value, and what it saves can be stripped too.
func TestLibreOfficeAgreesAndResavesWhatCanBeStripped(t *testing.T) {
	data := richWorkbook(t)
	book := gradeRich(t, data)
	sheet := book.Sheets()[0].Name
	path := filepath.Join(t.TempDir(), "rich-results.xlsx")
	if err := saveAs(book, path); err != nil {
		t.Fatal(err)
	}
	ours, err := Open(path, OpenOptions{})
	if err != nil {
		t.Fatal(err)
	}
	again, err := Open(resave(t, path)[0], OpenOptions{})
	if err != nil {
		t.Fatal(err)
	}
	// LibreOffice writes TRUE as the formula TRUE().
	plain := cmp.Transformer("plain", func(cell Cell) string {
		return fmt.Sprint(cell.Column, cell.Kind, cell.Raw, cell.Formula && cell.Kind != Bool)
	})
	if diff := cmp.Diff(grid(t, ours, sheet).Rows[:8], grid(t, again, sheet).Rows[:8], plain); diff != "" {
		t.Error(diff)
	}
	if found, err := again.Strip(); !found || err != nil {
		t.Fatal(found, err)
	}
	if diff := cmp.Diff(grid(t, open(t, data), sheet).Rows[:8], grid(t, again, sheet).Rows[:8], plain); diff != "" {
		t.Error(diff)
	}
	if text := string(again.contents.parts[again.sheets[0].part]); strings.Contains(text, "railbook") {
		t.Error("a rule of ours is left")
	}
	if len(again.Sheets()) != 2 {
		t.Errorf("sheets: %v", again.Sheets())
	}
}
