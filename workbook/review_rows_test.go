package workbook

import (
	"maps"
	"testing"

	"railbook/rules/address"
	"railbook/workbook/record"

	"github.com/xuri/excelize/v2"
)

// reviewRow is a row of the Judge review sheet below a row of headings, as a judge fills it in.
type reviewRow struct {
	t        *testing.T
	file     *excelize.File
	number   int
	headings map[string]int // the column of each heading, from 1
	cells    []string
}

// reviewRows gives the rows below the headings of the Judge review sheet, those of the judge's own calls too.
func reviewRows(t *testing.T, file *excelize.File) (list []reviewRow) {
	t.Helper()
	rows, err := file.GetRows(record.JudgeReviewSheet)
	if err != nil {
		t.Fatal(err)
	}
	headings := map[string]int{}
	for at, cells := range rows {
		switch {
		case len(cells) > 0 && cells[0] == "Class":
			headings = maps.Clone(headings)
			for column, words := range cells {
				headings[words] = column + 1
			}
		case len(headings) > 0:
			list = append(list, reviewRow{t, file, at + 1, headings, cells})
		}
	}
	return list
}

// at gives what stands under a heading; empty where nothing does.
func (r reviewRow) at(heading string) string {
	if column := r.headings[heading]; column > 0 && column <= len(r.cells) {
		return r.cells[column-1]
	}
	return ""
}

// write writes a text under each of some headings.
func (r reviewRow) write(texts map[string]string) {
	r.t.Helper()
	for heading, text := range texts {
		if r.headings[heading] == 0 {
			r.t.Fatalf("the review sheet has no column %q", heading)
		}
		put(r.t, r.file, record.JudgeReviewSheet, address.Cell(r.headings[heading], r.number), text)
	}
}
