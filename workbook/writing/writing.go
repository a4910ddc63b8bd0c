// Package writing puts what was computed into the workbook: the computed columns to the right of the data, and the
// sheets that are ours.
package writing

import (
	"railbook/grading"
	"railbook/rules"
	"railbook/validate"
	"railbook/workbook/parts"
	"railbook/workbook/reading"
)

// Results is everything a results workbook says.
type Results struct {
	Book      *parts.Book // stripped of anything of ours; written into
	Rules     *rules.Rulebook
	Read      *reading.Result
	Graded    []*grading.Graded // in the order of Read.Carcasses
	Findings  []validate.Finding
	Decisions []validate.Decision
	Rulings   []grading.Ruling
	Reasons   map[string]string // edited reasons, as in reading.Previous
	Placings  grading.Placings
	Changes   []reading.Change
	Run       reading.Run
	Carried   []reading.Carried      // files read along, kept for the next time
	Sealed    []reading.SealedLine   // what the signature covers; empty while provisional
	LastYear  []reading.LastYearLine // set beside this year on the Summary; empty for none
}
