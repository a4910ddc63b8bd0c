package intake

import (
	"railbook/workbook/xlsx"
)

// LastYearLine is one figure of a past year's results, kept to be set beside this year's.
type LastYearLine struct {
	File    string // the past workbook's base name
	Species string
	Kind    string // of classes: a rules.Basis
	Figure  string // CarcassesCounted, PlacedCounted, or a measure
	Of      string // the grade that is counted, or the equations that an average was computed with
	Order   string // a grade's rank, a number; empty for an average
	Value   string // a count, or a mean to six decimals
}

// The figures of a past year that are not measures.
const (
	CarcassesCounted = "carcasses"
	PlacedCounted    = "placed"
)

func readLastYear(book *xlsx.Book) ([]LastYearLine, error) {
	table, err := ourTableOf(book, LastYearMark, LastYearSheet,
		FileColumn, SpeciesColumn, KindColumn, FigureColumn, OfColumn, OrderColumn, ValueColumn)
	if err != nil || table == nil {
		return nil, err
	}
	var lines []LastYearLine
	for _, row := range table.rows {
		lines = append(lines, LastYearLine{
			File: row.text(FileColumn), Species: row.text(SpeciesColumn), Kind: row.text(KindColumn), Figure: row.text(FigureColumn),
			Of: row.text(OfColumn), Order: row.text(OrderColumn), Value: row.text(ValueColumn),
		})
	}
	return lines, nil
}
