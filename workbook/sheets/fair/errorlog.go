package fair

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"railbook/rules"
	"railbook/rules/address"
	"railbook/rules/phrase"
	"railbook/validate"
	"railbook/workbook/record"
	"railbook/workbook/sheets/kit"
)

// levelWords are the levels as a person reads them.
var levelWords = map[validate.Level]string{validate.Hold: "Hold", validate.Look: "Look", validate.Note: "Note"}

var levelOrder = map[validate.Level]int{validate.Hold: 0, validate.Look: 1, validate.Note: 2}

// The columns of the Error log, from 1.
const (
	logStateColumn   = 2
	logSheetColumn   = 3
	logCellColumn    = 4
	logClassColumn   = 6
	logMeasureColumn = 7
	logFoundColumn   = 9
	logColumns       = 11
	logPrinted       = logColumns - 1 // the kind of finding is for filters
	logHeadingRow    = 5
)

// writeErrorLog writes a line for every finding, gravest first and then by place, with a link to the cell.
func (p *Writer) writeErrorLog() error {
	findings := p.sortedFindings()
	subtitle, widths := logCounts(findings), []float64{6, 12, 9, 6, 7, 11, 11, 11, 42, 8, 15}
	var classes, measures []string
	for i := range findings {
		classes, measures = append(classes, findings[i].Class), append(measures, findings[i].Measure.String())
	}
	kit.FitWords(kit.WidthFor, widths, logFoundColumn, 64, map[int][]string{logClassColumn: classes, logMeasureColumn: measures})
	var hidden []int
	if !slices.ContainsFunc(findings, func(finding validate.Finding) bool { return finding.Settled != nil }) {
		hidden = append(hidden, logStateColumn) // every line would say that it is open
		widths[logFoundColumn-1] += widths[logStateColumn-1]
	}
	if sheet := onlySheet(findings); sheet != "" {
		subtitle += ". All stand on " + sheet
		hidden = append(hidden, logSheetColumn)
		widths[logFoundColumn-1] += widths[logSheetColumn-1]
	}
	page := p.open(kit.PageSetup{
		Name: record.ErrorLogSheet, Mark: record.ErrorLogMark, Title: "Error log: " + p.Status(), Subtitle: subtitle,
		Widths: widths, Hidden: hidden, Printed: logPrinted,
		Landscape: true, RepeatFrom: logHeadingRow, RepeatTo: logHeadingRow, FreezeRows: logHeadingRow,
		FilterRow: logHeadingRow, FilterTo: logHeadingRow + len(findings), Tab: kit.FirstTab,
	})
	page.Across("Hold: left out of the placings until the judge settles it. Look: placed, but the judge should look before signing. "+
		"Note: what was assumed, converted or passed over. A likely value is never put in by itself.", kit.Note, 1, logPrinted)
	page.Skip(1)
	page.Headings("Level", "State", record.SheetColumn, record.CellColumn, record.TagColumn, record.ClassColumn,
		record.MeasureColumn, "As read", "What was found", "Likely value", "Finding")
	for _, finding := range findings {
		logRow(page, finding)
	}
	if len(findings) == 0 {
		page.Across("Nothing was found: every cell was read as it stands and every figure is within its limits.", kit.Body, 1, logPrinted)
	}
	page.PrintTo(logPrinted)
	return page.Close()
}

func logRow(page *kit.Page, finding validate.Finding) {
	plain, wrapped := kit.Style{Role: kit.Body}, kit.Style{Role: kit.Body, Wrap: true}
	level := kit.Style{Role: kit.Strong}
	if finding.Level == validate.Hold && finding.Settled == nil {
		level.Role = kit.Flagged
	}
	cell := kit.Entry{Value: finding.At.Cell, Style: plain}
	linked := finding.At.File == "" && finding.At.Sheet != "" && finding.At.Cell != ""
	if linked {
		cell.Style.Role = kit.Link
	}
	page.Write(
		kit.Entry{Value: levelWords[finding.Level], Style: level}, kit.Entry{Value: stateWords(finding), Style: wrapped}, kit.Entry{Value: placeSheet(finding.At), Style: wrapped}, cell,
		kit.Entry{Value: finding.Tag, Style: plain}, kit.Entry{Value: finding.Class, Style: wrapped}, kit.Entry{Value: finding.Measure.String(), Style: wrapped},
		kit.Entry{Value: finding.Read, Style: wrapped}, kit.Entry{Value: BriefMessage(finding), Style: wrapped}, kit.Entry{Value: finding.Hint, Style: wrapped}, kit.Entry{Value: finding.Code, Style: wrapped},
	)
	if linked {
		page.Link(logCellColumn, finding.At.Sheet, finding.At.Cell)
	}
}

// onlySheet names the sheet that every finding stands on, which its column need not say in each row; empty where there are more.
func onlySheet(findings []validate.Finding) string {
	for _, finding := range findings {
		if placeSheet(finding.At) != placeSheet(findings[0].At) {
			return ""
		}
	}
	if len(findings) == 0 {
		return ""
	}
	return placeSheet(findings[0].At)
}

func placeSheet(at rules.Place) string {
	if at.File != "" && at.Sheet != "" {
		return at.File + ", " + at.Sheet
	}
	return at.File + at.Sheet
}

// BriefMessage is a finding's sentence without the place, which stands in a column of its own.
func BriefMessage(finding validate.Finding) string {
	if rest, found := strings.CutPrefix(finding.Message, finding.At.Begin("")); found {
		return phrase.Capital(rest)
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
	words := "settled: " + decision.Words()
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
		open[validate.Hold], open[validate.Look], phrase.Plural(open[validate.Note], "note", "notes"), settled)
}

// sortedFindings puts the findings in order of level, then of sheet, row and column. The sheets keep the order in which
// they were read.
func (p *Writer) sortedFindings() []validate.Finding {
	sheets := make(map[string]int)
	for _, block := range p.Read.Blocks {
		if _, known := sheets[block.Sheet]; !known {
			sheets[block.Sheet] = len(sheets) + 1
		}
	}
	keyed := make([]placedFinding, len(p.Findings))
	for i, finding := range p.Findings {
		column, row, _ := address.Parse(finding.At.Cell)
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
	for i, finding := range keyed {
		sorted[i] = finding.Finding
	}
	return sorted
}

type placedFinding struct {
	validate.Finding
	sheet, row, column int
}
