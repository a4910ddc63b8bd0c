package intake

import (
	"strings"

	"github.com/shopspring/decimal"

	"railbook/rules"
	"railbook/rules/address"
	"railbook/workbook/record"
	"railbook/workbook/xlsx"
)

// The columns of the Value grid sheet, as package grading lays it out.
const (
	gridPartColumn   = 1
	gridNameColumn   = 2
	gridFromColumn   = 3
	gridUpToColumn   = 4
	gridAdjustColumn = record.GridAdjustColumn

	// gridSpeciesWords follow the species' name in the row that opens its prices.
	gridSpeciesWords = ", $/cwt of carcass"
)

// withGridEdits gives the tables with the prices that a board has changed on the Value grid sheet of a results workbook:
// where the sheet differs from the rulebook the workbook was graded by, the sheet's figure goes into the tables, with its
// own place, so that a figure that is none is a fault of that cell. The tables have been loaded; nil where they are faulty.
func withGridEdits(book *xlsx.Book, tables, graded []rules.Table, now *rules.Rulebook) ([]rules.Table, error) {
	sheet, found := book.Ours()[record.ValueGridMark]
	if !found || len(tables) == 0 || len(graded) == 0 || now == nil {
		return tables, nil
	}
	before := now
	if &tables[0] != &graded[0] { // the board has edited its own sheets since
		if before, _ = rules.Load(graded); before == nil {
			return tables, nil
		}
	}
	grid, err := book.Scan(sheet)
	if err != nil {
		return nil, err
	}
	var species rules.Species
	for _, row := range grid.Rows {
		texts := rowTexts(row)
		if name, opens := strings.CutSuffix(texts[gridPartColumn], gridSpeciesWords); opens {
			species = rules.Species(strings.ToLower(name))
			continue
		}
		was, listed := priceOf(before, species, texts)
		if written := texts[gridAdjustColumn]; listed && !sameFigure(was, written) {
			at := rules.Place{Sheet: sheet, Cell: address.Cell(gridAdjustColumn, row.Number)}
			tables = withPrice(tables, now, species, texts, rules.Cell{Text: written, Place: at})
		}
	}
	return tables, nil
}

func rowTexts(row xlsx.Row) map[int]string {
	texts := make(map[int]string)
	for _, cell := range row.Cells {
		texts[cell.Column] = strings.TrimSpace(cell.Raw)
	}
	return texts
}

// priceOf finds the rulebook's figure for a row of the sheet; listed is false for a row that is no line of the rulebook.
func priceOf(book *rules.Rulebook, species rules.Species, texts map[int]string) (figure decimal.Decimal, listed bool) {
	if texts[gridPartColumn] == "base" {
		base := book.Settings.BasePrice[species]
		return base.Decimal, base.Valid
	}
	if line := lineOf(book, species, texts); line != nil && !line.Percent.Valid { // a percent is changed in the rulebook
		return line.Adjust, true
	}
	return decimal.Decimal{}, false
}

func lineOf(book *rules.Rulebook, species rules.Species, texts map[int]string) *rules.GridLine {
	for number := range book.Grid {
		line := &book.Grid[number]
		if line.Species != species || string(line.Part) != texts[gridPartColumn] {
			continue
		}
		banded := line.Band.From.Valid || line.Band.UpTo.Valid
		switch {
		case !banded && line.Name == texts[gridNameColumn]:
			return line
		case banded && sameBound(line.Band.From, texts[gridFromColumn]) && sameBound(line.Band.UpTo, texts[gridUpToColumn]):
			return line
		}
	}
	return nil
}

func sameBound(bound decimal.NullDecimal, written string) bool {
	if !bound.Valid {
		return written == ""
	}
	return sameFigure(bound.Decimal, written)
}

func sameFigure(figure decimal.Decimal, written string) bool {
	number, err := decimal.NewFromString(written)
	return err == nil && number.Equal(figure)
}

// withPrice puts another figure into the tables that a rulebook was loaded from.
func withPrice(tables []rules.Table, book *rules.Rulebook, species rules.Species, texts map[int]string, price rules.Cell) []rules.Table {
	if texts[gridPartColumn] == "base" {
		return rules.WithSetting(tables, "base price", species, price)
	}
	line := lineOf(book, species, texts)
	if line == nil {
		return tables
	}
	return rules.WithCell(tables, line.Place, price)
}
