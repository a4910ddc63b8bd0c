package workbook

import (
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/workbook/xlsx"

	"github.com/rs/zerolog"
	"github.com/shopspring/decimal"
)

// Options are what a person may say beside the workbook's name. The zero value grades by the workbook's own rulebook,
// else by the default one, and writes the result beside the input.
type Options struct {
	Output     string                            // where to write; empty: beside the input, <name>-results.xlsx
	Convert    bool                              // let LibreOffice save a spreadsheet of another format as a workbook, and grade that
	Force      bool                              // overwrite a different file
	Rulebook   string                            // a rulebook workbook; empty: the one the workbook carries, else the default
	BasePrices map[rules.Species]decimal.Decimal // $/cwt of carcass, in place of the rulebook's
	Rosters    []string                          // further workbooks whose rosters are joined on tag
	Second     string                            // a second entry of the same carcasses
	Answers    string                            // the plant's answers to a list of questions, to be confirmed by the judge
	Decisions  string                            // a copy of the results in which another judge decided
	LastYear   string                            // a past year's workbook, set beside this year on the Summary
	Columns    map[measure.ID]string             // headings mapped by hand
	Species    rules.Species                     // for sheets that do not say
	Passwords  []string                          // tried on workbooks that ask for one
	Date       string                            // of today's corrections, 2025-07-10; there is no clock in the output
	Version    string                            // of the program, for the run record
	Door       *xlsx.Door                        // by which files are written; nil: one that knows the files named here
	Log        zerolog.Logger
	Stage      func(stage string) // told what is being done, for a progress display; nil for nobody

	rulebookElse string // a rulebook workbook for those that carry none; empty: the default one
}
