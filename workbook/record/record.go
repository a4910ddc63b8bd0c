// Package record is what a results workbook remembers between two gradings: what was read of each carcass, what the judge
// decided, what was changed, by which rules it was graded, and who signed it. It is the program's only state.
package record

import (
	"railbook/rules"
	"railbook/rules/measure"
)

// Reading is one cell as it was read.
type Reading struct {
	Carcass     int    // the carcass's id; 0 where none is given yet
	File        string // empty for the workbook itself
	Sheet, Cell string
	Line        string // the row of the carcass (on a sideways sheet its column) as a number
	Class, Tag  string
	Measure     measure.ID
	Written     string // the cell as written
	Value       string // what it was read as; empty where it could not be understood
}

// Change is one correction that was made.
type Change struct {
	At         rules.Place
	Class, Tag string
	Measure    measure.ID
	Was, Is    string
	Who        string // initials, or "in the cell" where somebody retyped the value
	When       string // a date a person gave; empty for none
	Moved      string // which carcasses changed grade, value or place because of it
}

// InTheCell stands for whoever retyped a value in the data: nobody is named.
const InTheCell = "in the cell"

// Run is what the Run record says of how a results workbook came to be.
type Run struct {
	InputName   string // of the first input, kept through every revision
	InputSHA256 string
	Revision    int // 1 for the first results
	Version     string
	Status      string // "Provisional" or "Signed"
	Judge, Date string // of the signature
	Seal        string
	About       string // what the pages say of the fair; empty where the workbook was written before that was kept
	Edition     string // of the sheets' form, by which one knows whether another program would write them otherwise
	Rulebook    string // name and year
	RulebookSHA string
	// OwnRulebookSHA is of the rulebook sheets in the fair's own workbook when it was graded; empty where it had none.
	OwnRulebookSHA string
	// Damage says what was wrong with the record that an earlier revision was graded from; empty where nothing was.
	Damage string
	State  string // SHA-256 of everything the results were computed from; grading again compares it
}

// LastYearLine is one figure of a past year's results, kept to be set beside this year's.
type LastYearLine struct {
	File    string // the past workbook's base name
	Species string
	Kind    string // of classes: a rules.Basis
	Figure  string // CarcassesCounted, PlacedCounted, or a measure
	Of      string // the grade that is counted, or the equations that an average was computed with
	Order   string // a grade's rank, a number; empty for an average
	Value   string // a count, or a mean to six decimals
}

// Carried is a file that was read along with the workbook and is kept in its results, byte for byte, so that grading them
// again needs nothing else.
type Carried struct {
	Role string // RosterRole or SecondRole
	Name string // the file's base name
	Data []byte
}

// SealedLine is one fact that a signature covers. The Sealed record sheet of a signed workbook lists them all.
type SealedLine struct {
	Kind  string // reading, decision, ruling, reasons, rulebook, placing, change, signature
	Class string // the class; of a rulebook line the table
	Tag   string // the tag; of a rulebook line the number of the row below the headings, of a change its number
	Item  string // the measure, or what else the value is of
	Value string
}

// The figures of a past year that are not measures.
const (
	CarcassesCounted = "carcasses"
	PlacedCounted    = "placed"
)

// The roles of files that are read along.
const (
	RosterRole = "roster"
	SecondRole = "second entry"
)
