package workbook

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"railbook/rules"
	"railbook/rules/address"
	"railbook/workbook/record"
)

// smallFair draws a sheet of two classes without anything on hold; every figure is invented.
func smallFair(t *testing.T) string { return fairOf(t, 12) }

// fairOf draws so many carcasses, half of them in either class.
func fairOf(t *testing.T, carcasses int) string {
	t.Helper()
	file := excelize.NewFile()
	defer file.Close()
	rows := [][]any{{"Tag", "Class", "Exhibitor", "Live wt", "HCW", "Fat", "REA", "KPH", "Marbling", "Maturity"}}
	for i := range carcasses {
		class := "Light steers"
		if i >= carcasses/2 {
			class = "Heavy steers"
		}
		rows = append(rows, []any{
			fmt.Sprintf("A%d", 101+i), class, fmt.Sprintf("Exhibitor %c", 'A'+i), 1200 + 15*i, 750 + 10*i,
			float64(30+3*i) / 100, float64(128+2*(i%5)) / 10, float64(4+i%3) / 2, 400 + 17*i, "A60",
		})
	}
	for number, row := range rows {
		if err := file.SetSheetRow("Sheet1", fmt.Sprintf("A%d", number+1), &row); err != nil {
			t.Fatal(err)
		}
	}
	path := filepath.Join(t.TempDir(), "small.xlsx")
	if err := file.SaveAs(path); err != nil {
		t.Fatal(err)
	}
	return path
}

// signedFair gives the settled results of the small fair, signed.
func signedFair(t *testing.T) string {
	t.Helper()
	signed, err := Sign(settledFair(t), "Hedda Quince", "2025-08-22", Options{})
	if err != nil {
		t.Fatal(err)
	}
	return signed.Path
}

// settledFair grades the small fair, lets the judge give one quality call and somebody retype a weight, and grades again.
func settledFair(t *testing.T) string {
	t.Helper()
	first, err := Grade(smallFair(t), Options{})
	if err != nil {
		t.Fatal(err)
	}
	edit(t, first.Path, first.Path, func(file *excelize.File) {
		quality(t, file, "Light steers", "A103", "High Choice")
		put(t, file, "Sheet1", "E5", 791)
	})
	second, err := Grade(first.Path, Options{Date: "2025-08-21"})
	if err != nil {
		t.Fatal(err)
	}
	if len(second.Results.Decisions) == 0 || len(second.Results.Changes) == 0 {
		t.Fatal("the judge's call or the retyped weight was not read back")
	}
	return second.Path
}

// quality fills in the first blank line of the judge's own calls.
func quality(t *testing.T, file *excelize.File, class, tag, grade string) {
	t.Helper()
	rows, err := file.GetRows(record.JudgeReviewSheet)
	if err != nil {
		t.Fatal(err)
	}
	headings := map[string]int{}
	inCalls := false
	for number, row := range rows {
		switch {
		case len(row) > 0 && row[0] == "Class":
			for column, words := range row {
				headings[words] = column + 1
			}
		case len(row) > 0 && strings.HasPrefix(row[0], "The judge's own calls"):
			inCalls = true
		case inCalls && (len(row) > 0 && row[0] == "" || len(row) == 0):
			for words, value := range map[string]string{
				"Class": class, "Tag": tag, record.DecisionColumn: record.QualityCall,
				record.CorrectedColumn: grade, record.InitialsColumn: "HQ",
			} {
				cell, err := excelize.CoordinatesToCellName(headings[words], number+1)
				if err != nil {
					t.Fatalf("the review sheet has no column %q", words)
				}
				if err := file.SetCellStr(record.JudgeReviewSheet, cell, value); err != nil {
					t.Fatal(err)
				}
			}
			return
		}
	}
	t.Fatal("there is no line for a call of the judge's own")
}

