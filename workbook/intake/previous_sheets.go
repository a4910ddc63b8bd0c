package intake

import (
	"fmt"
	"strconv"
	"strings"

	"railbook/rules"
	"railbook/rules/measure"
	"railbook/workbook/record"
	"railbook/workbook/xlsx"
)

// readRun reads the Run record's lines; found is false where the workbook has no such sheet and so is none of ours.
func readRun(book *xlsx.Book) (run record.Run, found bool, err error) {
	sheet, found, err := ourSheet(book, record.RunRecordMark, record.RunRecordSheet)
	if err != nil || !found {
		return run, false, err
	}
	grid, err := book.Scan(sheet)
	if err != nil {
		return run, false, err
	}
	lines := runLines(grid)
	if _, ours := lines[record.VersionLine]; !ours {
		return run, false, nil
	}
	run = record.Run{
		InputName: lines[record.InputNameLine], InputSHA256: lines[record.InputSHALine], Version: lines[record.VersionLine], Status: lines[record.StatusLine],
		Judge: lines[record.JudgeLine], Date: lines[record.SignedLine], Seal: lines[record.SealLine], Rulebook: lines[record.RulebookLine],
		RulebookSHA: lines[record.RulebookSHALine], OwnRulebookSHA: lines[record.OwnRulebookLine], State: lines[record.StateLine],
	}
	run.Revision, err = strconv.Atoi(lines[record.RevisionLine])
	if err != nil {
		return run, false, fmt.Errorf("sheet %q: the revision %q is not a whole number; take the results workbook as the program wrote it, or grade the first workbook again",
			sheet, lines[record.RevisionLine])
	}
	return run, true, nil
}

// runLines gives what stands beside each label, down to the first table of the sheet.
func runLines(grid *xlsx.Grid) map[string]string {
	lines := make(map[string]string)
	for _, row := range grid.Rows {
		if len(row.Cells) == 0 || row.Cells[0].Column != 1 {
			continue
		}
		label, value := row.Cells[0].Raw, ""
		if len(row.Cells) > 1 && row.Cells[1].Column == 2 {
			value = row.Cells[1].Raw
		}
		if _, known := lines[label]; !known {
			lines[label] = value
		}
	}
	return lines
}

// readReadings reads what was read before, cell by cell.
func readReadings(book *xlsx.Book) ([]record.Reading, error) {
	var records []record.Reading
	for number := 1; ; number++ {
		title, mark := record.ReadingsPart(number)
		table, err := ourTableOf(book, mark, title, record.SheetColumn, record.CellColumn, record.ClassColumn, record.TagColumn, record.MeasureColumn, record.WrittenColumn, record.ValueColumn)
		if err != nil || table == nil {
			return records, err
		}
		records = append(records, recordsOf(table)...)
	}
}

func recordsOf(table *ourTable) []record.Reading {
	var records []record.Reading
	for _, row := range table.rows {
		kept := record.Reading{
			File: row.text(record.FileColumn), Sheet: row.text(record.SheetColumn), Cell: row.text(record.CellColumn), Line: row.text(record.LineColumn),
			Class: row.text(record.ClassColumn), Tag: row.text(record.TagColumn), Measure: measure.Standard().ByName(row.text(record.MeasureColumn)),
			Written: row.text(record.WrittenColumn), Value: row.text(record.ValueColumn),
		}
		if kept.Measure != measure.None {
			records = append(records, kept)
		}
	}
	return records
}

// readChanges reads the corrections made before.
func readChanges(book *xlsx.Book) ([]record.Change, error) {
	table, err := ourTableOf(book, record.ChangeMark, record.ChangeSheet, record.WhenColumn, record.WhoColumn, record.ClassColumn, record.TagColumn, record.MeasureColumn, record.WasColumn, record.IsColumn, record.MovedColumn)
	if err != nil || table == nil {
		return nil, err
	}
	var changes []record.Change
	for _, row := range table.rows {
		change := record.Change{
			At:    rules.Place{File: row.text(record.FileColumn), Sheet: row.text(record.SheetColumn), Cell: row.text(record.CellColumn)},
			Class: row.text(record.ClassColumn), Tag: row.text(record.TagColumn), Measure: measure.Standard().ByName(row.text(record.MeasureColumn)),
			Was: row.text(record.WasColumn), Is: row.text(record.IsColumn), Who: row.text(record.WhoColumn), When: row.text(record.WhenColumn), Moved: row.text(record.MovedColumn),
		}
		if change.Measure != measure.None {
			changes = append(changes, change)
		}
	}
	return changes, nil
}

// readReasons reads what the judge wrote beside the draft reasons.
func readReasons(book *xlsx.Book) (reasons map[string]string, there bool, err error) {
	table, err := ourTableOf(book, record.ReasonsMark, record.ReasonsSheet, record.WordsColumn, record.KeyClassColumn, record.KeyTagColumn)
	if err != nil || table == nil {
		return nil, false, err
	}
	reasons = make(map[string]string)
	for _, row := range table.rows {
		if words := row.text(record.WordsColumn); strings.TrimSpace(words) != "" {
			reasons[row.text(record.KeyClassColumn)+"\t"+row.text(record.KeyTagColumn)] = words
		}
	}
	return reasons, true, nil
}

// readSealed reads what a signature covers.
func readSealed(book *xlsx.Book) ([]record.SealedLine, error) {
	table, err := ourTableOf(book, record.SealedMark, record.SealedSheet, record.SealedKindColumn, record.ClassColumn, record.TagColumn, record.SealedItemColumn, record.ValueColumn)
	if err != nil || table == nil {
		return nil, err
	}
	var lines []record.SealedLine
	for _, row := range table.rows {
		lines = append(lines, record.SealedLine{
			Kind: row.text(record.SealedKindColumn), Class: row.text(record.ClassColumn), Tag: row.text(record.TagColumn),
			Item: row.text(record.SealedItemColumn), Value: row.text(record.ValueColumn),
		})
	}
	return lines, nil
}

// ourTableOf reads the table of one of our sheets. The table is nil where the sheet was taken out; a sheet that is there
// without its headings is an error, for what people wrote on it would be lost.
func ourTableOf(book *xlsx.Book, mark, title string, headings ...string) (*ourTable, error) {
	sheet, found, err := ourSheet(book, mark, title)
	if err != nil || !found {
		return nil, err
	}
	grid, err := book.Scan(sheet)
	if err != nil {
		return nil, err
	}
	table := tableIn(grid, sheet, headings)
	if table == nil {
		missing, cell := without(nearestHeadings(grid, headings), headings)
		return nil, &DamagedSheet{Sheet: sheet, Cell: cell, Words: fmt.Sprintf("the heading %q is gone from its row of headings, so what the sheet holds cannot be read; "+
			"put the heading back, or use the workbook as it was saved before", missing)}
	}
	return table, nil
}

// DamagedSheet is the error for a sheet of ours that is there and can't be read.
type DamagedSheet struct {
	Sheet string
	Cell  string // where it is wrong; empty where that is not known
	Rows  []int  // of the record: those that were changed
	Words string // what is wrong and what to do
}

func (d *DamagedSheet) Error() string { return fmt.Sprintf("sheet %q: %s", d.Sheet, d.Words) }
