package intake

import (
	"fmt"
	"strings"
	"testing"

	"railbook/rules"
	"railbook/rules/measure"
	"railbook/workbook/xlsx"

	"github.com/xuri/excelize/v2"
	"pgregory.net/rapid"
)

// typedCells are what people and spreadsheet programs leave in cells, right and wrong.
var typedCells = []xlsx.Cell{
	{Kind: xlsx.Number, Raw: "812"},
	{Kind: xlsx.Number, Raw: "0.45"},
	{Kind: xlsx.Number, Raw: "0.025", Percent: true},
	{Kind: xlsx.Number, Raw: "45726", Date: true},
	{Kind: xlsx.Number, Raw: "440"},
	{Kind: xlsx.Number, Raw: "13.6", Formula: true},
	{Kind: xlsx.Bool, Raw: "TRUE"},
	{Kind: xlsx.ErrorValue, Raw: "#DIV/0!", Formula: true},
	{Kind: xlsx.Blank, Formula: true},
	{Kind: xlsx.Text, Raw: "812#"},
	{Kind: xlsx.Text, Raw: "0412"},
	{Kind: xlsx.Text, Raw: "SM 40"},
	{Kind: xlsx.Text, Raw: "A60"},
	{Kind: xlsx.Text, Raw: "Steers"},
	{Kind: xlsx.Text, Raw: "n/a"},
	{Kind: xlsx.Text, Raw: "?"},
	{Kind: xlsx.Text, Raw: "Average"},
	{Kind: xlsx.Text, Raw: "CLASS 2 - HEIFERS"},
	{Kind: xlsx.Text, Raw: "dark cutter"},
	{Kind: xlsx.Text, Raw: "Tag"},
	{Kind: xlsx.Text, Raw: "HCW"},
	{Kind: xlsx.Text, Raw: "two words"},
	{Kind: xlsx.Text, Raw: "\u00a0"},
	{Kind: xlsx.Text, Raw: "x"},
	{Kind: xlsx.Text, Raw: "8.4E+14"},
}

var headingCells = []string{
	"Tag", "Class", "HCW", "Fat", "REA", "KPH", "Marbling", "Mat", "Live wt (kg)", "Remarks", "DC", "YG", "QG", "Kill date",
	"Exhibitor", "Species", "HCW", "Body wall", "Rail #", "Buyer", "Adj", "",
}

// drawGrid draws a sheet: a heading row somewhere near the top, and under it anything at all.
func drawGrid(t *rapid.T) *xlsx.Grid {
	grid := &xlsx.Grid{}
	width := rapid.IntRange(3, 9).Draw(t, "columns")
	top := rapid.IntRange(1, 3).Draw(t, "top")
	headings := xlsx.Row{Number: top}
	for column, text := range append([]string{"Tag", "HCW", "Fat"}, rapid.SliceOfN(rapid.SampledFrom(headingCells), width-3, width-3).Draw(t, "headings")...) {
		if text != "" {
			headings.Cells = append(headings.Cells, xlsx.Cell{Column: column + 1, Kind: xlsx.Text, Raw: text})
		}
	}
	grid.Rows = append(grid.Rows, headings)
	for number := top + 1; number <= top+rapid.IntRange(1, 8).Draw(t, "rows"); number++ {
		row := xlsx.Row{Number: number, Hidden: rapid.Bool().Draw(t, "hidden")}
		for column := 1; column <= width+1; column++ {
			if rapid.IntRange(0, 2).Draw(t, "blank") == 0 {
				continue
			}
			cell := rapid.SampledFrom(typedCells).Draw(t, "cell")
			cell.Column = column
			row.Cells = append(row.Cells, cell)
		}
		grid.Rows = append(grid.Rows, row)
	}
	if rapid.Bool().Draw(t, "merge") {
		row, column := rapid.IntRange(top, top+4).Draw(t, "merged row"), rapid.IntRange(1, width).Draw(t, "merged column")
		grid.Merged = []xlsx.Range{{FirstColumn: column, FirstRow: row, LastColumn: column, LastRow: row + 1}}
		for i := range grid.Rows {
			if grid.Rows[i].Number == row+1 {
				kept := grid.Rows[i].Cells[:0:0]
				for _, cell := range grid.Rows[i].Cells {
					if cell.Column != column {
						kept = append(kept, cell)
					}
				}
				grid.Rows[i].Cells = kept
			}
		}
	}
	return grid
}

