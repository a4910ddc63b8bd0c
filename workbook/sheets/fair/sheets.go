package fair

import (
	"fmt"

	"railbook/workbook/ahead"
	"railbook/workbook/record"
	"railbook/workbook/result"
)

// ourSheets write our sheets in the order of their tabs.
var ourSheets = []func(*Writer) error{
	(*Writer).writePlacings,
	(*Writer).writeReasons,
	(*Writer).writeReview,
	(*Writer).writeErrorLog,
	(*Writer).writeSummary,
	(*Writer).writeValueGrid,
	(*Writer).writeChanges,
	(*Writer).writeRunRecord,
	(*Writer).writeState,
}

// writeSheets adds our sheets behind the user's. What is written already is kept in the record with them.
func writeSheets(results *result.Results, written []record.View, lines func() []string) error {
	writer := newWriter(results)
	writer.Look.Views, writer.lines = written, lines
	for _, write := range ourSheets {
		if err := write(writer); err != nil {
			return err
		}
	}
	var leading []string
	ours := results.Book.Ours()
	for _, mark := range leadingSheets {
		name, there := ours[mark]
		for number := 2; there; number++ {
			leading = append(leading, name)
			name, there = ours[numbered(mark, number)]
		}
	}
	return results.Book.Lead(leading...)
}

// numbered is the mark of a sheet that goes on where another one is full.
func numbered(mark string, number int) string { return fmt.Sprintf("%s_%d", mark, number) }

// leadingSheets are those that stand before the user's, in the order in which they are read: what is posted, what the judge
// fills in, what the board looks at.
var leadingSheets = []string{record.PlacingsMark, record.JudgeReviewMark, record.ReasonsMark, record.SummaryMark}

// Write adds the computed columns beside the user's data, and our sheets behind the user's own. It does not save it.
func Write(results *result.Results) error {
	return write(results, ahead.Value(results.State().LinesBeforeViews))
}

// WriteSealed does as Write does, and gives the seal over what it writes.
func WriteSealed(results *result.Results) (seal string, err error) {
	lines := ahead.Value(func() (lines []string) {
		lines, seal = results.State().LinesAndSeal()
		return lines
	})
	err = write(results, lines)
	lines() // where an error came first it is not waited for
	return seal, err
}

// write adds all that is ours. The lines of the record are made meanwhile.
func write(results *result.Results, lines func() []string) error {
	views, err := writeColumns(results)
	if err != nil {
		return err
	}
	return writeSheets(results, views, lines)
}
