package fair

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/validate"
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
	reviewKeys
)

const (
	reviewVisible    = reviewKeys - 1
	reviewHeadingRow = 5
	callRows         = 12 // blank rows for the judge's own calls
	roomToWrite      = 24 // points: a row that can be filled in by hand
)

// reviewRow is one row of the sheet: what is asked and, where the judge has decided, the decision.
type reviewRow struct {
	kind     string
	finding  validate.Finding
	decision *validate.Decision
	species  rules.Species
}

// writeReview writes a row for each Hold and Look, open or decided, in the order in which a judge walks the rail, and
// below them rows for the judge's own calls.
func (p *Press) writeReview() error {
	rows := p.reviewRows()
	page := p.open(kit.Plan{
		Name: record.JudgeReviewSheet, Mark: record.JudgeReviewMark, Title: "Judge review: " + p.Status(), Subtitle: reviewCounts(rows),
		Widths: []float64{
			14, 8, 6, 12, 12, 10, 42, 8, 13, 11, 8, 22, 11,
			8, 8, 8, 8, 8, 8, 8, 8, 8, 8, 8, 8, 8, 8,
		},
		Hidden:    hiddenFrom(reviewKeys, reviewKeys+len(reviewKeyHeadings)-1),
		Landscape: true, RepeatFrom: reviewHeadingRow, RepeatTo: reviewHeadingRow, FreezeRows: reviewHeadingRow, FreezeColumns: reviewTag,
		Protected: true, Tab: kit.InputTab,
	})
	page.Across(p.whatToFillIn("Fill in the tinted, bordered cells: choose a decision, give the corrected value where you correct, and your initials. "+
		"Save the workbook and grade it again; your decisions stay with the carcass."), kit.Note, 1, reviewVisible)
	page.Skip(1)
	page.Headings(append([]string{
		record.ClassColumn, record.TagColumn, "Level", "Where", record.MeasureColumn, "Was read", "What is wrong", "Likely value",
		record.DecisionColumn, record.CorrectedColumn, record.InitialsColumn, record.RemarkColumn, record.DateColumn,
	}, reviewKeyHeadings...)...)
	entries := newReviewLimits(p.Rules)
	for _, row := range rows {
		p.findingRow(page, row, entries)
	}
	if len(rows) == 0 {
		page.Across("Nothing is on hold and nothing is to be looked at.", kit.Body, 1, reviewVisible)
	}
	p.writeCalls(page, entries)
	entries.add(page)
	return page.Close()
}

// whatToFillIn gives the words for whoever fills in a sheet; on a signed one nothing can be filled in.
func (p *Press) whatToFillIn(words string) string {
	if p.Status() == record.Signed {
		return "Signed, and locked. To decide otherwise, go back to the results that were signed, grade those again and sign anew."
	}
	return words
}

var reviewKeyHeadings = []string{
	record.KeyRowColumn, record.KeyClassColumn, record.KeyTagColumn, record.KeyMeasureColumn, record.KeyCodeColumn,
	record.KeyWasColumn, record.KeyLevelColumn, record.KeyMessageColumn, record.KeyFileColumn, record.KeySheetColumn,
	record.KeyCellColumn, record.KeyAppliedColumn, record.KeyLowestColumn, record.KeyHighestColumn,
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
	for _, row := range rows {
		if row.decision != nil && !row.decision.Refused {
			decided++
		}
	}
	return phrase.Plural(len(rows), "row", "rows") + " to decide, " + strconv.Itoa(decided) + " decided"
}

// reviewRows gathers the findings to decide and the decisions already made, in order of class and tag.
func (p *Press) reviewRows() []reviewRow {
	var rows []reviewRow
	for _, finding := range p.Findings {
		if finding.Level == validate.Note || finding.Code == record.NotApplied || finding.Code == record.JudgesCall {
			continue
		}
		rows = append(rows, reviewRow{kind: record.FindingRow, finding: finding, decision: finding.Settled, species: carcassSpecies(finding.Carcass)})
	}
	shown := p.giveDecisions(rows)
	rows = append(rows, p.earlierRows(shown)...)
	slices.SortStableFunc(rows, func(a, b reviewRow) int {
		return cmp.Or(cmp.Compare(a.finding.Class, b.finding.Class), compareTags(a.finding.Tag, b.finding.Tag),
			cmp.Compare(levelOrder[a.finding.Level], levelOrder[b.finding.Level]))
	})
	return rows
}

// giveDecisions puts each decision into the row of its finding: at the cell it was made at, else at another one of the same
// carcass, or where there is no carcass of the same sheet. It returns the decisions that have a row.
func (p *Press) giveDecisions(rows []reviewRow) map[*validate.Decision]bool {
	byKey := make(map[reviewKey][]*validate.Decision)
	for i := range p.Decisions {
		key := keyOf(&p.Decisions[i])
		byKey[key] = append(byKey[key], &p.Decisions[i])
	}
	shown, given := make(map[*validate.Decision]bool), make(map[int]bool)
	for _, sameCell := range []bool{true, false} {
		for r := range rows {
			finding := &rows[r].finding
			for _, decision := range byKey[reviewKey{finding.Class, finding.Tag, finding.Measure, finding.Code, finding.Read}] {
				fits := decision.Found == finding.At || !sameCell && decision.MayConcern(finding)
				if fits && !given[r] && !shown[decision] {
					rows[r].decision = decision
					shown[decision], given[r] = true, true
				}
			}
		}
	}
	return shown
}

