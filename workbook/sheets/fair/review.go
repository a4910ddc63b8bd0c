package fair

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/phrase"
	"railbook/validate"
	"railbook/workbook/intake"
	"railbook/workbook/record"
	"railbook/workbook/sheets/kit"
)

// The columns of the Judge review sheet, from 1. Those from reviewKeys on are hidden: they hold what a decision is
// about, so that it stays with the carcass wherever its row or cell goes.
const (
	reviewClass = iota + 1
	reviewTag
	reviewLevel
	reviewWhere
	reviewMeasure
	reviewRead
	reviewWrong
	reviewHint
	reviewDecision
	reviewCorrected
	reviewInitials
	reviewRemark
	reviewDate
	reviewState
	reviewKeys
)

const (
	reviewVisible    = reviewKeys - 1
	reviewPrinted    = reviewInitials // the last column on paper: a remark is typed, and a state is read on the screen
	reviewHeadingRow = 5
	callRows         = 8 // blank rows for the judge's own calls
	widestWhere      = 16.0
	roomToWrite      = 24 // points: a row that can be filled in by hand
)

// reviewRow is one row of the sheet: all that is asked about a cell and, where the judge has decided, the decision.
type reviewRow struct {
	kind     string
	asked    []*validate.Finding // what is found now, what leads it first; empty where only the decision is left
	finding  validate.Finding    // what leads the row
	decision *validate.Decision
	species  rules.Species
}

// open reports whether something is asked in the row that is not settled.
func (r *reviewRow) open() bool {
	return slices.ContainsFunc(r.asked, func(finding *validate.Finding) bool { return finding.Settled == nil })
}

// onHold reports whether what is open keeps a carcass from being placed.
func (r *reviewRow) onHold() bool {
	return slices.ContainsFunc(r.asked, func(finding *validate.Finding) bool { return finding.Settled == nil && finding.Level == validate.Hold })
}

// writeReview writes a row for each cell that something is to be decided about, open or decided, in the order in which a
// judge walks the rail, and below them rows for the judge's own calls.
func (p *Writer) writeReview() error {
	rows := p.reviewRows()
	widths := []float64{10.5, 6, 6, 10, 10, 8.5, 28, 7, 10.5, 10, 7, 22, 11, 18}
	counts, only := reviewCounts(rows), onlySheetOf(rows)
	if only != "" {
		counts += ". All stand on " + only
		widths[reviewWhere-1] = 6.8
	} else {
		for i := range rows { // a link is written on one line
			widths[reviewWhere-1] = max(widths[reviewWhere-1], min(kit.WidthFor(whereWords(rows[i].finding.At), kit.Link)+1, widestWhere))
		}
	}
	var classes, measures []string
	for i := range rows {
		classes, measures = append(classes, kit.ClassName(rows[i].finding.Class)), append(measures, rows[i].finding.Measure.String())
	}
	kit.FitWords(kit.WidthFor, widths, reviewWrong, 58.5-widths[reviewWhere-1], map[int][]string{reviewClass: classes, reviewMeasure: measures})
	for range reviewKeyHeadings {
		widths = append(widths, 8)
	}
	page := p.open(kit.PageSetup{
		Name: record.JudgeReviewSheet, Mark: record.JudgeReviewMark, Title: "Judge review: " + p.Status(), Subtitle: counts,
		Widths: widths, Hidden: hiddenFrom(reviewKeys, reviewKeys+len(reviewKeyHeadings)-1),
		Printed: reviewPrinted, Foot: "Judge's initials ____________  Date ____________",
		Landscape: true, RepeatFrom: reviewHeadingRow, RepeatTo: reviewHeadingRow, FreezeRows: reviewHeadingRow, FreezeColumns: reviewTag,
		Protected: true, Tab: kit.InputTab,
	})
	page.Across(p.whatToFillIn("Fill in the tinted, bordered cells: accept as is, correct to a value (the value alone will do), or leave out; where two cells look exchanged, exchange. "+
		"To take a decision back, clear its cells: the data say again what the plant wrote. Save the workbook and grade it again."), kit.Note, 1, reviewPrinted)
	p.writeForAllRows(page)
	page.Headings(append([]string{
		record.ClassColumn, record.TagColumn, "Level", "Where", record.MeasureColumn, "Was read", "What is wrong", record.LikelyColumn,
		record.DecisionColumn, record.CorrectedColumn, record.InitialsColumn, record.RemarkColumn, record.DateColumn, record.StateColumn,
	}, reviewKeyHeadings...)...)
	entries := newReviewLimits(p.Rules)
	for i := range rows {
		p.findingRow(page, &rows[i], only != "", entries)
	}
	if len(rows) == 0 {
		page.Across("Nothing is on hold and nothing is to be looked at.", kit.Body, 1, reviewPrinted)
	}
	p.writeCalls(page, entries)
	entries.add(page)
	return page.Close()
}

