package xlsx

import (
	"strings"

	"railbook/rules/address"
)

// CellKind is what is stored in a cell.
type CellKind uint8

// The kinds of stored cells.
const (
	Blank CellKind = iota
	Number
	Text
	Bool
	ErrorValue // "#DIV/0!"
)

// Cell is one stored cell.
type Cell struct {
	Column  int    // from 1
	Raw     string // number as stored ("0.36" for 0.35999999999999999), text as it stands, "TRUE", "#REF!"
	Style   int32  // the cell's format, by its number in the workbook's styles
	Kind    CellKind
	Formula bool // the value is a formula's cached one; Blank then means: never calculated
	Date    bool // a number with a date format
	Percent bool // a number with a percent format
}

// Row is one stored row; blank rows may be missing.
type Row struct {
	Number int // from 1
	Hidden bool
	Cells  []Cell // in the order of columns, blanks left out
}

// Grid is all that is stored in a sheet.
type Grid struct {
	Rows          []Row
	Merged        []Range
	HiddenColumns map[int]bool
	Date1904      bool
	Filtered      bool             // an auto filter is set
	DecimalComma  bool             // text such as "0,45" is a number with a decimal comma
	Comments      map[Place]string // what notes and threaded comments say, by the cell they are on
	Struck        map[Place]bool   // cells that hold something, all or part of which is struck out
}

// Place is a cell of a sheet by its column and row, from 1.
type Place struct{ Column, Row int }

// Range is a rectangle of cells, ends included, from 1.
type Range struct{ FirstColumn, FirstRow, LastColumn, LastRow int }

// rectangle reads "A1:B2" or "A1".
func rectangle(name string) (Range, bool) {
	first, last, pair := strings.Cut(name, ":")
	if !pair {
		last = first
	}
	var area Range
	var firstOK, lastOK bool
	area.FirstColumn, area.FirstRow, firstOK = address.Parse(first)
	area.LastColumn, area.LastRow, lastOK = address.Parse(last)
	return area, firstOK && lastOK && area.FirstColumn <= area.LastColumn && area.FirstRow <= area.LastRow
}
