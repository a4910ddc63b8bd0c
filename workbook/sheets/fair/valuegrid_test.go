package fair

import (
	"testing"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/address"
	"railbook/workbook/record"
	"railbook/workbook/sheets/sheetstest"
	"railbook/workbook/xlsx"
)

// Price formulas refer to cells of the grid, so each must stand where package grading laid it.
func TestGridStandsWhereFormulasLook(t *testing.T) {
	results := sheetstest.FairResults(t)
	book, err := xlsx.OpenBytes("fair-results.xlsx", writeAll(t, results), xlsx.OpenOptions{})
	if err != nil {
		t.Fatal(err)
	}
	drawn, err := book.Scan(record.ValueGridSheet)
	if err != nil {
		t.Fatal(err)
	}
	cells := make(map[[2]int]xlsx.Cell)
	for _, row := range drawn.Rows {
		for _, cell := range row.Cells {
			cells[[2]int{row.Number, cell.Column}] = cell
		}
	}
	checked := 0
	for r, row := range grading.LayOutGrid(results.Rules, []rules.Species{rules.Beef}).Rows {
		for c, laid := range row {
			if laid.Text == "" {
				continue
			}
			checked++
			cell := cells[[2]int{r + 1, c + 1}]
			same := cell.Raw == laid.Text
			if laid.Number {
				same = cell.Kind == xlsx.Number && sheetstest.Number(cell.Raw).Equal(sheetstest.Number(laid.Text))
			}
			if !same {
				t.Errorf("cell %s%d holds %q, laid out %q", address.Column(c+1), r+1, cell.Raw, laid.Text)
			}
		}
	}
	if checked < 50 {
		t.Errorf("only %d cells were laid out", checked)
	}
}
