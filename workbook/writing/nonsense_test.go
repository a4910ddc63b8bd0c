package writing

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"railbook/validate"
	"railbook/workbook/reading"
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
	rows, err := file.GetRows(reading.JudgeReviewSheet)
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
		if cell(row, reading.KeyRowColumn) != kind || cell(row, reading.KeyTagColumn) != tag {
			continue
		}
		for heading, value := range cells {
			if err := file.SetCellValue(reading.JudgeReviewSheet, columnName(headings[heading])+fmt.Sprint(i+1), value); err != nil {
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
	results := fairResults(t)
	data := writeAll(t, results)
	for _, one := range []struct {
		name  string
		kind  string
		tag   string
		cells map[string]any
		says  string
	}{
		{"correct to nothing", reading.FindingRow, "414", map[string]any{reading.DecisionColumn: "correct to", reading.InitialsColumn: "AB"}, "no corrected value is given"},
		{"unreadable value", reading.FindingRow, "414", map[string]any{reading.DecisionColumn: "correct to", reading.CorrectedColumn: "big", reading.InitialsColumn: "AB"}, `"big"`},
		{"value out of range", reading.FindingRow, "414", map[string]any{reading.DecisionColumn: "correct to", reading.CorrectedColumn: 136, reading.InitialsColumn: "AB"}, "136 is above 25"},
		{"initials missing", reading.FindingRow, "414", map[string]any{reading.DecisionColumn: "correct to", reading.CorrectedColumn: 13.6}, "initials are missing"},
		{"unknown choice", reading.FindingRow, "414", map[string]any{reading.DecisionColumn: "maybe", reading.InitialsColumn: "AB"}, `"maybe" is not a decision`},
		{"no choice", reading.FindingRow, "414", map[string]any{reading.CorrectedColumn: 13.6, reading.InitialsColumn: "AB"}, "no decision is chosen"},
		{"accepted and corrected", reading.FindingRow, "414", map[string]any{reading.DecisionColumn: "accept as is", reading.CorrectedColumn: 13.6, reading.InitialsColumn: "AB"}, "a corrected value"},
		{"unknown tag", reading.CallRow, "", map[string]any{reading.TagColumn: "777", reading.DecisionColumn: "place is", reading.CorrectedColumn: 1, reading.InitialsColumn: "AB", reading.RemarkColumn: "best"}, "no carcass with tag 777"},
		{"no reason", reading.CallRow, "", map[string]any{reading.TagColumn: "405", reading.DecisionColumn: "place is", reading.CorrectedColumn: 1, reading.InitialsColumn: "AB"}, "needs a reason"},
		{"no place", reading.CallRow, "", map[string]any{reading.TagColumn: "405", reading.DecisionColumn: "place is", reading.CorrectedColumn: "top", reading.InitialsColumn: "AB", reading.RemarkColumn: "best"}, "not a whole number"},
		{"no such grade", reading.CallRow, "", map[string]any{reading.TagColumn: "405", reading.DecisionColumn: "quality grade is", reading.CorrectedColumn: "tasty", reading.InitialsColumn: "AB"}, `"tasty"`},
		{"unknown call", reading.CallRow, "", map[string]any{reading.TagColumn: "405", reading.DecisionColumn: "sell", reading.InitialsColumn: "AB"}, `"sell" is not a call`},
	} {
		t.Run(one.name, func(t *testing.T) {
			previous := readBack(t, edit(t, data, one.kind, one.tag, one.cells))
			if len(previous.Findings) != 1 || !strings.Contains(previous.Findings[0].Message, one.says) {
				t.Fatalf("want one finding that says %q, got %v", one.says, previous.Findings)
			}
			if finding := previous.Findings[0]; finding.At.Sheet != reading.JudgeReviewSheet || finding.At.Cell == "" || finding.Code != reading.NotApplied {
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
func writtenAgain(t *testing.T, results *Results, previous *reading.Previous) []byte {
	t.Helper()
	next := *results
	next.Decisions, next.Rulings = previous.Decisions, previous.Rulings
	next.Findings = append(append([]validate.Finding(nil), results.Findings...), previous.Findings...)
	return writeAll(t, &next)
}

func TestDecisionsThatMakeSense(t *testing.T) {
	data := writeAll(t, fairResults(t))
	data = edit(t, data, reading.FindingRow, "414", map[string]any{reading.DecisionColumn: "Correct  To", reading.CorrectedColumn: 13.6, reading.InitialsColumn: " AB "})
	data = edit(t, data, reading.CallRow, "", map[string]any{
		reading.ClassColumn: steers, reading.TagColumn: 409, reading.DecisionColumn: "place is", reading.CorrectedColumn: 2, reading.InitialsColumn: "AB", reading.RemarkColumn: "balance",
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
