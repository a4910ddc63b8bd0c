package intake

import (
	"railbook/workbook/record"
	"railbook/workbook/xlsx"
)

func readLastYear(book *xlsx.Book) ([]record.LastYearLine, error) {
	table, err := ourTableOf(book, record.LastYearMark, record.LastYearSheet,
		record.FileColumn, record.SpeciesColumn, record.KindColumn, record.FigureColumn, record.OfColumn, record.OrderColumn, record.ValueColumn)
	if err != nil || table == nil {
		return nil, err
	}
	var lines []record.LastYearLine
	for _, row := range table.rows {
		lines = append(lines, record.LastYearLine{
			File: row.text(record.FileColumn), Species: row.text(record.SpeciesColumn), Kind: row.text(record.KindColumn), Figure: row.text(record.FigureColumn),
			Of: row.text(record.OfColumn), Order: row.text(record.OrderColumn), Value: row.text(record.ValueColumn),
		})
	}
	return lines, nil
}
