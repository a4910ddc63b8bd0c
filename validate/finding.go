// Package validate looks at graded carcasses with a judge's eye and says what cannot be true, what is worth a look,
// and what the program assumed. One check, one file.
package validate

import (
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
	Carcass  *grading.Carcass // the carcass it is about; nil for a sheet or workbook
	Settled  *Decision        // how the judge settled it; nil while it is open
	// Lot are further carcasses that the one question is about: those of a whole column or group, or beside Carcass the other
	// of a pair (tags or values exchanged, one tag twice). Nil for most findings.
	Lot []*grading.Carcass
}

// Carcasses gives every carcass that the finding is about.
func (f *Finding) Carcasses() []*grading.Carcass {
	if f.Carcass == nil {
		return f.Lot
	}
	return append([]*grading.Carcass{f.Carcass}, f.Lot...)
}

// Choice is what a judge decides about a finding.
type Choice string

// The judge's choices.
const (
	Accept   Choice = "accept as is"
	Correct  Choice = "correct to"
	LeaveOut Choice = "leave out"
)

// Decision is a judge's decision. It holds to the carcass, the measure and the kind of finding, not to a cell.
type Decision struct {
	Tag, Class string
	Measure    measure.ID
	Code       string
	Was        string // the value it was made about, as written
	Choice     Choice
	Value      string // the corrected value as the judge wrote it
	Initials   string
	Remark     string
	Date       string      // as a person gave it; empty for none
	At         rules.Place // where the decision itself stands
	Found      rules.Place // where the finding stood when it was decided
	Level      Level       // of the finding
	Message    string      // of the finding
	Applied    bool        // the correction is in the data
	Refused    bool        // it makes no sense, or no longer fits; a finding says why
	Waiting    bool        // it is Refused only because nobody has put initials beside it
}

// MayConcern reports whether a decision can be about a finding at another cell than it was made at: rows move with their
// carcass; what is said of a whole sheet stays with the sheet.
func (d *Decision) MayConcern(finding *Finding) bool {
	return finding.Tag != "" || d.Found.File == finding.At.File && d.Found.Sheet == finding.At.Sheet
}

// Lot is everything that is checked together.
type Lot struct {
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
	// Unread are the headings of columns that were not read and whose values can be a measure that no heading stands for.
	Unread map[measure.ID][]string
}

// Entry is one line of a roster.
type Entry struct {
	Tag, Class, Exhibitor string
	Refused               bool // consent was answered with anything but a yes
	Place                 rules.Place
}
