package fair

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"railbook/rules/address"
	"railbook/validate"
	"railbook/workbook/intake"
	"railbook/workbook/record"
	"railbook/workbook/result"
	"railbook/workbook/sheets/sheetstest"
)

// edit changes cells of the Judge review sheet as a judge would, in the row of a tag, and gives the workbook's bytes.
// The row is the first of its kind whose decision is still blank or, for a call, whose tag is blank.
func edit(t *testing.T, data []byte, kind, tag string, cells map[string]any) []byte {
	t.Helper()
	file, err := excelize.OpenReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := file.GetRows(record.JudgeReviewSheet)
	if err != nil {
		t.Fatal(err)
	}
	headings := make(map[string]int)
	for i, text := range rows[reviewHeadingRow-1] {
		headings[text] = i + 1
	}
	cell := func(row []string, heading string) string {
		if at := headings[heading] - 1; at < len(row) {
			return row[at]
		}
		return ""
	}
	for i, row := range rows {
		if cell(row, record.KeyRowColumn) != kind || cell(row, record.KeyTagColumn) != tag {
			continue
		}
		for heading, value := range cells {
			if err := file.SetCellValue(record.JudgeReviewSheet, address.Column(headings[heading])+fmt.Sprint(i+1), value); err != nil {
				t.Fatal(err)
			}
		}
		var saved bytes.Buffer
		if err := file.Write(&saved); err != nil {
			t.Fatal(err)
		}
		return saved.Bytes()
	}
	t.Fatalf("the Judge review sheet has no %s row for tag %q", kind, tag)
	return nil
}

func TestDecisionsThatMakeNoSenseAreSaid(t *testing.T) {
	results := sheetstest.FairResults(t)
	data := writeAll(t, results)
	for _, test := range []struct {
		name  string
		kind  string
		tag   string
		cells map[string]any
		says  string
	}{
		{"correct to nothing", record.FindingRow, "414", map[string]any{record.DecisionColumn: "correct to", record.InitialsColumn: "AB"}, "no corrected value is given"},
		{"unreadable value", record.FindingRow, "414", map[string]any{record.DecisionColumn: "correct to", record.CorrectedColumn: "big", record.InitialsColumn: "AB"}, `"big"`},
		{"value out of range", record.FindingRow, "414", map[string]any{record.DecisionColumn: "correct to", record.CorrectedColumn: 136, record.InitialsColumn: "AB"}, "136 is above 25"},
		{"initials missing", record.FindingRow, "414", map[string]any{record.DecisionColumn: "correct to", record.CorrectedColumn: 13.6}, "initials are missing"},
		{"unknown choice", record.FindingRow, "414", map[string]any{record.DecisionColumn: "maybe", record.InitialsColumn: "AB"}, `"maybe" is not a decision`},
		{"no choice", record.FindingRow, "414", map[string]any{record.RemarkColumn: "hm", record.InitialsColumn: "AB"}, "no decision is chosen"},
		{"accepted and corrected", record.FindingRow, "414", map[string]any{record.DecisionColumn: "accept as is", record.CorrectedColumn: 13.6, record.InitialsColumn: "AB"}, "a corrected value"},
		{"unknown tag", record.CallRow, "", map[string]any{record.TagColumn: "777", record.DecisionColumn: "place is", record.CorrectedColumn: 1, record.InitialsColumn: "AB", record.RemarkColumn: "best"}, "no carcass with tag 777"},
		{"no reason", record.CallRow, "", map[string]any{record.TagColumn: "405", record.DecisionColumn: "place is", record.CorrectedColumn: 1, record.InitialsColumn: "AB"}, "needs a reason"},
		{"no place", record.CallRow, "", map[string]any{record.TagColumn: "405", record.DecisionColumn: "place is", record.CorrectedColumn: "top", record.InitialsColumn: "AB", record.RemarkColumn: "best"}, "not a whole number"},
		{"no such grade", record.CallRow, "", map[string]any{record.TagColumn: "405", record.DecisionColumn: "quality grade is", record.CorrectedColumn: "tasty", record.InitialsColumn: "AB"}, `"tasty"`},
		{"unknown call", record.CallRow, "", map[string]any{record.TagColumn: "405", record.DecisionColumn: "sell", record.InitialsColumn: "AB"}, `"sell" is not a call`},
	} {
		t.Run(test.name, func(t *testing.T) {
			previous := readBack(t, edit(t, data, test.kind, test.tag, test.cells))
			if len(previous.Findings) != 1 || !strings.Contains(previous.Findings[0].Message, test.says) {
				t.Fatalf("want one finding that says %q, got %v", test.says, previous.Findings)
			}
			if finding := previous.Findings[0]; finding.At.Sheet != record.JudgeReviewSheet || finding.At.Cell == "" || finding.Code != record.NotApplied {
				t.Errorf("the finding does not lead to the cell: %+v", finding)
			}
			kept := writtenAgain(t, results, previous)
			again := readBack(t, kept)
			if len(again.Decisions) != len(previous.Decisions) || len(again.Findings) != 1 {
				t.Errorf("what the judge wrote is not kept for mending: %v", again.Decisions)
			}
		})
	}
}

// writtenAgain writes the results with what was read back, as grading again does.
func writtenAgain(t *testing.T, results *result.Results, previous *intake.Previous) []byte {
	t.Helper()
	next := *results
	next.Decisions, next.Rulings = previous.Decisions, previous.Rulings
	next.Findings = append(append([]validate.Finding(nil), results.Findings...), previous.Findings...)
	return writeAll(t, &next)
}

func TestDecisionsThatMakeSense(t *testing.T) {
	data := writeAll(t, sheetstest.FairResults(t))
	data = edit(t, data, record.FindingRow, "414", map[string]any{record.DecisionColumn: "Correct  To", record.CorrectedColumn: 13.6, record.InitialsColumn: " AB "})
	data = edit(t, data, record.CallRow, "", map[string]any{
		record.ClassColumn: sheetstest.Steers, record.TagColumn: 409, record.DecisionColumn: "place is", record.CorrectedColumn: 2, record.InitialsColumn: "AB", record.RemarkColumn: "balance",
	})
	previous := readBack(t, data)
	if len(previous.Findings) > 0 {
		t.Fatal(previous.Findings)
	}
	var found bool
	for _, decision := range previous.Decisions {
		if decision.Tag == "414" {
			found = decision.Choice == validate.Correct && decision.Value == "13.6" && decision.Initials == "AB" && !decision.Refused
		}
	}
	if !found {
		t.Errorf("the correction is not read: %+v", previous.Decisions)
	}
	// A spreadsheet drops the zero of tag 0409 from what is typed.
	if len(previous.Rulings) != 1 || previous.Rulings[0].Tag != "0409" || previous.Rulings[0].Place != 2 {
		t.Errorf("the ruling is not read: %+v", previous.Rulings)
	}
}
