package validate

import (
	"railbook/rules"
	"railbook/rules/address"
	"railbook/rules/measure"
)

// cellFor gives the cell where a measure of the carcass stands or, where it is blank, would stand.
func (s *checker) cellFor(r *row, id measure.ID) rules.Place {
	if reading, written := r.Written(id); written {
		return reading.Place
	}
	if r.sheet == nil {
		return r.Place
	}
	if r.sheet.Cells != nil {
		if own, has := r.form[id]; has {
			return own
		}
		return r.Place
	}
	heading, has := r.sheet.Columns[id]
	if !has {
		return r.Place
	}
	place := r.Place
	column, row, isCell := address.Parse(r.Place.Cell)
	headingColumn, headingRow, isHeading := address.Parse(heading.Cell)
	switch {
	case !isCell || !isHeading:
	case r.sheet.sideways():
		place.Cell = address.Cell(column, headingRow)
	default:
		place.Cell = address.Cell(headingColumn, row)
	}
	return place
}

// sideways reports whether measures run down the sheet and animals across: all headings stand in one column.
func (sheet *Sheet) sideways() bool {
	common := 0
	for _, heading := range sheet.Columns {
		column, _, _ := address.Parse(heading.Cell)
		if common != 0 && column != common {
			return false
		}
		common = column
	}
	return len(sheet.Columns) > 1
}
