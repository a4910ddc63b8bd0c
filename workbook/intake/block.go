package intake

import (
	"railbook/rules/address"
	"railbook/rules/measure"
)

// CellAt gives the cell under a heading on a carcass's line: a row, or on a sideways sheet a column.
func (b *Block) CellAt(heading Heading, line int) string {
	column, row := heading.Column, line
	if b.Sideways {
		column, row = line, heading.Column
	}
	return address.Cell(column, row)
}

// OwnUnit reports whether the column of a measure holds plain numbers in the measure's own unit.
func (b *Block) OwnUnit(id measure.ID) bool {
	definition, _ := measure.Define(id)
	for _, heading := range b.Headings {
		if heading.Measure == id {
			return heading.Unit == "" || heading.Unit == definition.Unit
		}
	}
	return false
}
