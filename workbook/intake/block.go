package intake

import (
	"slices"

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

// Line gives the row of a carcass, on a sideways sheet its column; here is false where the block has it not.
func (b *Block) Line(carcass *grading.Carcass) (line int, here bool) {
	at, found := slices.BinarySearchFunc(b.Carcasses, carcass.Sequence, func(carcass *grading.Carcass, wanted int) int { return carcass.Sequence - wanted })
	if !found || b.Carcasses[at] != carcass {
		return 0, false
	}
	return b.Lines[at], true
}

// FormCells gives where each measure of a carcass stands or would stand on its printed form; nil for a table.
func (b *Block) FormCells(carcass *grading.Carcass) map[measure.ID]rules.Place {
	if b.cells == nil {
		return nil
	}
	cells := map[measure.ID]rules.Place{}
	line, _ := b.Line(carcass)
	for _, heading := range b.Headings {
		if cell := b.CellAt(heading, line); cell != "" && heading.Measure != measure.None {
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

func (tr *tableReader) block() Block {
	block := Block{
		Sheet: tr.table.page.sheet, FirstRow: tr.table.bottom, LastRow: tr.table.bottom, Sideways: tr.table.page.turned,
		Beside: tr.table.beside || tr.table.page.form, Weights: tr.statedWeights(),
		Unread: tr.fittingUnread(), Unheaded: tr.fittingUnheaded(),
	}
	for _, under := range tr.parsersFor(tr.mainSpecies()) {
		heading := Heading{
			Column: under.column.number, Cell: tr.table.page.place(under.column.at).Cell, Text: under.column.text,
			Because: under.column.meaning.because,
		}
		if under.parser != nil {
			heading.Measure = under.parser.definition.ID
			if !under.parser.scale.own() {
				heading.Unit = under.parser.scale.unit
			}
		}
		block.Headings = append(block.Headings, heading)
	}
	if tr.table.page.form {
		block.cells = map[position]string{}
		for at := range tr.table.page.cells {
			block.cells[at] = tr.table.page.place(at).Cell
		}
	}
	return block
}
