package workbook

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"

	"railbook/rules"
	"railbook/workbook/intake"
	"railbook/workbook/xlsx"
)

func newRulebook(t *testing.T, name, from string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := NewRulebook(path, from, Options{}); err != nil {
		t.Fatal(err)
	}
	return path
}

func bytesOf(t *testing.T, path string) []byte {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func TestRulebookWrittenReadAndWrittenAgainIsTheSame(t *testing.T) {
	path := newRulebook(t, "rulebook.xlsx", "")
	book, faults, err := LoadRulebook(path, Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, fault := range faults {
		t.Errorf("%v: %s", fault.Place, fault.Message)
	}
	if book == nil {
		t.Fatal("no rulebook")
	}
	if book.SHA256 != rules.Default().SHA256 {
		t.Error("the rulebook in the workbook has another SHA-256 than the one it was written from")
	}
	again, err := rulebookWorkbook(path, book.Tables)
	if err != nil {
		t.Fatal(err)
	}
	if data, err := again.Bytes(); err != nil || !bytes.Equal(data, bytesOf(t, path)) {
		t.Error("written again it is not the same bytes")
	}
}

func TestNextYearsRulebook(t *testing.T) {
	old := newRulebook(t, "old.xlsx", "")
	next := newRulebook(t, "next.xlsx", old)
	book, faults, err := LoadRulebook(next, Options{})
	if err != nil || book == nil {
		t.Fatal(err, faults)
	}
	if book.Settings.Year != "2026" || book.Settings.BasePrice[rules.Beef].Decimal.String() != "300" {
		t.Errorf("the year is %s and the base price %v", book.Settings.Year, book.Settings.BasePrice[rules.Beef])
	}
}

func TestNewRulebookLeavesAnotherFileAlone(t *testing.T) {
	path := newRulebook(t, "rulebook.xlsx", "")
	if err := NewRulebook(path, "", Options{}); err != nil {
		t.Errorf("the very same file should be no error: %v", err)
	}
	if err := os.WriteFile(path, []byte("mine"), 0o600); err != nil {
		t.Fatal(err)
	}
	err := NewRulebook(path, "", Options{})
	if err == nil || !strings.Contains(err.Error(), "exists already and is different") {
		t.Errorf("got %v", err)
	}
	if string(bytesOf(t, path)) != "mine" {
		t.Error("the file was changed")
	}
}

// boardEdits changes cells of a rulebook as a board does, with a spreadsheet library that is not ours.
func boardEdits(t *testing.T, path string, edit func(file *excelize.File)) {
	t.Helper()
	file, err := excelize.OpenFile(path)
	if err != nil {
		t.Fatal(err)
	}
	edit(file)
	if err := file.Save(); err != nil {
		t.Fatal(err)
	}
	if err := file.Close(); err != nil {
		t.Fatal(err)
	}
}

func set(t *testing.T, file *excelize.File, sheet, cell string, value any) {
	t.Helper()
	if err := file.SetCellValue(sheet, cell, value); err != nil {
		t.Fatal(err)
	}
}

func TestFaultsOfAnEditedRulebookAreNamedByTheirCell(t *testing.T) {
	path := newRulebook(t, "rulebook.xlsx", "")
	boardEdits(t, path, func(file *excelize.File) {
		set(t, file, "Value grid", "H5", "plenty")
		set(t, file, "Settings", "C7", "")
	})
	faults, err := CheckRulebook(path, Options{})
	if err != nil {
		t.Fatal(err)
	}
	want := []string{
		`sheet "Settings", cell C7: The base price of beef is missing`,
		`sheet "Value grid", cell H5: "plenty" under "$/cwt" is not a number.`,
	}
	var got string
	for _, fault := range faults {
		got += fault.Place.String() + ": " + fault.Message + "\n"
	}
	for _, text := range want[1:] {
		if !strings.Contains(got, text) {
			t.Errorf("%q is not among\n%s", text, got)
		}
	}
	boardEdits(t, path, func(file *excelize.File) { set(t, file, "Value grid", "H5", 18) })
	if faults, _ = CheckRulebook(path, Options{}); len(faults) != 1 || !strings.HasPrefix(faults[0].Place.String()+": "+faults[0].Message, want[0]) {
		t.Errorf("got %v", faults)
	}
}

func TestPercentsAndDatesAsASpreadsheetKeepsThem(t *testing.T) {
	path := newRulebook(t, "rulebook.xlsx", "")
	boardEdits(t, path, func(file *excelize.File) {
		percent, err := file.NewStyle(&excelize.Style{NumFmt: 9})
		if err != nil {
			t.Fatal(err)
		}
		row := rowOf(t, file, "ultrasound dressing percent")
		set(t, file, "Settings", "C"+row, 0.61)
		if err := file.SetCellStyle("Settings", "C"+row, "C"+row, percent); err != nil {
			t.Fatal(err)
		}
		set(t, file, "Settings", "C"+rowOf(t, file, "questions until"), time.Date(2025, 8, 15, 0, 0, 0, 0, time.UTC))
	})
	book, faults, err := LoadRulebook(path, Options{})
	if err != nil || book == nil {
		t.Fatal(err, faults)
	}
	if got := book.Settings.ScanDressingPercent[rules.Beef].Decimal.String(); got != "61" {
		t.Errorf("the dressing percent is %s, not 61", got)
	}
	if book.Settings.QuestionsUntil != "2025-08-15" {
		t.Errorf("questions until %q", book.Settings.QuestionsUntil)
	}
}

// rowOf finds the first row of a setting.
func rowOf(t *testing.T, file *excelize.File, setting string) string {
	t.Helper()
	rows, err := file.GetRows("Settings")
	if err != nil {
		t.Fatal(err)
	}
	for number, row := range rows {
		if len(row) > 0 && row[0] == setting {
			return strconv.Itoa(number + 1)
		}
	}
	t.Fatalf("no setting %q", setting)
	return ""
}

// A Settings sheet that somebody made by hand is known by its first cell; then the other sheets are known by their names
// and headings. A fair's own sheet called Classes is not taken for the rulebook's.
func TestRulebookMadeByHand(t *testing.T) {
	for _, marked := range []bool{true, false} {
		file := excelize.NewFile()
		for _, sheet := range []string{"Settings", "Limits", "Classes"} {
			if _, err := file.NewSheet(sheet); err != nil {
				t.Fatal(err)
			}
		}
		if marked {
			set(t, file, "Settings", "A1", "Railbook rulebook")
		}
		fill(t, file, "Settings", 3, []any{"Setting", "Species", "Value", "Source"}, []any{"base price", "beef", 287.5, "the board"})
		fill(t, file, "Limits", 1,
			[]any{"Species", "Measure", "Usual", "Hold below", "Look below", "Look above", "Hold above", "Hold at that too"},
			[]any{"beef", "live weight", "", 400})
		fill(t, file, "Classes", 1, []any{"Class", "Species", "Superintendent"}, []any{"Steers", "beef", "to be named"})
		path := filepath.Join(t.TempDir(), "fair.xlsx")
		if err := file.SaveAs(path); err != nil {
			t.Fatal(err)
		}
		book, faults, err := LoadRulebook(path, Options{})
		if !marked {
			if err == nil || err.Error() != `fair.xlsx holds no rulebook; "railbook rulebook new" writes one to edit` {
				t.Errorf("unmarked: %v", err)
			}
			continue
		}
		if err != nil || book == nil {
			t.Fatal(err, faults)
		}
		if got := book.Settings.BasePrice[rules.Beef].Decimal.String(); got != "287.5" {
			t.Errorf("the base price is %s", got)
		}
		// The one limit that is written stands for the shipped one, and the others are the shipped ones.
		if len(book.Limits) != len(rules.Default().Limits) || len(book.Classes) != len(rules.Default().Classes) {
			t.Errorf("%d limits and %d classes", len(book.Limits), len(book.Classes))
		}
	}
}

func fill(t *testing.T, file *excelize.File, sheet string, first int, rows ...[]any) {
	t.Helper()
	for number, row := range rows {
		if err := file.SetSheetRow(sheet, "A"+strconv.Itoa(first+number), &row); err != nil {
			t.Fatal(err)
		}
	}
}

// A results workbook carries the rulebook it was graded by, whatever the fair's own sheets are called; so do those made before
// there was a record, on hidden sheets of their own.
func TestResultsCarryTheRulebook(t *testing.T) {
	path := smallFair(t)
	edit(t, path, path, func(file *excelize.File) {
		for _, sheet := range []string{"Classes", "Rulebook Limits"} {
			if _, err := file.NewSheet(sheet); err != nil {
				t.Fatal(err)
			}
			set(t, file, sheet, "A1", "ours")
		}
	})
	outcome, err := Grade(path, Options{})
	if err != nil {
		t.Fatal(err)
	}
	loaded, faults, err := LoadRulebook(outcome.Path, Options{})
	if err != nil || loaded == nil || len(faults) > 0 {
		t.Fatal(err, faults)
	}
	if loaded.SHA256 != rules.Default().SHA256 {
		t.Error("the rulebook was changed on the way")
	}
	older, faults, err := LoadRulebook(filepath.Join("..", "testdata", "kept", "lamb-results.xlsx"), Options{})
	if err != nil || older == nil || slices.ContainsFunc(faults, func(fault rules.Fault) bool { return !fault.Warning }) {
		t.Fatal(err, faults) // a setting that has come since is warned about
	}
}

// A rulebook that the fair's own workbook carries is the fair's: it stays when our sheets are taken out.
func TestBoardsSheetsStayWhenOursAreTakenOut(t *testing.T) {
	book, err := xlsx.Open(newRulebook(t, "fair.xlsx", ""), xlsx.OpenOptions{})
	if err != nil {
		t.Fatal(err)
	}
	before := book.Sheets()
	if _, err := book.Strip(); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(before, book.Sheets()); diff != "" {
		t.Error(diff)
	}
	tables, err := intake.ReadRulebook(book)
	if err != nil || len(tables) != len(rules.Layouts()) {
		t.Errorf("%d tables, %v", len(tables), err)
	}
}

// A yield grade of 3.99 at most decides nothing beside a cutability of 51 % at least, which no carcass of 700 lb or more
// reaches above a yield grade of 2.5: both equations run in the same measures.
func TestCheckPointsOutALimitThatNeverDecides(t *testing.T) {
	path := newRulebook(t, "rulebook.xlsx", "")
	boardEdits(t, path, func(file *excelize.File) {
		fill(t, file, "Eligibility", 7,
			[]any{"", "beef", "cutability", 51, "", "", "", "", "", "", "not placed", "", "the board"},
			[]any{"", "beef", "hot carcass weight", 700, "", "", "", "", "", "", "not placed", "", "the board"},
			[]any{"", "beef", "yield grade", "", 3.99, "", "", "", "", "", "not placed", "", "the board"})
	})
	faults, err := CheckRulebook(path, Options{})
	if err != nil {
		t.Fatal(err)
	}
	// Beside it, the upper end itself is pointed out: 3.994 is neither below 4 nor at most 3.99.
	if len(faults) != 2 || faults[0].Place.Cell != "E9" || faults[1].Place.Cell != "C9" || !faults[0].Warning || !faults[1].Warning {
		t.Errorf("got %v", faults)
	}
}

// saveAs writes a book to a file.
func saveAs(book *xlsx.Book, path string) error {
	data, err := book.Bytes()
	if err != nil {
		return err
	}
	return os.WriteFile(path, data, 0o600)
}
