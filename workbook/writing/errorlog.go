package writing

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"railbook/rules"
	"railbook/validate"
	"railbook/workbook/reading"
)

// levelWords are the levels as a person reads them.
var levelWords = map[validate.Level]string{validate.Hold: "Hold", validate.Look: "Look", validate.Note: "Note"}

var levelOrder = map[validate.Level]int{validate.Hold: 0, validate.Look: 1, validate.Note: 2}

// The columns of the Error log, from 1.
const (
	logCellColumn = 4
	logColumns    = 11
	logHeadingRow = 5
)

// writeErrorLog writes a line for every finding, gravest first and then by place, with a link to the cell.
func (p *press) writeErrorLog() error {
	findings := p.sortedFindings()
	page := p.open(plan{
		Name: reading.ErrorLogSheet, Mark: reading.ErrorLogMark, Title: "Error log: " + p.status(), Subtitle: logCounts(findings),
		Widths:    []float64{7, 19, 13, 7, 8, 15, 14, 11, 52, 9, 15},
		Landscape: true, RepeatFrom: logHeadingRow, RepeatTo: logHeadingRow, FreezeRows: logHeadingRow,
		FilterRow: logHeadingRow, FilterTo: logHeadingRow + len(findings), Tab: firstTab,
	})
	page.across("Hold: left out of the placings until the judge settles it. Look: placed, but the judge should look before signing. "+
		"Note: what was assumed, converted or passed over. A likely value is never put in by itself.", note, 1, logColumns)
	page.skip(1)
	page.headings("Level", "State", reading.SheetColumn, reading.CellColumn, reading.TagColumn, reading.ClassColumn,
		reading.MeasureColumn, "As read", "What was found", "Likely value", "Finding")
	for _, finding := range findings {
		logRow(page, finding)
	}
	if len(findings) == 0 {
		page.across("Nothing was found: every cell was read as it stands and every figure is within its limits.", body, 1, logColumns)
	}
	return page.close()
}

func logRow(page *page, finding validate.Finding) {
	plain, wrapped := style{Role: body}, style{Role: body, Wrap: true}
	level := style{Role: strong}
	if finding.Level == validate.Hold && finding.Settled == nil {
		level.Role = flagged
	}
	cell := entry{finding.At.Cell, plain}
	linked := finding.At.File == "" && finding.At.Sheet != "" && finding.At.Cell != ""
	if linked {
		cell.style.Role = link
	}
	page.write(
		entry{levelWords[finding.Level], level}, entry{stateWords(finding), wrapped}, entry{placeSheet(finding.At), wrapped}, cell,
		entry{finding.Tag, plain}, entry{finding.Class, wrapped}, entry{finding.Measure.String(), wrapped},
		entry{finding.Read, wrapped}, entry{briefMessage(finding), wrapped}, entry{finding.Hint, wrapped}, entry{finding.Code, wrapped},
	)
	if linked {
		page.link(logCellColumn, finding.At.Sheet, finding.At.Cell)
	}
}

func placeSheet(at rules.Place) string {
	if at.File != "" && at.Sheet != "" {
		return at.File + ", " + at.Sheet
	}
	return at.File + at.Sheet
}

// briefMessage is a finding's sentence without the place, which stands in a column of its own.
func briefMessage(finding validate.Finding) string {
	at := finding.At.String()
	if at == "" {
		return finding.Message
	}
	if rest, found := strings.CutPrefix(finding.Message, strings.ToUpper(at[:1])+at[1:]+": "); found {
		return strings.ToUpper(rest[:1]) + rest[1:]
	}
	return finding.Message
}

// stateWords says whether a finding is open, or how and by whom it was settled.
func stateWords(finding validate.Finding) string {
	if finding.Settled == nil {
		if finding.Level == validate.Note {
			return "for your information"
		}
		return "open"
	}
	decision := finding.Settled
	words := "settled: " + string(decision.Choice)
	if decision.Choice == validate.Correct {
		words += " " + decision.Value
	}
	if decision.Initials != "" {
		words += ", by " + decision.Initials
	}
	if decision.Date != "" {
		words += ", " + decision.Date
	}
	return words
}

func logCounts(findings []validate.Finding) string {
	open, settled := make(map[validate.Level]int), 0
	for _, finding := range findings {
		if finding.Settled != nil {
			settled++
			continue
		}
		open[finding.Level]++
	}
	return fmt.Sprintf("Whole workbook: %d on hold, %d to look at, %s, %d settled",
		open[validate.Hold], open[validate.Look], plural(open[validate.Note], "note", "notes"), settled)
}

// sortedFindings puts the findings in order of level, then of sheet, row and column. The sheets keep the order in which
// they were read.
func (p *press) sortedFindings() []validate.Finding {
	sheets := make(map[string]int)
	for _, block := range p.Read.Blocks {
		if _, known := sheets[block.Sheet]; !known {
			sheets[block.Sheet] = len(sheets) + 1
		}
	}
	keyed := make([]placedFinding, len(p.Findings))
	for i, finding := range p.Findings {
		column, row := coordinates(finding.At.Cell)
		keyed[i] = placedFinding{finding, sheets[finding.At.Sheet], row, column}
	}
	slices.SortStableFunc(keyed, func(a, b placedFinding) int {
		return cmp.Or(
			cmp.Compare(levelOrder[a.Level], levelOrder[b.Level]),
			cmp.Compare(a.At.File, b.At.File), cmp.Compare(a.sheet, b.sheet), cmp.Compare(a.At.Sheet, b.At.Sheet),
			cmp.Compare(a.row, b.row), cmp.Compare(a.column, b.column),
		)
	})
	sorted := make([]validate.Finding, len(keyed))
	for i, one := range keyed {
		sorted[i] = one.Finding
	}
	return sorted
}

type placedFinding struct {
	validate.Finding
	sheet, row, column int
}
