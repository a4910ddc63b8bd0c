package command

import (
	"fmt"
	"path/filepath"
	"testing"

	"railbook/workbook"

	"github.com/xuri/excelize/v2"
)

// How much may gather, by what is in use: on either side of each bound.
func TestRoomForGarbage(t *testing.T) {
	for _, row := range []struct {
		megabytes uint64
		large     bool
		percent   int
	}{
		{0, false, mostPercent},
		{2, false, mostPercent},
		{3, false, 666},
		{12, false, 166},
		{40, true, 50},
		{99, true, 20},
		{101, false, leastPercent},
		{127, true, leastPercent},
		{128, true, largePercent},
		{128, false, leastPercent},
		{1000, true, largePercent},
	} {
		if got := roomAt(row.megabytes<<20, row.large); got != row.percent {
			t.Errorf("with %d MB in use, large %v: %d %%; want %d", row.megabytes, row.large, got, row.percent)
		}
	}
}

// More may gather only once a workbook is graded, and never for text.
func TestOnlyWorkbooksThatAreGradedTakeMore(t *testing.T) {
	defer large.Store(false)
	for _, row := range []struct {
		stage, path string
		large       bool
	}{
		{"reading", "fair.xlsx", false},
		{workbook.GradingStage, "fair.csv", false},
		{workbook.GradingStage, "fair.tsv", false},
		{workbook.GradingStage, "Fair.XLSM", true},
		{workbook.GradingStage, "fair.xlsx", true},
		{workbook.GradingAgainStage, "fair-signed.xlsx", true},
	} {
		large.Store(false)
		if stageReached(row.stage, row.path); large.Load() != row.large {
			t.Errorf("%s of %s: %v", row.stage, row.path, !row.large)
		}
	}
}

// Every command that grades takes the room that is meant for that: so large a workbook would be collected for twice as often otherwise.
func TestCommandsThatGradeTakeMore(t *testing.T) {
	defer large.Store(false)
	folder := t.TempDir()
	fair, results, signed := filepath.Join(folder, "fair.xlsx"), filepath.Join(folder, "results.xlsx"), filepath.Join(folder, "signed.xlsx")
	file := excelize.NewFile()
	for at, row := range [][]any{
		{"Tag", "Class", "HCW", "Adj fat", "REA", "KPH", "Marbling", "Maturity"},
		{"101", "Steers", 812, 0.45, 13.4, 2.5, "Small 40", "A60"},
		{"102", "Steers", 774, 0.38, 13.9, 2, "Modest 10", "A50"},
	} {
		if err := file.SetSheetRow("Sheet1", fmt.Sprintf("A%d", at+1), &row); err != nil {
			t.Fatal(err)
		}
	}
	if err := file.SaveAs(fair); err != nil {
		t.Fatal(err)
	}
	for _, command := range [][]string{
		{"grade", fair, "-o", results},
		{"sign", results, "--judge", "Hedda Quince", "--date", "2025-08-22", "-o", signed},
		{"verify", signed},
	} {
		large.Store(false)
		if status := Run(append([]string{"railbook"}, command...), "test"); !large.Load() {
			t.Errorf("%s ended with status %d and took no more", command[0], status)
		}
	}
}
