package fair

import (
	"slices"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/record"
	"railbook/workbook/result"
	"railbook/workbook/sheets/kit"
	"railbook/workbook/sheets/sheetstest"
)

func TestSummaryLeavesOutWhatIsOnHold(t *testing.T) {
	results := sheetstest.FairResults(t)
	groups := groupsOf(results, result.KindOfClass{Species: rules.Beef, Basis: rules.OnTheRail})
	overall := groups[len(groups)-1]
	if len(overall.all) != 14 || overall.held != 1 || overall.placed != 13 {
		t.Fatalf("%d counted, %d on hold, %d placed", len(overall.all), overall.held, overall.placed)
	}
	// The ribeye of 136 square inches on hold must not be in the mean.
	mean, ok := result.MeanOf(overall.all, measure.RibeyeArea)
	if !ok || mean.GreaterThan(sheetstest.Number("14")) {
		t.Errorf("the mean ribeye area is %s", mean)
	}
}

func TestQualityByYieldAddsUp(t *testing.T) {
	lines := sheetLines(t, writeAll(t, sheetstest.FairResults(t)), record.SummarySheet)
	total := lineWith(lines, "All", "14")
	if want := []string{"All", "1", "9", "3", "1", "0", "14"}; !slices.Equal(total, want) {
		t.Errorf("the totals are %q", total)
	}
}

func TestSummaryBesideLastYear(t *testing.T) {
	results := sheetstest.FairResults(t)
	past := sheetstest.FairResults(t)
	past.Findings = append(past.Findings, validate.Finding{Level: validate.Hold, Carcass: past.Carcasses[0].Carcass})
	past.Gather()
	results.LastYear = LastYearLines("2024.xlsx", past)
	file := writeAll(t, results)
	lines := sheetLines(t, file, record.SummarySheet)
	if lineWith(lines, "Carcasses", "14", "13", "1") == nil || !strings.Contains(everything(lines), "Last year: 2024.xlsx") {
		t.Errorf("last year is not beside this one:\n%s", everything(lines))
	}
	if lineWith(lines, "Quality grade, beef", "This year, %", "Last year, %") == nil {
		t.Errorf("the chart of two years has no figures:\n%s", everything(lines))
	}
	results.LastYear = []record.LastYearLine{{File: "2023.xlsx", Species: "goat", Kind: string(rules.OnTheRail), Figure: record.CarcassesCounted, Value: "4"}}
	if all := everything(sheetLines(t, writeAll(t, results), record.SummarySheet)); !strings.Contains(all, "2023.xlsx has no beef to set beside these.") {
		t.Error("a year without beef is not said")
	}
}

func TestValuesFallIntoBandsOfARoundWidth(t *testing.T) {
	bands := bandsOf(gradedOf(sheetstest.FairResults(t)), measure.CarcassValue)
	count := 0
	for _, band := range bands {
		count += band.count
	}
	if count != len(sheetstest.Animals) || len(bands) < 2 || len(bands) > 12 {
		t.Errorf("%d carcasses in %d bands", count, len(bands))
	}
}

func TestChartsAreDrawnFromFiguresOnTheSheet(t *testing.T) {
	lines := sheetLines(t, writeAll(t, sheetstest.FairResults(t)), record.SummarySheet)
	if lineWith(lines, "Quality grade, beef", "Carcasses", "Adjusted fat, in", "Ribeye area, sq in", "Value $, beef") == nil {
		t.Errorf("the charts' figures are not all there:\n%s", everything(lines))
	}
}

// A fair's own workbook may have lower rows than ours; the charts must still stand clear of one another and of the page's end.
func TestRowsUnderChartsKeepTheirHeight(t *testing.T) {
	file := openResults(t, sheetstest.FairResults(t))
	low, custom := 10.0, true
	if err := file.SetSheetProps(record.SummarySheet, &excelize.SheetPropsOptions{DefaultRowHeight: &low, CustomHeight: &custom}); err != nil {
		t.Fatal(err)
	}
	kept := 0
	for row := 1; row <= 120; row++ {
		height, err := file.GetRowHeight(record.SummarySheet, row)
		if err != nil {
			t.Fatal(err)
		}
		if height == kit.ChartRowHeight {
			kept++
		}
	}
	if kept < 2*kit.ChartRows {
		t.Errorf("%d rows have the height of those under charts, want at least %d", kept, 2*kit.ChartRows)
	}
}

func gradedOf(results *result.Results) (graded []*grading.Graded) {
	for _, one := range results.Carcasses {
		graded = append(graded, one.Graded)
	}
	return graded
}
