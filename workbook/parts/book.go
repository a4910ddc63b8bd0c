// Package parts handles a workbook as the package of bytes it is: it refuses files that are not what they seem, scans
// sheets without touching them, adds cells to a sheet's XML so that nothing else of it changes, and saves the same
// input as the same bytes, whole or not at all.
package parts

import (
	"errors"

	"github.com/xuri/excelize/v2"
)

// Book is an opened workbook, or a text file (CSV, TSV) presented as one of a single sheet.
type Book struct {
	Path   string
	SHA256 string // of the file's bytes, hexadecimal
	Text   bool   // a CSV or TSV file: it has no sheets to add to
	file   *excelize.File
}

// Sheet is one worksheet of a Book.
type Sheet struct {
	Name   string
	Hidden bool
}

// OpenOptions are what a person may say about a file before it is opened.
type OpenOptions struct {
	Password string
}

// Open reads and examines a file. Every kind of file that cannot be used gets a sentence of its own that says what it
// is and what to do.
func Open(path string, options OpenOptions) (*Book, error) { return nil, errors.ErrUnsupported }

// Sheets gives the worksheets in the order of their tabs (chart sheets and the like are left out).
func (b *Book) Sheets() []Sheet { return nil }

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
	Column  int // from 1
	Kind    CellKind
	Raw     string // number as stored ("0.36" for 0.35999999999999999), text as it stands, "TRUE", "#REF!"
	Formula bool   // the value is a formula's cached one; Blank then means: never calculated
	Date    bool   // a number with a date format
	Percent bool   // a number with a percent format
	Style   int
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
	Filtered      bool // an auto filter is set
}

// Range is a rectangle of cells, ends included, from 1.
type Range struct{ FirstColumn, FirstRow, LastColumn, LastRow int }

// Scan reads a sheet without changing it.
func (b *Book) Scan(sheet string) (*Grid, error) { return nil, errors.ErrUnsupported }
