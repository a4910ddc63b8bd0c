package rules

import (
	"crypto/sha256"
	"encoding/hex"
	"slices"
	"strings"

	"railbook/rules/measure"
	"railbook/rules/phrase"
)

// Digest gives the SHA-256, in hexadecimal, of the canonical text of a rulebook's tables. Anybody can recompute it. The
// canonical text is UTF-8 and is made like this:
//
// The sheets come in the order Settings, Value grid, Limits, Classes, Ranking, Eligibility, Groups, Awards, Points,
// Headings, Targets. Each begins with a line that holds "# " and its name. Then comes a line for each row below the
// headings that is not blank, in the order of the sheet. A line holds the cells of the sheet's own columns, in the order
// in which the rulebook's page lists them, with a tab between each two; blank cells are kept as nothing between tabs. A
// column that rulebooks of earlier years lack is left out of a sheet that lacks it.
// Every line ends with one line feed (byte 10).
//
// A cell's text has its white space at both ends taken off, and white space within it made one space. In a column of
// numbers, and in the Settings sheet's Value column, a number is written plainly: no sign for zero and above, no
// thousands separators, no currency or percent sign, no zeros that could be left off ("300.00" is "300", ".50" is "0.5").
// Everything else is kept as written.
func Digest(tables []Table) string {
	sum := sha256.Sum256([]byte(CanonicalText(tables)))
	return hex.EncodeToString(sum[:])
}

// CanonicalText gives the text that Digest is taken of.
func CanonicalText(tables []Table) string {
	var text strings.Builder
	text.Grow(1 << 16) // about what the shipped tables have
	for _, layout := range Layouts() {
		for _, table := range tables {
			if table.Name == layout.Name {
				canonicalTable(&text, layout, table)
			}
		}
	}
	return text.String()
}

func canonicalTable(text *strings.Builder, layout TableLayout, table Table) {
	if slices.Contains(addedTables, layout.Name) && !slices.ContainsFunc(table.Rows[min(1, len(table.Rows)):], func(row Row) bool { return !blank(row) }) {
		return
	}
	text.WriteString("# " + layout.Name + "\n")
	if len(table.Rows) == 0 {
		return
	}
	columns := make(map[string]int)
	for column, cell := range table.Rows[0] {
		columns[fold(cell.Text)] = column
	}
	places := make([]int, len(layout.Columns)) // of the layout's columns in the table
	for number, column := range layout.Columns {
		at, found := columns[fold(column.Heading)]
		if !found {
			at = -1
		}
		places[number] = at
	}
	for _, row := range table.Rows[1:] {
		if blank(row) {
			continue
		}
		for number, column := range layout.Columns {
			at := places[number]
			if at < 0 && mayLack(layout.Name, column.Heading) {
				continue
			}
			if number > 0 {
				text.WriteByte('\t')
			}
			if at >= 0 && at < len(row) {
				text.WriteString(canonicalCell(column, row[at].Text))
			}
		}
		text.WriteByte('\n')
	}
}

func canonicalCell(column Column, text string) string {
	text = phrase.SingleSpaced(text)
	if column.Holds == HoldsNumber || column.Holds == HoldsAny {
		if number, ok := parseNumber(text); ok {
			return measure.NumberText(number)
		}
	}
	return text
}

// CanonicalCell gives the canonical text of one cell of a rulebook sheet, as Digest describes it.
func CanonicalCell(sheet, heading, text string) string { return CanonicalIn(sheet, heading)(text) }

// CanonicalIn gives what makes the canonical text of the cells of one column of a rulebook sheet.
func CanonicalIn(sheet, heading string) func(text string) string {
	for _, layout := range Layouts() {
		if layout.Name != sheet {
			continue
		}
		for _, column := range layout.Columns {
			if fold(column.Heading) == fold(heading) {
				return func(text string) string { return canonicalCell(column, text) }
			}
		}
	}
	return phrase.SingleSpaced
}
