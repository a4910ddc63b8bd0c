// Package validate looks at graded carcasses with a judge's eye and says what cannot be true, what is worth a look,
// and what the program assumed. One check, one file.
package validate

import (
	"slices"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
)

// Level is how much a finding matters.
type Level string

// The levels, gravest first.
const (
	Hold Level = "hold" // cannot be true, or the carcass cannot be placed without it: left out until the judge settles it
	Look Level = "look" // placed, but the judge should look before signing
	Note Level = "note" // what the program assumed, converted or passed over
)

// Finding is one thing found, with its place.
type Finding struct {
	Level   Level
	Code    string // plain words, the same for every finding of a kind: "fat out of range"
	At      rules.Place
	Tag     string
	Class   string
	Measure measure.ID // empty where it is about the whole row, sheet or workbook
	Read    string     // what stands in the cell
	Message string     // a sentence: what is wrong and what to do
	Hint    string     // the likely true value, in the measure's unit ("13.6"); never applied by itself
	// Exchange is the other cell where this one looks exchanged with it: the hint is what stands there. Empty for others.
	Exchange rules.Place
	// Doubts are the measures that it leaves in doubt beside Measure: of two cells that contradict each other nobody knows which
	// is wrong. Nil for most findings.
	Doubts []measure.ID
	// Beyond is true where the value is past what the rulebook holds possible: it is accepted only with a remark.
	Beyond bool
	// Never is true where it cannot be true of any animal: it can be corrected or left out, never accepted.
	Never   bool
	Carcass *grading.Carcass // the carcass it is about; nil for a sheet or workbook
	Settled *Decision        // how the judge settled it; nil while it is open
	// Remembered is true where it is not found any more, and is kept for its decision alone.
	Remembered bool
	// Others are further carcasses that the one question is about: those of a whole column or group, or beside Carcass the other
	// of a pair (tags or values exchanged, one tag twice). Nil for most findings.
	Others []*grading.Carcass
}

// Carcasses gives every carcass that the finding is about.
func (f *Finding) Carcasses() []*grading.Carcass {
	if f.Carcass == nil {
		return f.Others
	}
	return append([]*grading.Carcass{f.Carcass}, f.Others...)
}

// InDoubt gives the measures of a carcass that can't be relied on while the finding is open, read or computed. Where the
// tag itself is asked about, so is everything that was joined to the carcass by its tag.
func (f *Finding) InDoubt(carcass *grading.Carcass) []measure.ID {
	doubted := append([]measure.ID{f.Measure}, f.Doubts...)
	for id, reading := range carcass.Readings() {
		joined := f.Measure == measure.Tag && (reading.Place.Sheet != carcass.Place.Sheet || reading.Place.File != carcass.Place.File)
		if joined || f.Exchange.Cell != "" && reading.Place == f.Exchange {
			doubted = append(doubted, id)
		}
	}
	return slices.DeleteFunc(doubted, func(id measure.ID) bool { return id == measure.None })
}

// Batch is everything that is checked together.
type Batch struct {
	Book      *rules.Rulebook
	Carcasses []*grading.Graded
	Sheets    []Sheet
	Entries   []Entry // the roster; nil where there is none
}

// Sheet is what a check needs to know of a carcass sheet as a whole.
type Sheet struct {
	Name      string
	Heading   rules.Place                // of the heading row
	Columns   map[measure.ID]rules.Place // the heading cell of each measure the sheet has a column for
	Weights   rules.WeightsAre           // what the sheet's carcass weight is; empty where it does not say
	Carcasses []*grading.Graded
	// Cells are where the measures of each of the carcasses stand or would stand on a printed form; nil for a table.
	Cells []map[measure.ID]rules.Place
	// Unread are the headings of columns that were not read and whose values can be a measure that no heading stands for.
	Unread map[measure.ID][]string
	// Unheaded are the cells above the one column without a heading whose values can be such a measure.
	Unheaded map[measure.ID]string

	rows    []*row // while it is checked
	chilled bool   // its weights look chilled, so that its own figures tell nothing of a row
}

// Entry is one line of a roster.
type Entry struct {
	Tag, Class, Exhibitor string
	Refused               bool // consent was answered with anything but a yes
	Place                 rules.Place
}
