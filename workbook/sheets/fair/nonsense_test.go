package fair

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"railbook/validate"
	"railbook/workbook/intake"
	"railbook/workbook/result"
	"railbook/workbook/sheets/kit"
	"railbook/workbook/sheets/sheetstest"

	"github.com/xuri/excelize/v2"
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
	rows, err := file.GetRows(intake.JudgeReviewSheet)
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
		if cell(row, intake.KeyRowColumn) != kind || cell(row, intake.KeyTagColumn) != tag {
			continue
		}
		for heading, value := range cells {
			if err := file.SetCellValue(intake.JudgeReviewSheet, kit.ColumnName(headings[heading])+fmt.Sprint(i+1), value); err != nil {
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
	for _, one := range []struct {
		name  string
		kind  string
		tag   string
		cells map[string]any
		says  string
	}{
		{"correct to nothing", intake.FindingRow, "414", map[string]any{intake.DecisionColumn: "correct to", intake.InitialsColumn: "AB"}, "no corrected value is given"},
		{"unreadable value", intake.FindingRow, "414", map[string]any{intake.DecisionColumn: "correct to", intake.CorrectedColumn: "big", intake.InitialsColumn: "AB"}, `"big"`},
		{"value out of range", intake.FindingRow, "414", map[string]any{intake.DecisionColumn: "correct to", intake.CorrectedColumn: 136, intake.InitialsColumn: "AB"}, "136 is above 25"},
		{"initials missing", intake.FindingRow, "414", map[string]any{intake.DecisionColumn: "correct to", intake.CorrectedColumn: 13.6}, "initials are missing"},
		{"unknown choice", intake.FindingRow, "414", map[string]any{intake.DecisionColumn: "maybe", intake.InitialsColumn: "AB"}, `"maybe" is not a decision`},
		{"no choice", intake.FindingRow, "414", map[string]any{intake.CorrectedColumn: 13.6, intake.InitialsColumn: "AB"}, "no decision is chosen"},
		{"accepted and corrected", intake.FindingRow, "414", map[string]any{intake.DecisionColumn: "accept as is", intake.CorrectedColumn: 13.6, intake.InitialsColumn: "AB"}, "a corrected value"},
		{"unknown tag", intake.CallRow, "", map[string]any{intake.TagColumn: "777", intake.DecisionColumn: "place is", intake.CorrectedColumn: 1, intake.InitialsColumn: "AB", intake.RemarkColumn: "best"}, "no carcass with tag 777"},
		{"no reason", intake.CallRow, "", map[string]any{intake.TagColumn: "405", intake.DecisionColumn: "place is", intake.CorrectedColumn: 1, intake.InitialsColumn: "AB"}, "needs a reason"},
		{"no place", intake.CallRow, "", map[string]any{intake.TagColumn: "405", intake.DecisionColumn: "place is", intake.CorrectedColumn: "top", intake.InitialsColumn: "AB", intake.RemarkColumn: "best"}, "not a whole number"},
		{"no such grade", intake.CallRow, "", map[string]any{intake.TagColumn: "405", intake.DecisionColumn: "quality grade is", intake.CorrectedColumn: "tasty", intake.InitialsColumn: "AB"}, `"tasty"`},
		{"unknown call", intake.CallRow, "", map[string]any{intake.TagColumn: "405", intake.DecisionColumn: "sell", intake.InitialsColumn: "AB"}, `"sell" is not a call`},
	} {
		t.Run(one.name, func(t *testing.T) {
			previous := readBack(t, edit(t, data, one.kind, one.tag, one.cells))
			if len(previous.Findings) != 1 || !strings.Contains(previous.Findings[0].Message, one.says) {
				t.Fatalf("want one finding that says %q, got %v", one.says, previous.Findings)
			}
			if finding := previous.Findings[0]; finding.At.Sheet != intake.JudgeReviewSheet || finding.At.Cell == "" || finding.Code != intake.NotApplied {
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
	data = edit(t, data, intake.FindingRow, "414", map[string]any{intake.DecisionColumn: "Correct  To", intake.CorrectedColumn: 13.6, intake.InitialsColumn: " AB "})
	data = edit(t, data, intake.CallRow, "", map[string]any{
		intake.ClassColumn: sheetstest.Steers, intake.TagColumn: 409, intake.DecisionColumn: "place is", intake.CorrectedColumn: 2, intake.InitialsColumn: "AB", intake.RemarkColumn: "balance",
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