// edit changes a workbook as somebody with another spreadsheet library would.
func edit(t testing.TB, from, to string, change func(*excelize.File)) {
	t.Helper()
	file, err := excelize.OpenFile(from, excelize.Options{RawCellValue: true})
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	change(file)
	if err := file.SaveAs(to); err != nil {
		t.Fatal(err)
	}
}

// Every single edit of a signed workbook is named, and none on the untouched copy.
func TestVerifyNamesEveryEdit(t *testing.T) {
	t.Parallel()
	edits := 28
	switch {
	case os.Getenv("RAILBOOK_LONG") != "":
		edits = 200
	case testing.Short():
		edits = 10
	}
	path := signedFair(t)
	untouched := filepath.Join(t.TempDir(), "untouched.xlsx")
	edit(t, path, untouched, func(*excelize.File) {})
	for _, same := range []string{path, untouched} {
		found, err := Verify(same, Options{})
		if err != nil {
			t.Fatal(err)
		}
		if len(found.Differences) > 0 {
			t.Fatalf("%s was not touched, and verify says:\n%s", filepath.Base(same), found.Report())
		}
	}
	random := rand.New(rand.NewPCG(2025, 8))
	kinds := []func(*testing.T, *excelize.File, *rand.Rand) string{editMeasure, editName, editPlacing, editFormula, editDecision, editRulebook, deleteRow}
	for number := range edits {
		edited := filepath.Join(t.TempDir(), "edited.xlsx")
		var what string
		edit(t, path, edited, func(file *excelize.File) { what = kinds[number%len(kinds)](t, file, random) })
		found, err := Verify(edited, Options{})
		if err != nil {
			t.Errorf("edit %d, %s: %v", number, what, err)
			continue
		}
		if len(found.Differences) == 0 {
			t.Errorf("edit %d, %s: verify found nothing", number, what)
		}
		if cell := strings.Fields(what); !strings.Contains(found.Report(), cell[0]) {
			t.Errorf("edit %d, %s: verify does not name it:\n%s", number, what, found.Report())
		}
	}
}

// A text written over any filled cell of our own sheets is named by its sheet and cell, whatever it makes of the workbook;
// a heading that a sheet is read by, by its sheet.
func TestVerifyNamesEveryCellOfOurs(t *testing.T) {
	t.Parallel()
	edits := 24
	switch {
	case *manyEdits > 0:
		edits = *manyEdits
	case os.Getenv("RAILBOOK_LONG") != "":
		edits = 120
	case testing.Short():
		edits = 5
	}
	path := signedFair(t)
	random := rand.New(rand.NewPCG(7, 8))
	for number := range edits {
		edited := filepath.Join(t.TempDir(), "edited.xlsx")
		var at rules.Place
		var was string
		edit(t, path, edited, func(file *excelize.File) {
			sheets := slices.DeleteFunc(file.GetSheetList(), func(name string) bool { return name == "Sheet1" })
			at.Sheet = sheets[number%len(sheets)]
			at.Cell = filled(t, file, at.Sheet, random)
			was, _ = file.GetCellValue(at.Sheet, at.Cell)
			if err := file.SetCellStr(at.Sheet, at.Cell, was+"7"); err != nil {
				t.Fatal(err)
			}
		})
		found, err := Verify(edited, Options{})
		if err != nil {
			t.Errorf("%v, %q: %v", at, was, err)
			continue
		}
		if !slices.ContainsFunc(found.Differences, func(difference Difference) bool {
			// Of the record the row is named: what stood there is nowhere else. A decision is named at its choice, whichever cell
			// of its row was edited.
			byRow := at.Sheet == record.StateSheet || at.Sheet == record.JudgeReviewSheet
			return difference.At == at || byRow && difference.At.Sheet == at.Sheet && sameRow(difference.At.Cell, at.Cell)
		}) {
			t.Errorf("%v, %q: verify does not name it:\n%.600s", at, was, found.Report())
		}
	}
}

