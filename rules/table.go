package rules

// Table is a plain table of text cells, each with its place. The embedded defaults and the sheets of a
// rulebook workbook both reach this package in this form, so it needs to know neither.
type Table struct {
	Name string // the sheet's name: "Settings", "Value grid", …
	Rows []Row  // the heading row first; rows above the headings are left out by whoever made the table
}

// Row is one row of a Table.
type Row []Cell

// Cell is one cell of a Table: its text as a person would read it, and where it stands.
type Cell struct {
	Text  string
	Place Place
}
