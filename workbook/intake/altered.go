package intake

import (
	"railbook/workbook/record"
	"railbook/workbook/xlsx"
)

// Altered is a sheet of ours that was taken out or says otherwise than it was written. It is no source: it is written again.
type Altered struct {
	Sheet string
	Rows  []int // in which it differs; empty where the sheet is gone
}

// alteredViews compares the sheets that are written from the record with what was written.
func alteredViews(book *xlsx.Book, views []record.View, reviewGone bool) (list []Altered, err error) {
	if reviewGone {
		list = append(list, Altered{Sheet: record.JudgeReviewSheet})
	}
	for _, view := range views {
		title := record.ViewTitle(view.Mark)
		sheet, found, err := ourSheet(book, view.Mark, title)
		if err != nil {
			return nil, err
		}
		if !found {
			list = append(list, Altered{Sheet: title})
			continue
		}
		grid, err := book.Scan(sheet)
		if err != nil {
			return nil, err
		}
		now := record.View{}
		for _, row := range grid.Rows {
			cells := make([]record.ViewCell, len(row.Cells))
			for i, cell := range row.Cells {
				cells[i] = record.ViewCell{Column: cell.Column, Text: cell.Raw, Formula: cell.Formula}
			}
			now.AddRow(row.Number, cells)
		}
		if rows := view.Changed(&now); len(rows) > 0 {
			list = append(list, Altered{Sheet: sheet, Rows: rows})
		}
	}
	return list, nil
}
