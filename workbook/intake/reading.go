// Package intake finds the carcasses in a fair's own workbook: which sheets hold them, which heading means which
// measure, what each cell says, and what had to be passed over or interpreted.
package intake

import (
	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/record"
)

// Options are what a person may say about how to read.
type Options struct {
	Columns map[measure.ID]string     // headings mapped by hand: measure → the heading on the sheet
	Species rules.Species             // for sheets that do not say
	Hidden  map[string][]record.Noted // by sheet, what to say that is hidden; nil to look
	TakeIn  []string                  // sheets that look like another year's or a copy, and that the judge takes in
}

// Result is all that was read.
type Result struct {
	Carcasses []*grading.Carcass // in the order of sheet and row
	Blocks    []Block            // the stretches of sheets they were read from
	Entries   []validate.Entry   // the roster, joined to the carcasses already
	Doubts    []Doubt            // the carcasses of which it can't be told whose they are
	Findings  []validate.Finding // what reading itself found
	Passed    []PassedOver       // rows and cells that were passed over, with why
	About     About              // what the sheets say of the fair as a whole
	Rulebook  []rules.Table      // the rulebook's sheets where the workbook carries them itself; else nil
}

// Block is one heading row and the carcasses under it. A sheet may hold several.
type Block struct {
	Sheet      string
	Headings   []Heading           // in the order of columns
	FirstRow   int                 // the heading row's last line
	LastRow    int                 // the last row of data
	LastColumn int                 // the last column used on these rows, recognised or not
	Sideways   bool                // measures run down and animals across
	Beside     bool                // another block stands to its right, so nothing can be added there
	Carcasses  []*grading.Carcass  // in the order of their Sequence
	Lines      []int               // the row of each, on a sideways sheet its column
	Weights    rules.WeightsAre    // what the block's carcass weight is; empty where it does not say
	cells      map[position]string // of a printed form: where each cell of its table stands
	// Unread are the headings of unread columns whose values can be a measure that the block has no heading for.
	Unread map[measure.ID][]string
	// Unheaded are the cells above the one column without a heading whose values can be such a measure.
	Unheaded map[measure.ID]string
}

// Heading is one column's heading and what it was read as.
type Heading struct {
	Column  int // from 1; a row number on a sideways sheet
	Cell    string
	Text    string     // as written, lines joined
	Measure measure.ID // empty where the heading was not recognised
	Unit    string     // the unit its numbers are in; empty for the measure's own
	Because string     // how it was recognised, for the run record
}

// PassedOver is a row or cell that was not read as data.
type PassedOver struct {
	At      rules.Place // the cell, or the first filled one of a whole line
	Written string      // what stands there; the cells of a line with bars between them
	Why     string
	Line    bool // the whole line was passed over
}
