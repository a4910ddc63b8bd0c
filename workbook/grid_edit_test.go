package workbook

import (
	"os"
	"path/filepath"
	"testing"

	"railbook/rules"
	"railbook/rules/address"

	"github.com/xuri/excelize/v2"
)

// What a board changes on the Value grid sheet of a results workbook is the rulebook when the workbook is graded again.
func TestGridEditedInResultsIsTheRulebookOfTheNext(t *testing.T) {
	path := filepath.Join(t.TempDir(), "fair.xlsx")
	if err := os.WriteFile(path, bytesOf(t, filepath.Join("..", "testdata", "demo", "fair.xlsx")), 0o600); err != nil {
		t.Fatal(err)
	}
	outcome, err := Grade(path, Options{Version: "test"})
	if err != nil {
		t.Fatal(err)
	}
	changed := map[string]any{"base price": 287.5, "Select": -30, "weight": -2.25, "dark cutter": -41}
	boardEdits(t, outcome.Path, func(file *excelize.File) {
		rows, err := file.GetRows("Value grid", excelize.Options{RawCellValue: true})
		if err != nil {
			t.Fatal(err)
		}
		for number, row := range rows {
			if len(row) < 6 {
				continue
			}
			adjust, said := changed[row[1]]
			if row[0] == "weight" && row[2] == "900" {
				adjust, said = changed["weight"]
			}
			if said {
				set(t, file, "Value grid", address.Cell(6, number+1), adjust)
			}
		}
	})
	results, err := Examine(outcome.Path, Options{Version: "test"})
	if err != nil {
		t.Fatal(err)
	}
	if got := results.Rules.Settings.BasePrice[rules.Beef].Decimal.String(); got != "287.5" {
		t.Errorf("the base price is %s", got)
	}
	want := map[string]string{"H4": "-30", "H17": "-2.25", "H20": "-41"}
	defaults := rules.Default().Grid
	for number, line := range results.Rules.Grid {
		expected := defaults[number].Adjust.String()
		if adjust, said := want[defaults[number].Place.Cell]; said {
			expected = adjust
		}
		if got := line.Adjust.String(); got != expected {
			t.Errorf("the line %v adds %s, not %s", line, got, expected)
		}
	}
}

func TestGridEditedToWordsIsAFaultOfItsCell(t *testing.T) {
	path := filepath.Join(t.TempDir(), "fair.xlsx")
	if err := os.WriteFile(path, bytesOf(t, filepath.Join("..", "testdata", "demo", "fair.xlsx")), 0o600); err != nil {
		t.Fatal(err)
	}
	outcome, err := Grade(path, Options{Version: "test"})
	if err != nil {
		t.Fatal(err)
	}
	boardEdits(t, outcome.Path, func(file *excelize.File) { set(t, file, "Value grid", "F5", "market") })
	_, err = Examine(outcome.Path, Options{Version: "test"})
	want := "the rulebook has faults and nothing was graded by it; mend these cells and try again:\n" +
		`  sheet "Value grid", cell F5: The setting "base price" is "market". It should be a number from 0 to 10000.`
	if err == nil || err.Error() != want {
		t.Errorf("got  %v\nwant %s", err, want)
	}
}
