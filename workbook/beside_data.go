package workbook

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"railbook/rules"
	"railbook/rules/address"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/intake"
	"railbook/workbook/record"
	"railbook/workbook/xlsx"
)

// mostWritten is how many cells beside the data a signed workbook keeps: headings and titles stand above them, and come first.
const mostWritten = 1000

// besideData gives what stands on the sheets that were read in cells that hold no data.
func (j *job) besideData() (list []record.Written, err error) {
	lines, cells := make(map[string]map[int]bool), make(map[string]map[string]bool) // of data, by sheet
	line := func(sheet string, number int) {
		if lines[sheet] == nil {
			lines[sheet] = make(map[int]bool)
		}
		lines[sheet][number] = true
	}
	for _, block := range j.results.Read.Blocks {
		if block.Sideways || len(block.Carcasses) > 0 && block.FormCells(block.Carcasses[0]) != nil {
			cells[block.Sheet] = make(map[string]bool)
			continue
		}
		for _, number := range block.Lines {
			line(block.Sheet, number)
		}
	}
	for _, entry := range j.results.Read.Entries {
		if entry.Place.File == "" {
			line(entry.Place.Sheet, rowNumber(entry.Place))
		}
	}
	if len(cells) > 0 {
		for kept := range intake.EachRecord(j.results.Read) {
			if of := cells[kept.Sheet]; of != nil {
				of[kept.Cell] = true
			}
		}
	}
	for _, sheet := range j.book.Sheets() {
		if lines[sheet.Name] == nil && cells[sheet.Name] == nil {
			continue
		}
		data := lines[sheet.Name]
		grid, err := j.book.ScanRows(sheet.Name, func(row int) bool { return !data[row] })
		if err != nil {
			return nil, err
		}
		for _, row := range grid.Rows {
			if data[row.Number] {
				continue
			}
			for _, cell := range row.Cells {
				at := rules.Place{Sheet: sheet.Name, Cell: address.Cell(cell.Column, row.Number)}
				if len(list) < mostWritten && cell.Raw != "" && !cell.Formula && !cells[sheet.Name][at.Cell] { // a formula's result is calculated anew
					list = append(list, record.Written{At: at, Text: cell.Raw, Number: cell.Kind == xlsx.Number})
				}
			}
		}
	}
	return list, nil
}

// editedBeside is a cell beside the data that says something else than when the workbook was signed.
type editedBeside struct {
	record.Written
	is string
}

// difference says of the one cell what was changed.
func (e editedBeside) difference() Difference {
	each := Difference{At: e.At, Message: fmt.Sprintf("this was %q when signed and is now %q.", e.Text, e.is)}
	if e.is == "" {
		each.Message = fmt.Sprintf("this was %q when signed and is gone.", e.Text)
	}
	return each
}

// editedBesideData finds the cells beside the data that were edited since signing. On a sheet whose data stand in other cells than
// when signed, so that rows were put in, taken out or sorted, it looks for none.
func (j *job) editedBesideData() (edited []editedBeside) {
	for _, sheet := range j.book.Sheets() {
		var kept []record.Written
		for _, written := range j.previous.Written {
			if written.At.Sheet == sheet.Name {
				kept = append(kept, written)
			}
		}
		if len(kept) == 0 {
			continue
		}
		grid, err := j.book.Scan(sheet.Name)
		if err != nil {
			continue // reading it says so
		}
		now := make(map[string]string)
		for _, row := range grid.Rows {
			for _, cell := range row.Cells {
				now[address.Cell(cell.Column, row.Number)] = cell.Raw
			}
		}
		if j.dataStand(sheet.Name, now) {
			edited = append(edited, differing(kept, now)...)
		}
	}
	return edited
}

// differing gives the cells that say something else than they did.
func differing(kept []record.Written, now map[string]string) (edited []editedBeside) {
	for _, written := range kept {
		if is := now[written.At.Cell]; !sameCached(written.Text, is, true) {
			edited = append(edited, editedBeside{written, is})
		}
	}
	return edited
}

// dataStand reports whether the data of a sheet stand in the cells where they stood: nearly all tags say there what they said, and
// most of the rest. A class that a title names, or a percent, is stored otherwise than it was read.
func (j *job) dataStand(sheet string, now map[string]string) bool {
	const of, nearly, most = 10, 9, 5
	all, same, tags, sameTags := 0, 0, 0, 0
	for _, kept := range j.readBefore() {
		if kept.Sheet != sheet || kept.File != "" || kept.Cell == "" {
			continue
		}
		all++
		stands := sameCached(strings.TrimSpace(kept.Written), now[kept.Cell], true)
		if stands {
			same++
		}
		if kept.Measure == measure.Tag {
			if tags++; stands {
				sameTags++
			}
		}
	}
	return all > 0 && same*of >= all*most && sameTags*of >= tags*nearly
}

// restoreBeside writes into cells beside the data what they said when the workbook was signed.
func (j *job) restoreBeside(edited []editedBeside) error {
	cells := make(map[string]map[string]xlsx.CellChange)
	for _, beside := range edited {
		if cells[beside.At.Sheet] == nil {
			cells[beside.At.Sheet] = make(map[string]xlsx.CellChange)
		}
		cells[beside.At.Sheet][beside.At.Cell] = asStored(beside.Text, !beside.Number, "")
	}
	for _, sheet := range slices.Sorted(maps.Keys(cells)) {
		if err := j.book.SetCells(sheet, cells[sheet]); err != nil {
			return err
		}
	}
	return nil
}

// readsAs reports whether two jobs have read the same, in the same words, from the same headings.
func (j *job) readsAs(other *job) bool {
	first, second := j.results.Read, other.results.Read
	headings := func(blocks []intake.Block) (list []intake.Heading) {
		for _, block := range blocks {
			list = append(list, block.Headings...)
		}
		return list
	}
	return first.About == second.About && slices.Equal(headings(first.Blocks), headings(second.Blocks)) && slices.Equal(first.Passed, second.Passed) &&
		slices.EqualFunc(j.results.Findings, other.results.Findings, func(a, b validate.Finding) bool { return a.At == b.At && a.Message == b.Message }) &&
		slices.Equal(j.linesNow(), other.linesNow())
}