// put writes a value and says what was done, the cell first.
func put(t *testing.T, file *excelize.File, sheet, cell string, value any) string {
	t.Helper()
	was, _ := file.GetCellValue(sheet, cell)
	if err := file.SetCellValue(sheet, cell, value); err != nil {
		t.Fatal(err)
	}
	return fmt.Sprintf("%s of %s from %q to %v", cell, sheet, was, value)
}

func editMeasure(t *testing.T, file *excelize.File, random *rand.Rand) string {
	columns := map[string]float64{"D": 1310, "E": 803, "F": .47, "G": 13.7, "H": 2.75, "I": 433}
	column := []string{"D", "E", "F", "G", "H", "I"}[random.IntN(6)]
	return put(t, file, "Sheet1", fmt.Sprintf("%s%d", column, 2+random.IntN(12)), columns[column])
}

func editName(t *testing.T, file *excelize.File, random *rand.Rand) string {
	return put(t, file, "Sheet1", fmt.Sprintf("C%d", 2+random.IntN(12)), "Somebody Else")
}

// filled gives a random filled cell of a sheet.
func filled(t *testing.T, file *excelize.File, sheet string, random *rand.Rand) string {
	t.Helper()
	rows, err := file.GetRows(sheet)
	if err != nil {
		t.Fatal(err)
	}
	var cells []string
	for number, row := range rows {
		for column, value := range row {
			if value != "" {
				cell := address.Cell(column+1, number+1)
				cells = append(cells, cell)
			}
		}
	}
	return cells[random.IntN(len(cells))]
}

func editPlacing(t *testing.T, file *excelize.File, random *rand.Rand) string {
	return put(t, file, record.PlacingsSheet, filled(t, file, record.PlacingsSheet, random), "99")
}

func editFormula(t *testing.T, file *excelize.File, random *rand.Rand) string {
	column, _ := excelize.ColumnNumberToName(11 + random.IntN(10))
	cell := fmt.Sprintf("%s%d", column, 2+random.IntN(12))
	if err := file.SetCellFormula("Sheet1", cell, "1+1"); err != nil {
		t.Fatal(err)
	}
	return cell + " of Sheet1 to the formula 1+1"
}

func editDecision(t *testing.T, file *excelize.File, random *rand.Rand) string {
	rows, err := file.GetRows(record.JudgeReviewSheet)
	if err != nil {
		t.Fatal(err)
	}
	for number, row := range rows {
		for column, value := range row {
			if value == "High Choice" {
				cell := address.Cell(column+1, number+1)
				grade := []string{"Average Choice", "Low Choice", "High Select"}[random.IntN(3)]
				put(t, file, record.JudgeReviewSheet, cell, grade)
				return cell + " quality call of A103 to " + grade
			}
		}
	}
	t.Fatal("the judge's call is not on the review sheet")
	return ""
}

func editRulebook(t *testing.T, file *excelize.File, random *rand.Rand) string {
	rows, err := file.GetRows(record.StateSheet)
	if err != nil {
		t.Fatal(err)
	}
	var prices []int
	for number, row := range rows {
		if len(row) > 9 && row[1] == "Value grid|" && row[2] == "beef|" {
			prices = append(prices, number+1)
		}
	}
	return put(t, file, record.StateSheet, fmt.Sprintf("J%d", prices[random.IntN(len(prices))]), "7.77|")
}

func deleteRow(t *testing.T, file *excelize.File, random *rand.Rand) string {
	row := 2 + random.IntN(12)
	tag, _ := file.GetCellValue("Sheet1", fmt.Sprintf("A%d", row))
	if err := file.RemoveRow("Sheet1", row); err != nil {
		t.Fatal(err)
	}
	return tag + " deleted"
}

// sameRow reports whether two cells stand in one row.
func sameRow(a, b string) bool {
	const letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
	return strings.TrimLeft(a, letters) == strings.TrimLeft(b, letters)
}
