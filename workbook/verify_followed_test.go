package workbook

import (
	"testing"

	"railbook/rules"
	"railbook/workbook/intake"
	"railbook/workbook/record"
)

// A cell of ours stands as it was written where the record tells rows apart and its row is not altered.
func TestACellStandsAsItWasWritten(t *testing.T) {
	work := &job{previous: &intake.Previous{
		Compared: map[string]string{"Summary": record.SummaryMark, "Draft reasons": record.ReasonsMark, "Judge review": record.JudgeReviewMark},
		Altered:  []intake.Altered{{Sheet: "Summary", Rows: []int{4}}, {Sheet: "Kill sheet", Cells: []string{"L8"}}},
		Beside:   []intake.Beside{{Sheet: "Kill sheet", FirstColumn: 12, Columns: 3}},
	}}
	for at, want := range map[rules.Place]bool{
		{Sheet: "Summary", Cell: "B3"}:         true,
		{Sheet: "Summary", Cell: "B4"}:         false, // its row was edited
		{Sheet: "Summary", Cell: "B3000"}:      true,
		{Sheet: "Summary", Cell: "B3001"}:      false, // further down rows are not told apart
		{Sheet: "Summary"}:                     false,
		{Sheet: "Draft reasons", Cell: "D4"}:   true,
		{Sheet: "Draft reasons", Cell: "E4"}:   false, // the judge's words
		{Sheet: "Judge review", Cell: "A7"}:    false, // its rows may stand in another order
		{Sheet: "Kill sheet", Cell: "K8"}:      false, // the fair's own
		{Sheet: "Kill sheet", Cell: "L7"}:      true,
		{Sheet: "Kill sheet", Cell: "L8"}:      false, // edited
		{Sheet: "Kill sheet", Cell: "N8"}:      true,
		{Sheet: "Kill sheet", Cell: "O8"}:      false, // right of ours
		{Sheet: "A sheet of ours", Cell: "A1"}: false, // of which the record has no sums
	} {
		if got := work.asWritten(at); got != want {
			t.Errorf("%v: %t, want %t", at, got, want)
		}
	}
}
