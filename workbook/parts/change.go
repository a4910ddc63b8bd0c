package parts

import (
	"errors"

	"github.com/xuri/excelize/v2"
)

// Appended is a block of columns added to the right of a sheet's data.
type Appended struct {
	Sheet       string
	Mark        string // the workbook defined name that makes the block known again: "railbook_columns_1"
	FirstColumn int
	HeadingRow  int
	LastRow     int
	Headings    []string
	Widths      []float64
	Formats     []string                // number format of each column ("0.00"), "" for general
	Row         func(row int) []NewCell // the cells of one row, in the order of Headings; nil for none
	Flagged     []string                // cells of the user's own that get the flag's conditional format
}

// NewCell is one cell to be added, with its cached value typed.
type NewCell struct {
	Formula string // without "="; empty for a plain value
	Shape   string // cells one below another in a column with the same non-empty Shape share the first one's formula
	Kind    CellKind
	Value   string
}

// Append adds the block to the sheet's XML and nothing else of the sheet changes but the added cells, the dimension,
// the column widths and the conditional format of the flagged cells.
func (b *Book) Append(block Appended) error { return errors.ErrUnsupported }

// SetCells gives cells of a sheet another value (a decision's correction), keeping their style. The hint, where there is
// one, is shown when the cell is selected.
func (b *Book) SetCells(sheet string, cells map[string]CellChange) error {
	return errors.ErrUnsupported
}

// CellChange is a cell's new value.
type CellChange struct {
	Kind  CellKind
	Value string
	Hint  string
}

// Strip takes out everything of ours (sheets and columns known by their defined names, flag rules, hints), so that a
// results workbook is again the workbook it was made from, but for values that people changed. It reports whether
// anything was there.
func (b *Book) Strip() (found bool, err error) { return false, errors.ErrUnsupported }

// Ours gives the sheets of ours by their marks: "railbook_sheet_placings" → "Placings (2)".
func (b *Book) Ours() map[string]string { return nil }

// NewSheet adds an empty sheet of ours under the name, or under "name (2)" where the workbook has one already, and
// marks it. It returns the name taken. Fill it through Excel.
func (b *Book) NewSheet(name, mark string) (string, error) { return "", errors.ErrUnsupported }

// Excel gives the workbook to fill our own new sheets through. Sheets of the user's must not be touched through it.
func (b *Book) Excel() *excelize.File { return b.file }

// Save writes the workbook to path: the same content is the same bytes, and the file is there whole or not at all.
func (b *Book) Save(path string) error { return errors.ErrUnsupported }

// Bytes gives what Save would write.
func (b *Book) Bytes() ([]byte, error) { return nil, errors.ErrUnsupported }
