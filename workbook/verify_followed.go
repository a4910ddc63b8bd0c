package workbook

import (
	"fmt"
	"slices"
	"strings"

	"railbook/rules"
	"railbook/rules/address"
	"railbook/rules/phrase"
	"railbook/workbook/intake"
	"railbook/workbook/record"
)

// editedCells gives of the cells of ours that say otherwise than the workbook would say, made again, those that somebody edited. The
// others stand, by the sums that the record keeps of them, as they were written when it was signed: what they would say now
// follows from an edit elsewhere, in a title or a list that is read and not sealed, and is said once, where nothing else is.
func (j *job) editedCells(cells []Difference) (edited []Difference, followed *Difference) {
	var first rules.Place
	count := 0
	for _, cell := range cells {
		if cell.unsummed || cell.recalculated || !strings.Contains(cell.Message, " when signed and is ") || !j.asWritten(cell.At) {
			edited = append(edited, cell)
			continue
		}
		if count++; count == 1 {
			first = cell.At
		}
	}
	if count > 0 {
		edited = slices.DeleteFunc(edited, func(cell Difference) bool { return cell.At.Sheet == j.reviewSheet() && !j.altered(cell.At.Sheet) })
		followed = &Difference{Message: fmt.Sprintf("what is read besides the data, such as a title, a heading or a list, was changed: made again, the results would say otherwise in %s, first in sheet %q, cell %s. Those cells were not edited.",
			phrase.Plural(count, "cell", "cells"), first.Sheet, first.Cell)}
	}
	return edited, followed
}

// reviewSheet is the sheet whose rows people may put in another order, so that their sums tell only of all of them together.
func (j *job) reviewSheet() string {
	for sheet, mark := range j.previous.Compared {
		if mark == record.JudgeReviewMark {
			return sheet
		}
	}
	return ""
}

// altered reports whether anything of a sheet of ours is otherwise than it was written.
func (j *job) altered(sheet string) bool {
	return slices.ContainsFunc(j.previous.Altered, func(altered intake.Altered) bool { return altered.Sheet == sheet })
}

// asWritten reports whether a cell of ours is known to stand as it was written.
func (j *job) asWritten(at rules.Place) bool {
	column, row, ok := address.Parse(at.Cell)
	if !ok {
		return false
	}
	altered := func(cells bool) bool {
		return slices.ContainsFunc(j.previous.Altered, func(sheet intake.Altered) bool {
			switch {
			case sheet.Sheet != at.Sheet:
				return false
			case cells:
				return sheet.Columns || slices.Contains(sheet.Cells, at.Cell)
			}
			return sheet.RowsOut > 0 || len(sheet.Rows) == 0 && len(sheet.Cells) == 0 || slices.Contains(sheet.Rows, row)
		})
	}
	if mark, compared := j.previous.Compared[at.Sheet]; compared {
		return record.Tells(mark, column, row) && !altered(false)
	}
	return slices.ContainsFunc(j.previous.Beside, func(block intake.Beside) bool {
		return block.Sheet == at.Sheet && column >= block.FirstColumn && column < block.FirstColumn+block.Columns && row <= record.MostRows
	}) && !altered(true)
}
