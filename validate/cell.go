package validate

import (
	"strings"

	"railbook/rules"
	"railbook/rules/measure"
)

// cellFor gives the cell where a measure of the carcass stands or, where it is blank, would stand.
func (s *survey) cellFor(r *row, id measure.ID) rules.Place {
	if reading, written := r.Written(id); written {
		return reading.Place
	}
	if r.sheet == nil {
		return r.Place
	}
	heading, has := r.sheet.Columns[id]
	if !has {
		return r.Place
	}
	place := r.Place
	if r.sheet.sideways() {
		place.Cell = letters(r.Place.Cell) + strings.TrimLeft(heading.Cell, alphabet)
	} else {
		place.Cell = letters(heading.Cell) + strings.TrimLeft(r.Place.Cell, alphabet)
	}
	return place
}

const alphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"

func letters(cell string) string {
	return cell[:len(cell)-len(strings.TrimLeft(cell, alphabet))]
}

// sideways reports whether measures run down the sheet and animals across: all headings stand in one column.
func (sheet *Sheet) sideways() bool {
	column := ""
	for _, heading := range sheet.Columns {
		if column != "" && letters(heading.Cell) != column {
			return false
		}
		column = letters(heading.Cell)
	}
	return len(sheet.Columns) > 1
}
