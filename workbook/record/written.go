package record

import (
	"strconv"

	"railbook/rules"
)

// Written is a filled cell of the fair's own sheets in which no data stand: of a title, a heading, a note. A signed workbook keeps
// them, so that one that is changed is said by its cell, and what follows from it is not taken for a change of its own.
type Written struct {
	At     rules.Place
	Text   string // as it is stored
	Number bool
}

// Noted is a note that is kept because it may not be found again: that something of a sheet was hidden when the workbook was
// signed (hiding or showing it since changes nothing), or what was wrong with the file that was graded first. Sheet is empty
// where it is about the workbook.
type Noted struct{ Sheet, Code, Words string }

func writtenFields(written *Written) []string {
	return []string{writtenField, written.At.Sheet, written.At.Cell, written.Text, strconv.FormatBool(written.Number)}
}

func writtenOf(at func(int) string) Written {
	return Written{At: rules.Place{Sheet: at(1), Cell: at(2)}, Text: at(3), Number: at(4) == "true"}
}
