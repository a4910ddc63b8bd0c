package fair

import (
	"bytes"
	"slices"
	"testing"

	"github.com/xuri/excelize/v2"

	"railbook/rules"
	"railbook/rules/address"
	"railbook/validate"
	"railbook/workbook/record"
	"railbook/workbook/sheets/sheetstest"
)

func TestErrorLogIsSortedCountedAndSettled(t *testing.T) {
	lines := sheetLines(t, writeAll(t, sheetstest.FairResults(t)), record.ErrorLogSheet)
	if lineWith(lines, "Whole workbook: 1 on hold, 1 to look at, 1 note, 2 settled. All stand on Kill sheet") == nil {
		t.Errorf("the counts are not there: %q", lines[1])
	}
	var levels []string
	for _, line := range lines {
		if line[0] == "Hold" || line[0] == "Look" || line[0] == "Note" {
			levels = append(levels, line[0])
		}
	}
	if want := []string{"Hold", "Hold", "Look", "Look", "Note"}; !slices.Equal(levels, want) {
		t.Errorf("the levels come as %q", levels)
	}
	if lineWith(lines, "settled: leave out, by AB, 2025-07-10", "408") == nil {
		t.Error("the settled finding does not say by whom")
	}
	if line := lineWith(lines, "open", "414"); line == nil || !slices.Contains(line, "13.6") {
		t.Errorf("the open hold lacks its likely value: %q", line)
	}
}

func TestErrorLogLeadsToTheCell(t *testing.T) {
	file, err := excelize.OpenReader(bytes.NewReader(writeAll(t, sheetstest.FairResults(t))))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	linked, target, err := file.GetCellHyperLink(record.ErrorLogSheet, address.Column(logCellColumn)+"6")
	if err != nil || !linked || target != "'Kill sheet'!I12" {
		t.Errorf("the first line leads to %q (%v)", target, err)
	}
	merged, err := file.GetMergeCells(record.ErrorLogSheet)
	if err != nil || len(merged) == 0 || merged[0].GetStartAxis() != "A2" || merged[0].GetEndAxis() != "J2" {
		t.Errorf("the counts do not run over every printed column: %v (%v)", merged, err)
	}
}

func TestFindingsAreSortedByPlaceNotByText(t *testing.T) {
	results := sheetstest.FairResults(t)
	results.Findings = nil
	for _, cell := range []string{"B10", "AA9", "B9", "A100"} {
		results.Findings = append(results.Findings, validate.Finding{Level: validate.Look, At: rules.Place{Sheet: "Kill sheet", Cell: cell}})
	}
	var cells []string
	for _, finding := range (&Writer{Results: results}).sortedFindings() {
		cells = append(cells, finding.At.Cell)
	}
	if want := []string{"B9", "AA9", "B10", "A100"}; !slices.Equal(cells, want) {
		t.Errorf("the cells come as %q", cells)
	}
}
