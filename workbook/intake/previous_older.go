package intake

import (
	"railbook/rules"
	"railbook/workbook/record"
	"railbook/workbook/xlsx"
)

// readOlder reads what a results workbook without a record remembers: one made before there was a record has it on sheets of
// its own. Where those are gone too, a workbook that bears marks of ours is known as ours all the same, and as damaged.
func readOlder(book *xlsx.Book) (previous *Previous, graded []rules.Table, err error) {
	run, found, err := readRun(book)
	if err != nil {
		return nil, nil, err
	}
	previous = &Previous{Run: run, Sealed: func() []record.SealedLine { return nil }}
	if !found && !bearsMarks(book) {
		return nil, nil, nil
	}
	if previous.Readings, err = readReadings(book); err != nil {
		return previous, nil, err
	}
	if len(previous.Readings) == 0 {
		previous.Damage = &DamagedSheet{Sheet: record.StateSheet, Words: "this sheet of the program's is gone, and with it what was read, changed and decided before; " +
			"use the workbook as it was saved before, or look through the decisions and accept the row about this sheet in the Judge review sheet"}
	}
	if previous.Changes, err = readChanges(book); err != nil {
		return previous, nil, err
	}
	if previous.Carried, err = readCarried(book); err != nil {
		return previous, nil, err
	}
	if previous.LastYear, err = readLastYear(book); err != nil {
		return previous, nil, err
	}
	sealed, err := readSealed(book)
	if err != nil {
		return previous, nil, err
	}
	previous.Sealed = func() []record.SealedLine { return sealed }
	graded, err = readTables(book, markedSheets(book, record.RulebookCopy))
	return previous, graded, err
}

// bearsMarks reports whether a workbook has sheets or columns of results.
func bearsMarks(book *xlsx.Book) bool {
	for _, mark := range []string{
		record.PlacingsMark, record.ReasonsMark, record.JudgeReviewMark, record.ErrorLogMark, record.SummaryMark, record.ValueGridMark,
		record.ChangeMark, record.RunRecordMark,
	} {
		if _, found := book.Ours()[mark]; found {
			return true
		}
	}
	return len(book.OurColumns()) > 0
}