// writeForAllRows leaves room for initials and a date that stand for every row that has none of its own.
func (p *Writer) writeForAllRows(page *kit.Page) {
	entries := make([]kit.Entry, reviewDate)
	entries[0] = kit.Entry{Value: record.ForAllRows, Style: kit.Style{Role: kit.Strong}}
	entries[reviewInitials-1] = kit.Entry{Value: "", Style: kit.Style{Role: kit.Input}}
	entries[reviewDate-1] = kit.Entry{Value: "", Style: kit.Style{Role: kit.Input}}
	page.Write(entries...)
}

// whatToFillIn gives the words for whoever fills in a sheet; on a signed one nothing can be filled in.
func (p *Writer) whatToFillIn(words string) string {
	if p.Status() == record.Signed {
		return "Signed, and locked. To decide otherwise, go back to the results that were signed, grade those again and sign anew."
	}
	return words
}

var reviewKeyHeadings = []string{
	record.KeyRowColumn, record.KeyClassColumn, record.KeyTagColumn, record.KeyMeasureColumn, record.KeyCodeColumn,
	record.KeyWasColumn, record.KeyLevelColumn, record.KeyMessageColumn, record.KeyFileColumn, record.KeySheetColumn,
	record.KeyCellColumn, record.KeyAppliedColumn, record.KeyLowestColumn, record.KeyHighestColumn, record.KeyAlsoColumn,
	record.KeyOtherSheet, record.KeyOtherCell,
}

func hiddenFrom(first, last int) []int {
	var columns []int
	for column := first; column <= last; column++ {
		columns = append(columns, column)
	}
	return columns
}

func reviewCounts(rows []reviewRow) string {
	decided := 0
	for i := range rows {
		if !rows[i].open() && (rows[i].decision == nil || !rows[i].decision.Refused) {
			decided++
		}
	}
	return phrase.Plural(len(rows), "row", "rows") + " to decide, " + strconv.Itoa(decided) + " decided"
}

// cellKey is what one row asks about: a measure of a carcass; else a kind of finding.
type cellKey struct {
	carcass *grading.Carcass
	about   intake.Decided
}

func cellOfFinding(finding *validate.Finding) cellKey {
	about := intake.DecidedBy(&validate.Decision{Class: finding.Class, Tag: finding.Tag, Measure: finding.Measure, Code: finding.Code, Found: finding.At})
	if finding.Carcass != nil {
		about.Found = rules.Place{} // a remark beside the cell asks about the same cell
	}
	return cellKey{finding.Carcass, about}
}

// reviewRows gathers the findings to decide, those about one cell in one row, and the decisions already made, in order of
// class and tag.
func (p *Writer) reviewRows() []reviewRow {
	var rows []reviewRow
	at := make(map[cellKey]int)
	for i := range p.Findings {
		finding := &p.Findings[i]
		if finding.Level == validate.Note || finding.Code == record.NotApplied || finding.Code == record.JudgesCall || finding.Remembered {
			continue
		}
		if finding.Settled != nil && finding.Settled.Measure != finding.Measure {
			continue // about the other cell of an exchange, which has its row
		}
		key := cellOfFinding(finding)
		known, there := at[key]
		if !there {
			known = len(rows)
			at[key] = known
			rows = append(rows, reviewRow{kind: record.FindingRow, species: carcassSpecies(finding.Carcass)})
		}
		rows[known].asked = append(rows[known].asked, finding)
		if rows[known].decision == nil && p.numberOf(finding.Settled) >= 0 {
			rows[known].decision = finding.Settled
		}
	}
	for i := range rows {
		slices.SortStableFunc(rows[i].asked, func(a, b *validate.Finding) int {
			return cmp.Or(cmp.Compare(levelOrder[a.Level], levelOrder[b.Level]), cmp.Compare(besideCell(a), besideCell(b)))
		})
		rows[i].finding = *rows[i].asked[0]
	}
	rows = append(rows, p.earlierRows(p.giveDecisions(rows))...)
	slices.SortStableFunc(rows, func(a, b reviewRow) int {
		return cmp.Or(cmp.Compare(a.finding.Class, b.finding.Class), compareTags(a.finding.Tag, b.finding.Tag),
			cmp.Compare(levelOrder[a.finding.Level], levelOrder[b.finding.Level]))
	})
	return rows
}