// TestNothingIsDropped: every cell that holds something is a value, a finding or said to be passed over; and nothing that
// is no zero becomes one.
func TestNothingIsDropped(t *testing.T) {
	shared := newReader(rules.Default(), Options{Species: rules.Beef})
	rapid.Check(t, func(t *rapid.T) {
		grid := drawGrid(t)
		r := afresh(shared)
		r.scanSheet(newPage("", "Sheet1", grid, false), false)
		if r.countTables(carcassTable) != 1 || len(r.tables) != 1 {
			t.Skip("no one carcass table")
		}
		r.readTables()
		if dropped := whatIsDropped(r, newPage("", "Sheet1", grid, false)); dropped != "" {
			t.Fatal(dropped)
		}
	})
}

// afresh gives a reader of the same rulebook that has read nothing yet.
func afresh(shared *reader) *reader {
	r := *shared
	r.result, r.listed = &Result{}, map[string]rules.Species{}
	return &r
}

// whatIsDropped names a cell under the first table's headings of which nothing is said, or a value that became a zero.
func whatIsDropped(r *reader, p *page) string {
	said := whatIsSaid(r.result)
	for _, row := range p.lines {
		if row.number <= r.tables[0].bottom {
			continue
		}
		for _, cell := range row.cells {
			if nothing(cell) || formulaText(cell) {
				continue
			}
			place := p.place(position{row.number, cell.Column})
			if !said.cells[place.Cell] && !said.rows[row.number] && !said.columns[cell.Column] {
				return fmt.Sprintf("nothing is said of cell %s, %q", place.Cell, cell.Raw)
			}
		}
	}
	for _, carcass := range r.result.Carcasses {
		for id, reading := range carcass.Readings() {
			definition, _ := measure.Define(id)
			if definition.Kind == measure.KindNumber && !reading.Unreadable && reading.Value.Number.IsZero() && !hasZero(reading.Written) {
				return fmt.Sprintf("%s %q became a zero", id, reading.Written)
			}
		}
	}
	return ""
}

// FuzzSheet: no text file breaks the reader, and no cell of one upright table is dropped.
func FuzzSheet(f *testing.F) {
	f.Add("Steers\nTag,HCW,Fat\n101,812,.45\nAverage,812,.45\n")
	f.Add("Tag;Class;HCW;Fat\n101;Steers;812,5;0,45\n;;;\n note\n")
	f.Add("Tag,101,102\nHCW,812,790\nFat,.45,.3\n")
	f.Add("Tag,HCW,Fat,,Tag,HCW,Fat\n1,812,.45,,7,790,.3\n")
	f.Add("Ear,Hot,KPH\ntag,wt (kg),%\n0412,356,2.5\nTag,HCW,KPH\n413,1,2\n")
	f.Add("Tag,HCW,Fat,KPH,Tag,KPH,Tag,Tag\n,,,812,,.45\n,,,812,,.45\n,,,812,,.45\n,,,812,,.45\n") // a second column that says otherwise
	shared := newReader(rules.Default(), Options{Species: rules.Beef})
	f.Fuzz(func(t *testing.T, text string) {
		file, err := xlsx.OpenBytes("sheet.csv", []byte(text), xlsx.OpenOptions{})
		if err != nil {
			return
		}
		grid, err := file.Scan("sheet")
		if err != nil {
			return
		}
		r := afresh(shared)
		r.scanSheet(newPage("", "sheet", grid, true), false)
		if r.countTables(carcassTable) == 0 {
			return
		}
		r.readTables()
		if len(r.tables) != 1 || r.tables[0].page.turned {
			return
		}
		if dropped := whatIsDropped(r, r.tables[0].page); dropped != "" {
			t.Fatal(dropped)
		}
	})
}

// said is where something is said: of a cell, a whole row, or a whole column.
type said struct {
	cells         map[string]bool
	rows, columns map[int]bool
}

func whatIsSaid(result *Result) said {
	all := said{map[string]bool{}, map[int]bool{}, map[int]bool{}}
	for _, carcass := range result.Carcasses {
		for _, reading := range carcass.Readings() {
			all.cells[reading.Place.Cell] = true
		}
	}
	for _, finding := range result.Findings {
		all.cells[finding.At.Cell] = true
	}
	for _, passed := range result.Passed {
		all.cells[passed.At.Cell] = true
		column, row, err := excelize.CellNameToCoordinates(passed.At.Cell)
		if err != nil {
			continue
		}
		if strings.Contains(passed.Why, "column") {
			all.columns[column] = true
		}
		if passed.Line {
			all.rows[row] = true
		}
	}
	return all
}
