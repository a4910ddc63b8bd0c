package intake

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/validate"
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
		if dropped := whatIsDropped(r); dropped != "" {
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

// whatIsDropped names a cell under a carcass table's headings of which nothing is said, or a value that became a zero. A cell
// is said where it is a reading, is named by a finding, or was passed over by itself, with its line or with its column.
func whatIsDropped(r *reader) string {
	for _, t := range r.tables {
		if t.kind != carcassTable || wholeSheetPassed(r.result, t.page) {
			continue
		}
		said := whatIsSaid(r.result, t)
		for _, row := range t.page.lines {
			if row.number <= t.bottom || row.number > t.lastLine {
				continue
			}
			for _, cell := range row.cells {
				if nothing(cell) || formulaText(cell) || cell.Column < t.first || cell.Column > t.last {
					continue
				}
				place := t.page.place(position{row.number, cell.Column})
				if !said.cells[place.Cell] && !said.lines[row.number] && !said.columns[cell.Column] {
					return fmt.Sprintf("nothing is said of %s, %q", place, cell.Raw)
				}
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

// wholeSheetPassed reports whether a sheet was passed over as a whole, which is asked about.
func wholeSheetPassed(result *Result, p *page) bool {
	return slices.ContainsFunc(result.Passed, func(passed PassedOver) bool {
		return passed.At.Cell == "" && passed.At.Sheet == p.sheet && passed.At.File == p.file
	})
}

// FuzzSheet: no text file breaks the reader, and no cell of its carcass tables is dropped.
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
		if dropped := whatIsDropped(r); dropped != "" {
			t.Fatal(dropped)
		}
	})
}

// said is where something is said of a table: of a cell by its name, of a whole line, or of a whole column of the page.
type said struct {
	cells          map[string]bool
	lines, columns map[int]bool
}

func whatIsSaid(result *Result, t *table) said {
	all := said{map[string]bool{}, map[int]bool{}, map[int]bool{}}
	here := func(at rules.Place) bool { return at.Sheet == t.page.sheet && at.File == t.page.file && at.Cell != "" }
	for _, carcass := range result.Carcasses {
		for _, reading := range carcass.Readings() {
			if here(reading.Place) {
				all.cells[reading.Place.Cell] = true
			}
		}
	}
	unused := ""
	for _, finding := range result.Findings {
		if here(finding.At) {
			all.cells[finding.At.Cell] = true
		}
		if finding.Code == "not used" && finding.At.Sheet == t.page.sheet {
			unused += finding.Message
		}
	}
	for _, column := range t.columns {
		heading := t.page.place(column.at)
		all.columns[column.number] = len(column.meaning.candidates) == 0 && strings.Contains(unused, phrase.Quote(column.text)) ||
			slices.ContainsFunc(result.Passed, func(passed PassedOver) bool { return passed.At == heading && strings.Contains(passed.Why, "column") }) ||
			slices.ContainsFunc(result.Findings, func(finding validate.Finding) bool {
				return finding.At == heading && slices.Contains([]string{HeadingNotRecognised, "column not read", "tag in two columns"}, finding.Code)
			})
	}
	for _, passed := range result.Passed {
		if !here(passed.At) {
			continue
		}
		all.cells[passed.At.Cell] = true
		if passed.Line {
			if at, found := t.page.find(passed.At.Cell); found {
				all.lines[at.line] = true
			}
		}
	}
	return all
}

// find gives the position on the page of a cell of the file.
func (p *page) find(cell string) (position, bool) {
	for at := range p.cells {
		if p.place(at).Cell == cell {
			return at, true
		}
	}
	column, row, err := excelize.CellNameToCoordinates(cell)
	if p.turned {
		column, row = row, column
	}
	return position{row, column}, err == nil
}

// TestNothingOfALayoutIsDropped: on every sheet of testdata/layouts each cell of a carcass's line is a reading, or its column
// is in the list of those that are not used, or a finding names it.
func TestNothingOfALayoutIsDropped(t *testing.T) {
	files, err := filepath.Glob("../../testdata/layouts/*.[xct]*")
	if err != nil {
		t.Fatal(err)
	}
	lines := 0
	for _, file := range files {
		name := filepath.Base(file)
		if strings.HasSuffix(name, ".expected.csv") || strings.HasSuffix(name, ".findings.csv") {
			continue
		}
		book, err := xlsx.Open(file, xlsx.OpenOptions{})
		if err != nil {
			t.Fatal(err)
		}
		r := newReader(rules.Shipped(), Options{})
		if err := r.scan(book, false); err != nil {
			t.Fatal(err)
		}
		r.readTables()
		lines += len(r.result.Carcasses)
		if dropped := whatIsDropped(r); dropped != "" {
			t.Errorf("%s: %s", name, dropped)
		}
	}
	if lines < 270 {
		t.Errorf("only %d carcasses were read", lines)
	}
}
