// Package fair puts what was computed into the workbook: the computed columns to the right of the data, and the
// sheets that are ours.
package result

import (
	"railbook/grading"
	"railbook/grading/placing"
	"railbook/rules"
	"railbook/validate"
	"railbook/workbook/intake"
	"railbook/workbook/xlsx"
)

// Results is everything a results workbook says.
type Results struct {
	Book      *xlsx.Book // stripped of anything of ours; written into
	Rules     *rules.Rulebook
	Read      *intake.Result
	Graded    []*grading.Graded // in the order of Read.Carcasses
	Findings  []validate.Finding
	Decisions []validate.Decision
	Rulings   []placing.Ruling
	Reasons   map[string]string // edited reasons, as in reading.Previous
	Placings  placing.Placings
	Changes   []intake.Change
	Run       intake.Run
	Carried   []intake.Carried      // files read along, kept for the next time
	Sealed    []intake.SealedLine   // what the signature covers; empty while provisional
	LastYear  []intake.LastYearLine // set beside this year on the Summary; empty for none
}
