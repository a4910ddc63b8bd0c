package kit

import "github.com/xuri/excelize/v2"

// coordinates gives the column and row of a cell, from 1; zeros for a place that is no cell.
func Coordinates(cell string) (column, row int) {
	column, row, err := excelize.CellNameToCoordinates(cell)
	if err != nil {
		return 0, 0
	}
	return column, row
}
