package validate

import (
	"slices"
	"strings"

	"railbook/rules"
	"railbook/rules/measure"
)

// Choice is what a judge decides about a finding.
type Choice string

// The judge's choices.
const (
	Accept   Choice = "accept as is"
	Correct  Choice = "correct to"
	LeaveOut Choice = "leave out"
	Exchange Choice = "exchange"  // this cell and the one it looks exchanged with
	Withdraw Choice = "withdrawn" // a decision that was taken back: the cells say again what the plant wrote
)

// Decision is a judge's decision. It belongs to a carcass and a measure, or to a carcass, or to a sheet, and stays when its
// finding is gone.
type Decision struct {
	Carcass    int // the id of the carcass; 0 where it is about none, or the record does not say
	Tag, Class string
	Measure    measure.ID
	Code       string
	Was        string // the value it was made about, as written
	Choice     Choice
	Value      string // the corrected value as the judge wrote it
	Then       string // the answer to what would be asked next: how far a dark cutter's grade is lowered
	Initials   string
	Remark     string
	Date       string      // as a person gave it; empty for none
	At         rules.Place // where the decision itself stands
	Found      rules.Place // where the finding stood when it was decided
	Other      rules.Place // the cell that the one of the finding looks exchanged with
	Level      Level       // of the finding
	Message    string      // of the finding
	Also       []Asked     // what else was asked in the same row
	Puts       []Put       // the cells that hold what the decision put into them
	Applied    bool        // the correction is in the data
	Refused    bool        // it makes no sense, or no longer fits
	Waiting    bool        // it is Refused only because nobody has put initials beside it
	Why        string      // why it was refused, or what was withdrawn
}

// Asked is one of the findings that a decision answers.
type Asked struct{ Code, Read string }

// Put is a cell that a decision has changed.
type Put struct {
	Class, Tag string // of the carcass, as it is called now
	Measure    measure.ID
	At         rules.Place
	Was, Is    string // as written
	Text       bool   // what was written was a text, and no number
}

// MayConcern reports whether a decision can be about a finding at another cell than it was made at: rows move with their
// carcass; what is said of a whole sheet stays with the sheet.
func (d *Decision) MayConcern(finding *Finding) bool {
	return finding.Tag != "" || d.Found.File == finding.At.File && d.Found.Sheet == finding.At.Sheet
}

// Answers reports whether a finding's kind and value are among those that were asked when it was decided.
func (d *Decision) Answers(finding *Finding) bool {
	return d.Code == finding.Code && d.Was == finding.Read || slices.Contains(d.Also, Asked{finding.Code, finding.Read})
}

// Alike reports whether two decisions say the same, whoever made them.
func (d *Decision) Alike(other *Decision) bool {
	return d.Choice == other.Choice && strings.EqualFold(d.Value, other.Value) && strings.EqualFold(d.Then, other.Then)
}

// Words says what was decided: "correct to 13.6", "leave out".
func (d *Decision) Words() string {
	words := string(d.Choice)
	if d.Choice == Correct {
		words += " " + d.Value
	}
	if d.Then != "" {
		words += ", " + d.Then
	}
	return words
}

// PutInto gives what the decision has put into a measure's cell; nil where it put nothing there.
func (d *Decision) PutInto(id measure.ID) *Put {
	for i := range d.Puts {
		if d.Puts[i].Measure == id {
			return &d.Puts[i]
		}
	}
	return nil
}
