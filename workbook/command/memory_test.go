package command

import (
	"testing"

	"railbook/workbook"
)

// How much may gather, by what is in use: on either side of each bound.
func TestRoomForGarbage(t *testing.T) {
	for _, row := range []struct {
		megabytes uint64
		large     bool
		percent   int
	}{
		{0, false, mostPercent},
		{11, false, mostPercent},
		{12, false, 183},
		{44, true, 50},
		{109, true, 20},
		{111, false, leastPercent},
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
