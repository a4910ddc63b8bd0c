// Package plant is the list of doubtful cells that goes back to the plant: a question for each check in the plant's own
// words, and the answers read back.
package plant

import (
	"cmp"
	"path/filepath"
	"slices"

	"railbook/grading"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/intake"
	"railbook/workbook/result"
)

// Question is one line of the list.
type Question struct {
	Rail, Tag, Class string
	Heading          string // as the plant heads the column; empty where the question is about the whole carcass or sheet
	Written          string // what stands in the cell
	Asked            string // a sentence or two
	About
}

// About names what a question is about, so that its answer finds its way back.
type About struct {
	Workbook, Sheet, Cell string
	Measure               measure.ID
	Check                 string // the code of the finding
}

// Questions are what a plant can answer of the open findings, in the order of the workbook. What the fair office or the judge
// alone can know is not asked.
func Questions(results *result.Results) []Question {
	var list []Question
	for i := range results.Findings {
		finding := &results.Findings[i]
		if finding.Settled != nil || finding.Level == validate.Note {
			continue
		}
		heading := headingOf(results.Read, finding)
		words := asked(finding, heading)
		if words == "" {
			continue
		}
		question := Question{
			Tag: finding.Tag, Class: finding.Class, Heading: heading, Written: finding.Read, Asked: words,
			About: About{filepath.Base(results.Book.Path), finding.At.Sheet, finding.At.Cell, finding.Measure, finding.Code},
		}
		if finding.Carcass != nil {
			question.Rail = finding.Carcass.ReadingOf(measure.RailNumber).Written
		}
		list = append(list, question)
	}
	return list
}

// headingOf is how the sheet itself heads what a finding is about; else the measure's name.
func headingOf(read *intake.Result, finding *validate.Finding) string {
	if finding.Measure == measure.None {
		return ""
	}
	carcasses := finding.Carcasses()
	for b := range read.Blocks {
		block := &read.Blocks[b]
		if block.Sheet != finding.At.Sheet || len(carcasses) > 0 && !standsIn(block, carcasses[0]) {
			continue
		}
		for _, heading := range block.Headings {
			if heading.Measure == finding.Measure && heading.Text != "" {
				return heading.Text
			}
		}
	}
	return finding.Measure.String()
}

func standsIn(block *intake.Block, carcass *grading.Carcass) bool {
	_, here := block.Line(carcass)
	return here
}

// column is one column of the list; the same ones stand in a workbook and in a text of comma-separated values.
type column struct {
	heading string
	width   float64
	of      func(q Question) string
	hidden  bool
}

// The headings by which answers are read back.
const (
	answerHeading   = "Your answer"
	writtenHeading  = "What is written"
	workbookHeading = "Workbook"
	sheetHeading    = "Sheet"
	cellHeading     = "Cell"
	tagHeading      = "Tag"
	measureHeading  = "Measure"
	checkHeading    = "Check"
)

// columnsFor leaves out the rail number and the class where no question has one.
func columnsFor(questions []Question) []column {
	columns := []column{
		{"Rail", 7, func(q Question) string { return q.Rail }, false},
		{tagHeading, 9, func(q Question) string { return q.Tag }, false},
		{"Class", 15, func(q Question) string { return q.Class }, false},
		{"As headed", 14, func(q Question) string { return q.Heading }, false},
		{writtenHeading, 11, func(q Question) string { return q.Written }, false},
		{"What is asked", 46, func(q Question) string { return q.Asked }, false},
		{answerHeading, 22, func(Question) string { return "" }, false},
		{sheetHeading, 12, func(q Question) string { return q.Sheet }, false},
		{cellHeading, 7, func(q Question) string { return q.Cell }, false},
		{workbookHeading, 12, func(q Question) string { return q.Workbook }, true},
		{measureHeading, 12, func(q Question) string { return q.Measure.String() }, true},
		{checkHeading, 12, func(q Question) string { return q.Check }, true},
	}
	return slices.DeleteFunc(columns, func(asked column) bool {
		optional := asked.heading == "Rail" || asked.heading == "Class"
		return optional && !slices.ContainsFunc(questions, func(q Question) bool { return asked.of(q) != "" })
	})
}

// orBlank names an empty cell.
func orBlank(text string) string { return cmp.Or(text, "blank") }