// besideCell is 1 for what was found in another cell than the measure's own, such as a remark.
func besideCell(finding *validate.Finding) int {
	if finding.Carcass != nil {
		if reading, written := finding.Carcass.Written(finding.Measure); written && reading.Place == finding.At {
			return 0
		}
	}
	return 1
}

// giveDecisions puts each decision into the row of its cell: the one it was made at, else another one of the same carcass, or
// where there is no carcass of the same sheet. It says of each decision whether it has a row.
func (p *Writer) giveDecisions(rows []reviewRow) []bool {
	shown := make([]bool, len(p.Decisions))
	byKey := make(map[intake.Decided][]int)
	for i := range p.Decisions {
		key := intake.DecidedBy(&p.Decisions[i])
		key.Found = rules.Place{}
		byKey[key] = append(byKey[key], i)
	}
	for r := range rows {
		if rows[r].decision != nil {
			shown[p.numberOf(rows[r].decision)] = true
		}
	}
	for _, sameCell := range []bool{true, false} {
		for r := range rows {
			finding := &rows[r].finding
			key := intake.DecidedBy(&validate.Decision{Class: finding.Class, Tag: finding.Tag, Measure: finding.Measure, Code: finding.Code})
			for _, number := range byKey[key] {
				decision := &p.Decisions[number]
				fits := decision.Found == finding.At || !sameCell && decision.MayConcern(finding)
				if fits && rows[r].decision == nil && !shown[number] && decision.Code != record.JudgesCall {
					rows[r].decision = decision
					shown[number] = true
				}
			}
		}
	}
	return shown
}

// numberOf is the place of a decision among those that count; -1 for none of them.
func (p *Writer) numberOf(decision *validate.Decision) int {
	for i := range p.Decisions {
		if decision == &p.Decisions[i] {
			return i
		}
	}
	return -1
}

// earlierRows are the decisions whose findings are not raised any more: they stay, for they are part of the record.
func (p *Writer) earlierRows(shown []bool) []reviewRow {
	var rows []reviewRow
	for i := range p.Decisions {
		decision := &p.Decisions[i]
		if shown[i] || decision.Code == record.JudgesCall {
			continue
		}
		rows = append(rows, reviewRow{kind: record.FindingRow, decision: decision, finding: validate.Finding{
			Level: decision.Level, Code: decision.Code, At: decision.Found, Tag: decision.Tag, Class: decision.Class,
			Measure: decision.Measure, Read: decision.Was, Message: decision.Message, Exchange: decision.Other,
		}})
	}
	return rows
}

func carcassSpecies(carcass *grading.Carcass) rules.Species {
	if carcass == nil {
		return ""
	}
	return carcass.Species
}

// compareTags orders tags as people count: 9 before 10, and what has letters by its letters.
func compareTags(a, b string) int {
	x, errX := strconv.ParseInt(strings.TrimLeft(a, "#"), 10, 64)
	y, errY := strconv.ParseInt(strings.TrimLeft(b, "#"), 10, 64)
	if errX == nil && errY == nil {
		return cmp.Or(cmp.Compare(x, y), cmp.Compare(a, b))
	}
	return cmp.Compare(a, b)
}

// onlySheetOf names the sheet that all rows are about, which is then said once; empty where there are more.
func onlySheetOf(rows []reviewRow) string {
	findings := make([]validate.Finding, len(rows))
	for i := range rows {
		findings[i] = rows[i].finding
	}
	return onlySheet(findings)
}
