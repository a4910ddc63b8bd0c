package xlsx

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
	Row         func(row int) []NewCell // the cells of one row, in the order of Headings, good until the next; nil for none
	Flagged     []string                // cells of the user's own that get the flag's conditional format
}

// NewCell is one cell to be added, with its cached value typed.
type NewCell struct {
	Formula string // without "="; empty for a plain value
	// Cells one below another in a column with the same non-empty Shape share the first one's formula: the Formula of
	// the others is not looked at and may be empty.
	Shape string
	Kind  CellKind
	Value string
	// Format is the number format of this cell alone; empty for the column's.
	Format string
}

// CellChange is a cell's new value.
type CellChange struct {
	Kind  CellKind
	Value string
	Hint  string
}
