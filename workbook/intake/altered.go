package intake

import (
	"slices"
	"strings"

	"railbook/rules/address"
	"railbook/workbook/record"
	"railbook/workbook/xlsx"
)

// Altered is a sheet of ours that was taken out or says otherwise than it was written. It is no source: it is written again.
type Altered struct {
	Sheet   string
	Rows    []int    // in which it differs
	RowsOut int      // how many rows were taken out
	Cells   []string // computed cells beside the data that were typed over
	Columns bool     // the computed columns beside the data were taken out
}

// Beside is a block of computed columns beside the data, as it was written and as it stands.
type Beside struct {
	Was          record.View // the rows by the numbers that they had
	Sheet        string
	Cells        map[int][]record.ViewCell // as they stand, by row; a formula's Form is its text
	FirstColumn  int
	Columns      int
	WasHeadingAt int
	HeadingAt    int
}

// Row gives the signs of a row as it stands, its formulas as if the data stood in the columns in which they stood before.
func (b *Beside) Row(number int, columnsBefore map[int]int) string {
	cells := slices.Clone(b.Cells[number])
	for i := range cells {
		cells[i].Form = record.FormBeside(cells[i].Form, number, b.FirstColumn, b.Columns, columnsBefore)
	}
	view := record.View{Mark: b.Was.Mark}
	view.AddCells(1, b.Columns, cells)
	return view.Row(1)
}

// besideData reads the blocks of computed columns of which the record has a view. One that is gone is Altered.
func besideData(book *xlsx.Book, views []record.View) (blocks []Beside, gone []Altered, err error) {
	marked := book.Marked()
	for _, view := range views {
		if !strings.HasPrefix(view.Mark, record.ColumnsMark) {
			continue
		}
		at := slices.IndexFunc(marked, func(marked xlsx.Marked) bool { return marked.Mark == view.Mark })
		if at < 0 {
			gone = append(gone, Altered{Sheet: view.Sheet, Columns: true})
			continue
		}
		sheet, area := marked[at].Sheet, marked[at].Area
		grid, formulas, err := book.ScanFormulas(sheet, record.MostRows)
		if err != nil {
			return nil, nil, err
		}
		block := Beside{
			Was: view, Sheet: sheet, Cells: make(map[int][]record.ViewCell), FirstColumn: area.FirstColumn, HeadingAt: area.FirstRow,
			Columns:      area.LastColumn - area.FirstColumn + 1,
			WasHeadingAt: 1 + slices.IndexFunc(view.Rows, func(row string) bool { return row != "" }),
		}
		for _, row := range grid.Rows {
			if row.Number < area.FirstRow || row.Number > min(area.LastRow, record.MostRows) {
				continue
			}
			var cells []record.ViewCell
			for _, cell := range row.Cells {
				if cell.Column >= area.FirstColumn && cell.Column <= area.LastColumn {
					cells = append(cells, record.ViewCell{Column: cell.Column - area.FirstColumn + 1, Text: cell.Raw, Formula: cell.Formula, Form: formulas[xlsx.Place{Column: cell.Column, Row: row.Number}]})
				}
			}
			block.Cells[row.Number] = cells
		}
		blocks = append(blocks, block)
	}
	return blocks, gone, nil
}

// alteredViews compares the sheets that are written from the record with what was written. compared are the sheets that are there,
// with their marks.
func alteredViews(book *xlsx.Book, views []record.View, reviewGone bool) (list []Altered, compared map[string]string, err error) {
	compared = make(map[string]string)
	if reviewGone {
		list = append(list, Altered{Sheet: record.JudgeReviewSheet})
	}
	for _, view := range views {
		title := record.ViewTitle(view.Mark)
		if title == "" || view.Mark == record.JudgeReviewMark && reviewGone {
			continue
		}
		sheet, found, err := ourSheet(book, view.Mark, title)
		if err != nil {
			return nil, nil, err
		}
		if !found {
			list = append(list, Altered{Sheet: title})
			continue
		}
		grid, formulas, err := book.ScanFormulas(sheet, record.MostRows)
		if err != nil {
			return nil, nil, err
		}
		compared[sheet] = view.Mark
		now := record.View{Mark: view.Mark}
		for _, row := range grid.Rows {
			cells := make([]record.ViewCell, len(row.Cells))
			for i, cell := range row.Cells {
				cells[i] = record.ViewCell{
					Column: cell.Column, Text: cell.Raw, Formula: cell.Formula,
					Form: record.FormulaForm(formulas[xlsx.Place{Column: cell.Column, Row: row.Number}], address.Cell),
				}
			}
			now.AddRow(row.Number, cells)
		}
		if rows, gone := view.Changed(&now); len(rows)+gone > 0 {
			list = append(list, Altered{Sheet: sheet, Rows: rows, RowsOut: gone})
		}
	}
	return list, compared, nil
}
