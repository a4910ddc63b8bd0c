package workbook

import (
	"fmt"
	"strings"

	"railbook/rules"
	"railbook/rules/address"
	"railbook/rules/measure"
	"railbook/workbook/record"
	"railbook/workbook/xlsx"
)

// partedEntry is a line of a list of entries that was joined to a carcass by its tag when the workbook was signed, and is not any
// more, because the tag in the list was changed.
type partedEntry struct {
	at       rules.Place // the tag in the list
	tag, now string
}

// difference says of the one cell what was changed.
func (p partedEntry) difference() Difference {
	return Difference{At: p.at, Message: fmt.Sprintf("this tag was %q when signed and is now %q, so its line is not read for that carcass.", p.tag, p.now)}
}

// partedEntries finds among the changes those that come of a tag changed in a list of entries: all that was read of the line for
// the carcass is gone, though the cells say what they said. It gives the lines, and the changes that are left.
func (j *job) partedEntries(changes []record.Change) (parted []partedEntry, left []record.Change) {
	type line struct {
		sheet string
		row   int
	}
	own := make(map[name]string) // the sheet of each carcass
	for _, kept := range j.readBefore() {
		if kept.Measure == measure.Tag {
			own[name{kept.Class, kept.Tag}] = kept.Sheet
		}
	}
	gone := make(map[line][]record.Change)
	for _, change := range changes {
		if at := own[name{change.Class, change.Tag}]; change.Is == "" && change.At.File == "" && at != "" && at != change.At.Sheet {
			key := line{change.At.Sheet, rowNumber(change.At)}
			gone[key] = append(gone[key], change)
		}
	}
	explained := make(map[rules.Place]bool)
	for key, list := range gone {
		entry := partedEntry{tag: list[0].Tag}
		var there bool
		if entry.at, entry.now, there = j.tagInList(key.sheet, key.row, own); !there || entry.now == entry.tag || !j.stillWritten(list) {
			continue
		}
		parted = append(parted, entry)
		for _, change := range list {
			explained[change.At] = true
		}
	}
	for _, change := range changes {
		if !explained[change.At] || change.Is != "" {
			left = append(left, change)
		}
	}
	return parted, left
}

// stillWritten reports whether the cells say what they said before.
func (j *job) stillWritten(changes []record.Change) bool {
	for _, change := range changes {
		if cell, found := j.cellAt(change.At); !found || strings.TrimSpace(cell.Raw) != strings.TrimSpace(change.Was) {
			return false
		}
	}
	return true
}

// tagInList gives the cell in a line of a list in whose column the lines of other carcasses have their tags, and what it says.
func (j *job) tagInList(sheet string, row int, own map[name]string) (at rules.Place, text string, found bool) {
	grid, err := j.book.Scan(sheet)
	if err != nil {
		return at, "", false
	}
	lines := make(map[int]*xlsx.Row)
	for i := range grid.Rows {
		lines[grid.Rows[i].Number] = &grid.Rows[i]
	}
	column, most, votes := 0, 0, make(map[int]int)
	for _, kept := range j.readBefore() {
		place := rules.Place{Sheet: kept.Sheet, Cell: kept.Cell}
		line := lines[rowNumber(place)]
		if kept.Sheet != sheet || own[name{kept.Class, kept.Tag}] == sheet || line == nil || line.Number == row {
			continue
		}
		for _, cell := range line.Cells {
			if cell.Raw == kept.Tag {
				votes[cell.Column]++
			}
		}
	}
	for of, count := range votes {
		if count > most || count == most && of < column {
			column, most = of, count
		}
	}
	if column == 0 || lines[row] == nil {
		return at, "", false
	}
	for _, cell := range lines[row].Cells {
		if cell.Column == column {
			text = cell.Raw
		}
	}
	return rules.Place{Sheet: sheet, Cell: address.Cell(column, row)}, text, true
}
