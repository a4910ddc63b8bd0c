package intake

import (
	"slices"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"railbook/rules"
	"railbook/rules/address"
	"railbook/rules/phrase"
	"railbook/workbook/record"
	"railbook/workbook/xlsx"
)

// ourTable is a table on one of our own sheets, found by its headings, so that it may have been sorted, filtered, moved
// or re-saved by another program in the meantime.
type ourTable struct {
	sheet    string
	columns  map[string]int // heading → column, from 1
	headings xlsx.Row       // the row of them
	date1904 bool
	above    []xlsx.Row // the rows before the headings
	rows     []ourRow
}

// ourRow is one row under the headings.
type ourRow struct {
	table *ourTable
	xlsx.Row
}

// tableIn finds the row that holds all the headings and gives the rows below it, blank ones left out. The table is nil
// where no row does.
func tableIn(grid *xlsx.Grid, sheet string, headings []string) *ourTable {
	var table *ourTable
	var above []xlsx.Row
	for _, row := range grid.Rows {
		if columns := headingColumns(row, headings); columns != nil {
			if table == nil {
				table = &ourTable{sheet: sheet, columns: columns, headings: row, date1904: grid.Date1904, above: above}
			}
			continue
		}
		if table == nil {
			above = append(above, row)
			continue
		}
		table.rows = append(table.rows, ourRow{table, row})
	}
	return table
}

// without gives the first of some headings that a row of headings lacks, and the cell in which it most likely stood: the one
// whose text is nearest to it.
func without(row xlsx.Row, headings []string) (missing, cell string) {
	there := make(map[string]bool)
	var others []string
	for _, cell := range row.Cells {
		there[cell.Raw] = true
		if !slices.Contains(headings, cell.Raw) {
			others = append(others, cell.Raw)
		}
	}
	at := slices.IndexFunc(headings, func(heading string) bool { return !there[heading] })
	if at < 0 {
		return "", ""
	}
	cell = address.Cell(1, row.Number)
	for _, filled := range row.Cells { // the hidden headings stand side by side
		if at+1 < len(headings) && filled.Raw == headings[at+1] && filled.Column > 1 {
			return headings[at], address.Cell(filled.Column-1, row.Number)
		}
	}
	if nearest := phrase.Nearest(headings[at], others); nearest != "" {
		for _, filled := range row.Cells {
			if filled.Raw == nearest {
				cell = address.Cell(filled.Column, row.Number)
			}
		}
	}
	return headings[at], cell
}

// nearestHeadings gives the row that has the most of some headings, which is none where somebody wrote over one of them.
func nearestHeadings(grid *xlsx.Grid, headings []string) (nearest xlsx.Row) {
	most := 0
	for _, row := range grid.Rows {
		count := 0
		for _, cell := range row.Cells {
			if slices.Contains(headings, cell.Raw) {
				count++
			}
		}
		if count > most {
			most, nearest = count, row
		}
	}
	return nearest
}

// headingColumns gives the columns of a heading row; nil for a row that lacks one of the headings.
func headingColumns(row xlsx.Row, headings []string) map[string]int {
	columns := make(map[string]int)
	for _, cell := range row.Cells {
		text := strings.TrimSpace(cell.Raw)
		if _, known := columns[text]; !known {
			columns[text] = cell.Column
		}
	}
	for _, heading := range headings {
		if columns[heading] == 0 {
			return nil
		}
	}
	return columns
}

// text is what a cell says: a date as 2025-06-30, a number as it is stored, text as it stands.
func (r ourRow) text(heading string) string {
	column := r.table.columns[heading]
	for _, cell := range r.Cells {
		if cell.Column != column {
			continue
		}
		if cell.Kind == xlsx.Number && cell.Date {
			return isoDate(cell.Raw, r.table.date1904)
		}
		return cell.Raw
	}
	return ""
}

// typed is what a person typed into a cell, without the blanks around it.
func (r ourRow) typed(heading string) string {
	return strings.TrimSpace(strings.ReplaceAll(r.text(heading), "\u00a0", " "))
}

func (r ourRow) place(heading string) rules.Place {
	return rules.Place{Sheet: r.table.sheet, Cell: address.Cell(r.table.columns[heading], r.Number)}
}

// isoDate writes a spreadsheet's count of days as a date; what is no count stays as it is.
func isoDate(raw string, date1904 bool) string {
	days, err := decimal.NewFromString(raw)
	if err != nil || days.IsNegative() || days.GreaterThan(decimal.NewFromInt(2958465)) { // 9999-12-31
		return raw
	}
	first := time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)
	if date1904 {
		first = time.Date(1904, 1, 1, 0, 0, 0, 0, time.UTC)
	}
	return first.AddDate(0, 0, int(days.IntPart())).Format(time.DateOnly)
}

// ourSheet finds a sheet of ours by its mark, or, where a program has dropped the workbook's names, by the title in its
// first cell and its own name.
func ourSheet(book *xlsx.Book, mark, title string) (sheet string, found bool, err error) {
	if sheet, found = book.Ours()[mark]; found {
		return sheet, true, nil
	}
	for _, sheet := range book.Sheets() {
		if !strings.HasPrefix(sheet.Name, title) {
			continue
		}
		grid, err := book.Scan(sheet.Name)
		if err != nil {
			return "", false, err
		}
		if titled(grid, title) {
			return sheet.Name, true, nil
		}
	}
	return "", false, nil
}

// titled reports whether a sheet's first cell is our title: "Readings: Provisional"; that of the record is its form.
func titled(grid *xlsx.Grid, title string) bool {
	if len(grid.Rows) == 0 || grid.Rows[0].Number != 1 || len(grid.Rows[0].Cells) == 0 || grid.Rows[0].Cells[0].Column != 1 {
		return false
	}
	first := grid.Rows[0].Cells[0].Raw
	return title == record.StateSheet && first == record.Form || first == title+": "+record.Provisional || first == title+": "+record.Signed || first == title
}
