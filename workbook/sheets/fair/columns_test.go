package fair

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/address"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/intake"
	"railbook/workbook/record"
	"railbook/workbook/result"
	"railbook/workbook/sheets/sheetstest"
	"railbook/workbook/xlsx"
)

// fromFile does the job up to writing on one workbook.
func fromFile(t testing.TB, path string, book *rules.Rulebook) *result.Results {
	t.Helper()
	opened, err := xlsx.Open(path, xlsx.OpenOptions{})
	if err != nil {
		t.Fatal(err)
	}
	read, err := intake.Read([]*xlsx.Book{opened}, book, intake.Options{})
	if err != nil {
		t.Fatal(err)
	}
	results := &result.Results{Book: opened, Rules: book, Read: read, Findings: read.Findings, Run: record.Run{InputName: filepath.Base(path), Status: record.Provisional}}
	results.Carcasses = result.Graded(read.Carcasses, book)
	batch := &validate.Batch{Book: book}
	for _, carcass := range results.Carcasses {
		batch.Carcasses = append(batch.Carcasses, carcass.Graded)
	}
	results.Findings = append(results.Findings, validate.Check(batch)...)
	results.Gather()
	results.Place()
	return results
}

// written writes the results into a file.
func written(t testing.TB, results *result.Results, name string) string {
	t.Helper()
	if err := Write(results); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), name)
	if err := saveAs(results.Book, path); err != nil {
		t.Fatal(err)
	}
	return path
}

// ours gives every formula cell in the computed columns and on the Graded sheet, by sheet, row and column.
func ours(t *testing.T, path string) map[string]xlsx.Cell {
	t.Helper()
	book, err := xlsx.Open(path, xlsx.OpenOptions{})
	if err != nil {
		t.Fatal(err)
	}
	areas := book.OurColumns()
	if sheet, found := book.Ours()[record.GradedMark]; found {
		areas[sheet] = []xlsx.Range{{FirstColumn: 1, FirstRow: 1, LastColumn: 100, LastRow: 1000}}
	}
	cells := map[string]xlsx.Cell{}
	for sheet, ranges := range areas {
		grid, err := book.Scan(sheet)
		if err != nil {
			t.Fatal(err)
		}
		for _, row := range grid.Rows {
			for _, cell := range row.Cells {
				for _, area := range ranges {
					if row.Number >= area.FirstRow && row.Number <= area.LastRow && cell.Column >= area.FirstColumn && cell.Column <= area.LastColumn {
						cells[sheet+" "+address.Column(cell.Column)+strconv.Itoa(row.Number)] = cell
					}
				}
			}
		}
	}
	return cells
}

// LibreOffice, made to calculate everything anew, finds the value and the type that were written.
func TestComputedColumnsAreWhatLibreOfficeCalculates(t *testing.T) {
	inputs, err := filepath.Glob(filepath.Join("..", "..", "..", "testdata", "demo", "*.xlsx"))
	if err != nil {
		t.Fatal(err)
	}
	inputs = append(inputs, csvOf(t))
	var graded []*result.Results
	var paths []string
	for number, input := range inputs {
		graded = append(graded, fromFile(t, input, rules.Default()))
		paths = append(paths, written(t, graded[number], fmt.Sprintf("results-%d.xlsx", number)))
	}
	recalculated := sheetstest.RecalculatedAll(t, paths)
	for number, input := range inputs {
		t.Run(filepath.Base(input), func(t *testing.T) {
			results := graded[number]
			before, after := ours(t, paths[number]), ours(t, recalculated[number])
			formulas := 0
			for at, was := range before {
				is, found := after[at]
				if was.Formula {
					formulas++
				}
				if !found || is.Kind != was.Kind || is.Formula != was.Formula || !sheetstest.Alike(was, is) {
					t.Errorf("%s: %+v was written, %+v calculated", at, was, is)
				}
			}
			if len(after) != len(before) || formulas == 0 && len(newColumns(results).columnsFor(kindsIn(results.Read.Carcasses), results.Read.Carcasses)) > 0 {
				t.Errorf("%d cells were written (%d formulas), %d are there", len(before), formulas, len(after))
			}
			t.Logf("%d carcasses, %d cells, %d formulas", len(results.Carcasses), len(before), formulas)
		})
	}
}