// reviewKey is what a decision holds to: not a cell, but a carcass, a measure, a kind of finding and the value read.
type reviewKey struct {
	class, tag string
	measure    measure.ID
	code, was  string
}

func keyOf(decision *validate.Decision) reviewKey {
	return reviewKey{decision.Class, decision.Tag, decision.Measure, decision.Code, decision.Was}
}

// earlierRows are the decisions whose findings are not raised any more: they stay, for they are part of the record.
func (p *Press) earlierRows(shown map[*validate.Decision]bool) []reviewRow {
	var rows []reviewRow
	for i := range p.Decisions {
		decision := &p.Decisions[i]
		if shown[decision] || decision.Code == record.JudgesCall {
			continue
		}
		rows = append(rows, reviewRow{kind: record.FindingRow, decision: decision, finding: validate.Finding{
			Level: decision.Level, Code: decision.Code, At: decision.Found, Tag: decision.Tag, Class: decision.Class,
			Measure: decision.Measure, Read: decision.Was, Message: decision.Message,
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

func (p *Press) findingRow(page *kit.Page, row reviewRow, limits *reviewLimits) {
	finding := row.finding
	plain, wrapped := kit.Style{Role: kit.Body}, kit.Style{Role: kit.Body, Wrap: true}
	level := kit.Style{Role: kit.Strong}
	if finding.Level == validate.Hold && (row.decision == nil || row.decision.Refused) {
		level.Role = kit.Flagged
	}
	where := kit.Entry{Value: whereWords(finding.At), Style: wrapped}
	linked := finding.At.File == "" && finding.At.Sheet != "" && finding.At.Cell != ""
	if linked {
		where.Style.Role = kit.Link
	}
	cells := []kit.Entry{
		{Value: kit.ClassName(finding.Class), Style: wrapped},
		{Value: kit.TagWords(finding.Tag), Style: kit.Style{Role: kit.Strong}},
		{Value: levelWords[finding.Level], Style: level},
		where,
		{Value: finding.Measure.String(), Style: wrapped},
		{Value: finding.Read, Style: wrapped},
		{Value: p.wrongWords(row), Style: wrapped},
		{Value: finding.Hint, Style: plain},
	}
	cells = append(cells, decisionEntries(row.decision, asTyped(finding.Measure))...)
	lowest, highest := limits.of(row.species, finding.Measure)
	page.WriteHigh(roomToWrite, append(cells, keyEntries(row, lowest, highest)...)...)
	if linked {
		page.Link(reviewWhere, finding.At.Sheet, finding.At.Cell)
	}
	limits.use(row.species, finding.Measure, page.Row)
}

// whereWords says the cell first: the name of its sheet may be longer than the column, and some programs cut it off.
func whereWords(at rules.Place) string {
	if at.Cell == "" {
		return placeSheet(at)
	}
	return at.Cell + ", " + placeSheet(at)
}

// wrongWords is what is wrong, and before it what was wrong with the decision itself where it could not be used.
func (p *Press) wrongWords(row reviewRow) string {
	if row.decision == nil || !row.decision.Refused {
		return briefMessage(row.finding)
	}
	return strings.TrimSpace(p.refusedWords(*row.decision) + " " + briefMessage(row.finding))
}

// refusedWords says why a decision could not be used.
func (p *Press) refusedWords(decision validate.Decision) string {
	if decision.Waiting && decision.Choice != "" {
		return "Waits for the judge's initials."
	}
	if decision.Waiting {
		return "Waits for the judge's decision."
	}
	for _, finding := range p.Findings {
		if finding.Code == record.NotApplied && sameRow(finding.At, decision.At) {
			return "The decision could not be used: " + briefMessage(finding)
		}
	}
	return "The decision could not be used."
}

func sameRow(a, b rules.Place) bool {
	_, rowA := kit.Coordinates(a.Cell)
	_, rowB := kit.Coordinates(b.Cell)
	return a.Sheet == b.Sheet && rowA == rowB && rowA > 0
}

// textFormat keeps what is typed as it is typed: 1/3 does not become a date, nor tag 0412 the number 412.
const textFormat = "@"

// asTyped is the format of the cell for the corrected value of a measure.
func asTyped(id measure.ID) string {
	if definition, known := measure.Define(id); known && definition.Kind == measure.KindNumber {
		return "" // its entry limits need a number
	}
	return textFormat
}

func decisionEntries(decision *validate.Decision, format string) []kit.Entry {
	if decision == nil {
		decision = &validate.Decision{}
	}
	filled, wrapped := kit.Style{Role: kit.Input}, kit.Style{Role: kit.Input, Wrap: true}
	return []kit.Entry{
		{Value: string(decision.Choice), Style: filled},
		{Value: decision.Value, Style: kit.Style{Role: kit.Input, Format: format}},
		{Value: decision.Initials, Style: filled},
		{Value: decision.Remark, Style: wrapped},
		{Value: decision.Date, Style: filled},
	}
}

func keyEntries(row reviewRow, lowest, highest string) []kit.Entry {
	finding, applied := row.finding, ""
	if row.decision != nil && row.decision.Applied {
		applied = "yes"
	}
	texts := []string{
		row.kind, finding.Class, finding.Tag, finding.Measure.String(), finding.Code, finding.Read, string(finding.Level), finding.Message,
		finding.At.File, finding.At.Sheet, finding.At.Cell, applied, lowest, highest,
	}
	entries := make([]kit.Entry, len(texts))
	for i, text := range texts {
		entries[i].Value = text
	}
	return entries
}
