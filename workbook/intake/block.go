package intake

import (
	"railbook/grading"
	"railbook/rules"
	"railbook/rules/address"
	"railbook/rules/measure"
)

// CellAt gives the cell under a heading on a carcass's line: a row, or on a sideways sheet a column. On a printed form it is
// the cell beside the label, or empty where the carcass's form has no such label.
func (b *Block) CellAt(heading Heading, line int) string {
	if b.cells != nil {
		return b.cells[position{line, heading.Column}]
	}
	column, row := heading.Column, line
	if b.Sideways {
		column, row = line, heading.Column
	}
	return address.Cell(column, row)
}

// FormCells gives where each measure of a carcass stands or would stand on its printed form; nil for a table.
func (b *Block) FormCells(carcass *grading.Carcass) map[measure.ID]rules.Place {
	if b.cells == nil {
		return nil
	}
	cells := map[measure.ID]rules.Place{}
	for _, heading := range b.Headings {
		if cell := b.CellAt(heading, b.Rows[carcass]); cell != "" && heading.Measure != measure.None {
			cells[heading.Measure] = rules.Place{Sheet: b.Sheet, Cell: cell}
		}
	}
	return cells
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
