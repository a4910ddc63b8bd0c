package comparison

import (
	"slices"
	"strings"
	"testing"

	"railbook/grading"
	"railbook/grading/placing"
	"railbook/grading/whatif"
	"railbook/rules"
	"railbook/rules/address"
	"railbook/rules/measure"
	"railbook/workbook/sheets/sheetstest"
	"railbook/workbook/sheets/sheetstest/python"
	"railbook/workbook/xlsx"

	"github.com/shopspring/decimal"
)

// comparedFairs compares the default rulebook with one of a smaller discount for Select, on the fair of the tests.
func comparedFairs(t *testing.T) *Comparison {
	t.Helper()
	book := *rules.Default()
	book.Grid = slices.Clone(book.Grid)
	for i := range book.Grid {
		if book.Grid[i].Name == "Select" {
			book.Grid[i].Adjust = decimal.RequireFromString("-1.50")
		}
	}
	carcasses := sheetstest.FairResults(t).Carcasses
	side := func(book *rules.Rulebook) whatif.Side {
		graded := make([]*grading.Graded, len(carcasses))
		for i, carcass := range carcasses {
			graded[i] = grading.Grade(carcass.Carcass, book)
		}
		return whatif.Side{Book: book, Entrants: placing.Entered(graded)}
	}
	compared := whatif.Compare(side(rules.Default()), side(&book))
	return &Comparison{OldName: "Rules 2025", NewName: "Rules 2026", Fairs: []ComparedFair{{"fair.xlsx", compared}}}
}

func comparisonFile(t *testing.T) string {
	t.Helper()
	data, err := WriteComparison(comparedFairs(t))
	if err != nil {
		t.Fatal(err)
	}
	return sheetstest.Saved(t, data)
}

// formulasOf gives every cell of a workbook's sheets that holds a formula.
func formulasOf(t *testing.T, path string) map[string]xlsx.Cell {
	t.Helper()
	book, err := xlsx.Open(path, xlsx.OpenOptions{})
	if err != nil {
		t.Fatal(err)
	}
	cells := map[string]xlsx.Cell{}
	for _, sheet := range book.Sheets() {
		grid, err := book.Scan(sheet.Name)
		if err != nil {
			t.Fatal(err)
		}
		for _, row := range grid.Rows {
			for _, cell := range row.Cells {
				if cell.Formula {
					cells[sheet.Name+" "+address.Column(cell.Column)+decimal.NewFromInt(int64(row.Number)).String()] = cell
				}
			}
		}
	}
	return cells
}

func TestAComparisonIsWhatLibreOfficeCalculates(t *testing.T) {
	path := comparisonFile(t)
	before, after := formulasOf(t, path), formulasOf(t, sheetstest.Recalculated(t, path))
	if len(before) < 20 || len(before) != len(after) {
		t.Errorf("%d formulas written, %d read back", len(before), len(after))
	}
	for at, was := range before {
		if is := after[at]; is.Kind != was.Kind || !sheetstest.Alike(was, is) {
			t.Errorf("%s: %+v was written, %+v calculated", at, was, is)
		}
	}
}

func TestAComparisonHasItsCharts(t *testing.T) {
	if testing.Short() {
		t.Skip("starts Python")
	}
	output := python.Run(t, sheetstest.AsOpenpyxlSeesIt, comparisonFile(t))
	for _, want := range []string{"At a glance|2|", "Carcasses|0|", "Ties and limits|0|"} {
		if !strings.Contains(output, want) {
			t.Errorf("no %q in:\n%s", want, output)
		}
	}
}

func TestAComparisonNamesNobody(t *testing.T) {
	comparison := comparedFairs(t)
	for _, class := range comparison.Classes() {
		for _, row := range class.Rows {
			row.SetReading(measure.Exhibitor, grading.Reading{Value: measure.Value{Text: "Quillfeather"}, Written: "Quillfeather"})
		}
	}
	data, err := WriteComparison(comparison)
	if err != nil {
		t.Fatal(err)
	}
	output := python.Run(t, "import sys, zipfile\nz = zipfile.ZipFile(sys.argv[1])\nprint(any(b'Quillfeather' in z.read(n) for n in z.namelist()))", sheetstest.Saved(t, data))
	if strings.TrimSpace(output) != "False" {
		t.Error("an exhibitor's name stands in the comparison")
	}
}

// A fair without a species says nothing of that species' premiums: what no beef carcass met at the one fair with beef
// was met by none, and what one met at either fair was met.
func TestWhatDecidedNothingAtSeveralFairs(t *testing.T) {
	prime, lean, age := &rules.GridLine{Name: "Prime"}, &rules.GridLine{Name: "lean"}, &rules.Requirement{}
	beef := whatif.Comparison{
		Classes:   []whatif.ClassComparison{{Species: rules.Beef}},
		NewUnused: []whatif.Unused{{Species: rules.Beef, Line: prime}, {Limit: age}},
	}
	swine := whatif.Comparison{
		Classes:   []whatif.ClassComparison{{Species: rules.Swine}},
		NewUnused: []whatif.Unused{{Species: rules.Swine, Line: lean}},
	}
	fairs := []ComparedFair{{"beef.xlsx", beef}, {"swine.xlsx", swine}}
	for range 2 {
		_, unused := (&Comparison{Fairs: fairs}).Unused()
		var names []string
		for _, never := range unused {
			if never.Line == nil {
				t.Fatalf("%+v is said to decide nothing", never.Limit)
			}
			names = append(names, never.Line.Name)
		}
		slices.Sort(names)
		if !slices.Equal(names, []string{"Prime", "lean"}) {
			t.Errorf("said to decide nothing: %q", names)
		}
		slices.Reverse(fairs)
	}
}