// csvOf gives a text file with a decimal comma.
func csvOf(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "steers.csv")
	text := "Tag;Class;Live wt;HCW;Fat;REA;KPH;Marbling\r\n0412;Steers;1250;790;0,40;13,6;2,5;SM 40\r\n0413;Steers;1300;812,5;0,65;12,1;3;MT 20\r\n0414;Steers;1210;760;0,5;136;2;SL 60\r\n"
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// What was added is taken out again without a trace, and the results of a text file stand on a sheet of their own.
func TestComputedColumnsCanBeStripped(t *testing.T) {
	input := filepath.Join("..", "..", "..", "testdata", "demo", "fair.xlsx")
	path := written(t, fromFile(t, input, rules.Default()), "results.xlsx")
	before, err := xlsx.Open(input, xlsx.OpenOptions{})
	if err != nil {
		t.Fatal(err)
	}
	after, err := xlsx.Open(path, xlsx.OpenOptions{})
	if err != nil {
		t.Fatal(err)
	}
	if found, err := after.Strip(); !found || err != nil {
		t.Fatal(found, err)
	}
	if len(after.Ours()) != 0 || len(after.OurColumns()) != 0 || len(before.Sheets()) != len(after.Sheets()) {
		t.Errorf("left: %v, %v, %v", after.Ours(), after.OurColumns(), after.Sheets())
	}
	for _, sheet := range before.Sheets() {
		was, err := before.Scan(sheet.Name)
		if err != nil {
			t.Fatal(err)
		}
		is, err := after.Scan(sheet.Name)
		if err != nil {
			t.Fatal(err)
		}
		if len(was.Rows) != len(is.Rows) {
			t.Errorf("%s: %d rows, then %d", sheet.Name, len(was.Rows), len(is.Rows))
		}
	}
}

// A carcass on hold has blanks for the figures that rest on the doubted cell, no place, and the reason; the others stand.
func TestCarcassOnHoldShowsWhy(t *testing.T) {
	results := fromFile(t, csvOf(t), rules.Default())
	path := written(t, results, "results.xlsx")
	cells := ours(t, path)
	held := ""
	for at, cell := range cells {
		if strings.Contains(cell.Raw, "On hold: ") {
			held = at
			if !strings.Contains(cell.Raw, "(F4)") {
				t.Errorf("the cell is not named: %s", cell.Raw)
			}
		}
	}
	if held == "" {
		t.Fatalf("no carcass is on hold: %v", cells)
	}
	row := held[strings.LastIndexAny(held, "ABCDEFGHIJKLMNOPQRSTUVWXYZ")+1:]
	shown := map[string]bool{}
	for at, cell := range cells {
		column := at[strings.LastIndex(at, " ")+1:]
		if heading := cells["Graded "+strings.TrimSuffix(column, row)+"4"].Raw; strings.HasSuffix(column, row) && cell.Formula {
			shown[heading] = true
		}
	}
	for heading, stands := range map[string]bool{
		"Dressing %": true, "Adjusted fat, in": true, "Quality grade": true, "Yield grade": false, "Ribeye per cwt": false, "Price $/cwt": false, "Value $": false,
	} {
		if shown[heading] != stands {
			t.Errorf("with a doubted ribeye the %s is shown: %v", heading, shown[heading])
		}
	}
}

// A figure just below a grade is never shown as that grade.
func TestFiguresAreNotLiftedToTheNextGrade(t *testing.T) {
	column := grading.Column{Measure: measure.YieldGrade, Decimals: 2}
	for text, want := range map[string]string{"2.99": "", "2.994": "", "2.995": "0.000_)", "2.9996": "0.0000_)", "2.999999": "0.000000_)", "3": "", "3.004": ""} {
		if got := ownFormat(column, measure.NumberValue(sheetstest.Number(text))); got != want {
			t.Errorf("%s: format %q, want %q", text, got, want)
		}
	}
}
