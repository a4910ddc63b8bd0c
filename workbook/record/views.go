package record

import (
	"fmt"
	"hash/fnv"
	"strconv"
	"strings"
)

// View is one of the sheets that are written from the state and never read back, as it was written: a sum for each row.
// Where they differ, somebody changed the sheet.
type View struct {
	Mark string
	Rows []string // from the first row; empty for a blank row
}

// views are the sheets that are compared: those on which nobody is to fill in anything.
var views = map[string]string{
	PlacingsMark: PlacingsSheet, ErrorLogMark: ErrorLogSheet, SummaryMark: SummarySheet, ChangeMark: ChangeSheet, RunRecordMark: RunRecordSheet,
}

// ViewTitle gives the name of a sheet that is compared; it is empty for others.
func ViewTitle(mark string) string { return views[mark] }

// mostRows is how many rows of a view are told apart; of a longer one the rest is not compared.
const mostRows = 3000

// ViewCell is one cell of a view.
type ViewCell struct {
	Column  int
	Text    string // a number as it is stored; empty for a blank cell
	Formula bool
}

// AddRow adds the sum of a row. Cells that hold nothing do not count, nor how a program writes numbers and blanks.
func (v *View) AddRow(number int, cells []ViewCell) {
	if number > mostRows {
		return
	}
	for len(v.Rows) < number-1 {
		v.Rows = append(v.Rows, "")
	}
	sum, filled := fnv.New32a(), false
	for _, cell := range cells {
		text := strings.Join(strings.Fields(cell.Text), " ")
		if float, err := strconv.ParseFloat(text, 64); err == nil {
			text = strconv.FormatFloat(float, 'g', 10, 64)
		}
		if cell.Formula {
			text = "="
		}
		if text != "" {
			filled = true
			fmt.Fprintf(sum, "%d\t%s\n", cell.Column, text)
		}
	}
	if !filled {
		v.Rows = append(v.Rows, "")
		return
	}
	v.Rows = append(v.Rows, fmt.Sprintf("%08x", sum.Sum32()))
}

// Changed lists the rows in which two views of one sheet differ.
func (v *View) Changed(now *View) (rows []int) {
	for number := range max(len(v.Rows), len(now.Rows)) {
		was, is := "", ""
		if number < len(v.Rows) {
			was = v.Rows[number]
		}
		if number < len(now.Rows) {
			is = now.Rows[number]
		}
		if was != is {
			rows = append(rows, number+1)
		}
	}
	return rows
}
