package workbook

import (
	"fmt"
	"strconv"

	"github.com/shopspring/decimal"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/address"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/intake"
	"railbook/workbook/xlsx"
)

// cellAt gives a cell as it is stored; found is false for a blank one.
func (j *job) cellAt(at rules.Place) (cell xlsx.Cell, found bool) {
	column, number, ok := address.Parse(at.Cell)
	if !ok {
		return cell, false
	}
	grid, err := j.book.Scan(at.Sheet)
	if err != nil {
		return cell, false // a sheet that was read can be read again
	}
	for _, row := range grid.Rows {
		for _, cell := range row.Cells {
			if row.Number == number && cell.Column == column {
				return cell, cell.Raw != ""
			}
		}
	}
	return cell, false
}

// asStored is a cell that says what a text says that was stored before.
func asStored(text string, isText bool, hint string) xlsx.CellChange {
	change := xlsx.CellChange{Kind: xlsx.Text, Value: text, Hint: hint}
	if text == "" {
		change.Kind = xlsx.Blank
	} else if _, err := decimal.NewFromString(text); err == nil && !isText {
		change.Kind = xlsx.Number
	}
	return change
}

// putOn finds the carcass whose cell a decision has changed: by its name now, of several with one name by the row.
func putOn(read *intake.Result, put *validate.Put) *grading.Carcass {
	return carcassOf(read, &validate.Decision{Class: put.Class, Tag: put.Tag, Found: put.At})
}

// readCell is a measure of a carcass.
type readCell struct {
	carcass *grading.Carcass
	measure measure.ID
}

// readAt finds what was read from a cell.
func readAt(read *intake.Result, at rules.Place) (cell readCell) {
	for _, carcass := range read.Carcasses {
		for id, reading := range carcass.Readings() {
			// A class that a title gives has its carcass's place, where the tag stands.
			if reading.Place == at && (cell.carcass == nil || cell.measure == measure.ClassName) {
				cell = readCell{carcass: carcass, measure: id}
			}
		}
	}
	return cell
}

// carcassOf finds the carcass a decision is about: by its id where that is known; else by tag and class, and where several have both, by the cell; without a
// tag by the cell alone.
func carcassOf(read *intake.Result, decision *validate.Decision) *grading.Carcass {
	var found *grading.Carcass
	for _, carcass := range read.Carcasses {
		if decision.Carcass > 0 && carcass.ID == decision.Carcass {
			return carcass
		}
	}
	for _, carcass := range read.Carcasses {
		if carcass.Tag != decision.Tag || carcass.Class != decision.Class {
			continue
		}
		if found == nil && decision.Tag != "" || standsAt(read, carcass, decision.Found) {
			found = carcass
		}
	}
	return found
}

// standsAt reports whether a place is on a carcass's line.
func standsAt(read *intake.Result, carcass *grading.Carcass, place rules.Place) bool {
	for b := range read.Blocks {
		block := &read.Blocks[b]
		if line, here := block.Line(carcass); here && block.Sheet == place.Sheet && lineOf(place, block.Sideways) == strconv.Itoa(line) {
			return true
		}
	}
	return carcass.Place == place
}

// cellOf gives the cell in which a carcass's measure stands or would stand; an empty place where its block has no
// heading for the measure.
func cellOf(read *intake.Result, carcass *grading.Carcass, id measure.ID) (rules.Place, *intake.Block) {
	if now, found := carcass.Written(id); found && now.Place.File == "" {
		for b := range read.Blocks {
			if _, here := read.Blocks[b].Line(carcass); here {
				return now.Place, &read.Blocks[b]
			}
		}
	}
	for b := range read.Blocks {
		block := &read.Blocks[b]
		line, here := block.Line(carcass)
		if !here {
			continue
		}
		for _, heading := range block.Headings {
			if heading.Measure == id {
				return rules.Place{Sheet: block.Sheet, Cell: block.CellAt(heading, line)}, block
			}
		}
		return rules.Place{}, block
	}
	return rules.Place{}, nil
}

// cellChange writes a corrected value so that it is read as meant whatever unit the column is in: a plain number where
// the column has the measure's own unit, else the number with its unit.
func cellChange(value measure.Value, was string, decision *validate.Decision, block *intake.Block) xlsx.CellChange {
	hint := fmt.Sprintf("Was %s. Corrected by %s.", orBlank(was), decision.Initials)
	definition, _ := measure.Define(decision.Measure)
	if definition.Kind != measure.KindNumber {
		return xlsx.CellChange{Kind: xlsx.Text, Value: value.Text, Hint: hint}
	}
	if block.OwnUnit(decision.Measure) {
		return xlsx.CellChange{Kind: xlsx.Number, Value: value.Number.String(), Hint: hint}
	}
	return xlsx.CellChange{Kind: xlsx.Text, Value: value.Number.String() + " " + definition.Unit, Hint: hint}
}

func orBlank(text string) string {
	if text == "" {
		return "blank"
	}
	return text
}

func sameValue(a, b measure.Value) bool { return a.Number.Equal(b.Number) && a.Text == b.Text }
