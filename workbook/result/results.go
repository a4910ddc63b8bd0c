// Package fair puts what was computed into the workbook: the computed columns to the right of the data, and the
// sheets that are ours.
package result

import (
	"iter"

	"railbook/grading/placing"
	"railbook/rules"
	"railbook/validate"
	"railbook/workbook/intake"
	"railbook/workbook/record"
	"railbook/workbook/xlsx"
)

// Results is everything a results workbook says.
type Results struct {
	Book      *xlsx.Book // stripped of anything of ours; written into
	Rules     *rules.Rulebook
	Read      *intake.Result
	Carcasses []*Result // all that is known of each carcass; the one of Sequence n is Carcasses[n]
	Findings  []validate.Finding
	Decisions []validate.Decision
	Rulings   []placing.Ruling
	Reasons   map[string]string // edited reasons, as in reading.Previous
	Placings  placing.Placings
	Changes   []record.Change
	Run       record.Run
	Carried   []record.Carried            // files read along, kept for the next time
	Outcomes  iter.Seq[record.SealedLine] // of a signed workbook: places and figures, as they were sealed; nil for none
	Hidden    []record.Noted              // of a signed workbook: what was not shown
	OfFile    []record.Noted              // of the file that was graded, kept through every revision
	Written   []record.Written            // of a signed workbook: what stands beside the data
	LastYear  []record.LastYearLine       // set beside this year on the Summary; empty for none
}

// State is what these results remember for the next grading.
func (r *Results) State() *record.State {
	return &record.State{
		Run: r.Run, Readings: intake.EachRecord(r.Read), Decisions: r.Decisions, Rulings: r.Rulings, Words: r.Reasons,
		Changes: r.Changes, LastYear: r.LastYear, Carried: r.Carried, Rulebook: r.Rules.Tables, Outcomes: r.Outcomes,
		Written: r.Written, Hidden: r.Hidden, OfFile: r.OfFile,
	}
}
