package intake

import (
	"fmt"
	"strconv"
	"strings"

	"railbook/rules"
	"railbook/rules/measure"
	"railbook/workbook/xlsx"
)

// readRun reads the Run record's lines; found is false where the workbook has no such sheet and so is none of ours.
func readRun(book *xlsx.Book) (run Run, found bool, err error) {
	sheet, found, err := ourSheet(book, RunRecordMark, RunRecordSheet)
	if err != nil || !found {
		return run, false, err
	}
	grid, err := book.Scan(sheet)
	if err != nil {
		return run, false, err
	}
	lines := runLines(grid)
	if _, ours := lines[VersionLine]; !ours {
		return run, false, nil
	}
	run = Run{
		InputName: lines[InputNameLine], InputSHA256: lines[InputSHALine], Version: lines[VersionLine], Status: lines[StatusLine],
		Judge: lines[JudgeLine], Date: lines[SignedLine], Seal: lines[SealLine], Rulebook: lines[RulebookLine],
		RulebookSHA: lines[RulebookSHALine], OwnRulebookSHA: lines[OwnRulebookLine], State: lines[StateLine],
	}
	run.Revision, err = strconv.Atoi(lines[RevisionLine])
	if err != nil {
		return run, false, fmt.Errorf("sheet %q: the revision %q is not a whole number; take the results workbook as the program wrote it, or grade the first workbook again",
			sheet, lines[RevisionLine])
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
func readReadings(book *xlsx.Book) ([]ReadingRecord, error) {
	var records []ReadingRecord
	for number := 1; ; number++ {
		title, mark := ReadingsPart(number)
		table, err := ourTableOf(book, mark, title, SheetColumn, CellColumn, ClassColumn, TagColumn, MeasureColumn, WrittenColumn, ValueColumn)
		if err != nil || table == nil {
			return records, err
		}
		records = append(records, recordsOf(table)...)
	}
}

func recordsOf(table *ourTable) []ReadingRecord {
	var records []ReadingRecord
	for _, row := range table.rows {
		record := ReadingRecord{
			File: row.text(FileColumn), Sheet: row.text(SheetColumn), Cell: row.text(CellColumn), Line: row.text(LineColumn),
			Class: row.text(ClassColumn), Tag: row.text(TagColumn), Measure: measure.Standard().ByName(row.text(MeasureColumn)),
			Written: row.text(WrittenColumn), Value: row.text(ValueColumn),
		}
		if record.Measure != measure.None {
			records = append(records, record)
		}
	}
	return records
}

// readChanges reads the corrections made before.
func readChanges(book *xlsx.Book) ([]Change, error) {
	table, err := ourTableOf(book, ChangeMark, ChangeSheet, WhenColumn, WhoColumn, ClassColumn, TagColumn, MeasureColumn, WasColumn, IsColumn, MovedColumn)
	if err != nil || table == nil {
		return nil, err
	}
	var changes []Change
	for _, row := range table.rows {
		change := Change{
			At:    rules.Place{File: row.text(FileColumn), Sheet: row.text(SheetColumn), Cell: row.text(CellColumn)},
			Class: row.text(ClassColumn), Tag: row.text(TagColumn), Measure: measure.Standard().ByName(row.text(MeasureColumn)),
			Was: row.text(WasColumn), Is: row.text(IsColumn), Who: row.text(WhoColumn), When: row.text(WhenColumn), Moved: row.text(MovedColumn),
		}
		if change.Measure != measure.None {
			changes = append(changes, change)
		}
	}
	return changes, nil
}

// readReasons reads what the judge wrote beside the draft reasons.
func readReasons(book *xlsx.Book) (map[string]string, error) {
	table, err := ourTableOf(book, ReasonsMark, ReasonsSheet, WordsColumn, KeyClassColumn, KeyTagColumn)
	if err != nil || table == nil {
		return nil, err
	}
	reasons := make(map[string]string)
	for _, row := range table.rows {
		if words := row.text(WordsColumn); strings.TrimSpace(words) != "" {
			reasons[row.text(KeyClassColumn)+"\t"+row.text(KeyTagColumn)] = words
		}
	}
	return reasons, nil
}

// readSealed reads what a signature covers.
func readSealed(book *xlsx.Book) ([]SealedLine, error) {
	table, err := ourTableOf(book, SealedMark, SealedSheet, SealedKindColumn, ClassColumn, TagColumn, SealedItemColumn, ValueColumn)
	if err != nil || table == nil {
		return nil, err
	}
	var lines []SealedLine
	for _, row := range table.rows {
		lines = append(lines, SealedLine{
			Kind: row.text(SealedKindColumn), Class: row.text(ClassColumn), Tag: row.text(TagColumn),
			Item: row.text(SealedItemColumn), Value: row.text(ValueColumn),
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
	table, err := readTable(book, sheet, headings...)
	if err == nil && table == nil {
		err = &DamagedSheet{Sheet: sheet, Words: fmt.Sprintf("the row of headings with %q and %q is gone, so what the sheet holds cannot be read; put the headings back, or use the workbook as it was saved before",
			headings[0], headings[len(headings)-1])}
	}
	return table, err
}

// DamagedSheet is the error for a sheet of ours that is there and can't be read.
type DamagedSheet struct {
	Sheet string
	Words string // what is wrong and what to do
}

func (d *DamagedSheet) Error() string { return fmt.Sprintf("sheet %q: %s", d.Sheet, d.Words) }
