package intake

import (
	"fmt"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/record"
	"railbook/workbook/xlsx"
)

// review gathers what the judge wrote on the Judge review sheet.
type review struct {
	decisions []validate.Decision
	rows      []validate.Decision // what each row asks, decided or not
	rulings   []placing.Ruling
	findings  []validate.Finding
	book      *rules.Rulebook
	tags      map[string][]string // the tags of each class, as they were read before
	initials  string              // written once for every row that has none
	date      string
	gone      bool // the sheet was taken out
	older     bool // the sheet was written by a program that asked about a cell in several rows
}

// readReview reads every decision and ruling. What makes no sense is kept as a refused decision and said in a finding.
func (r *review) readReview(book *xlsx.Book) error {
	table, err := ourTableOf(book, record.JudgeReviewMark, record.JudgeReviewSheet, record.DecisionColumn, record.CorrectedColumn, record.InitialsColumn, record.RemarkColumn, record.DateColumn)
	if err != nil || table == nil {
		r.gone = table == nil
		return err
	}
	if missing, cell := without(table.headings, reviewKeys); missing != "" {
		return &DamagedSheet{Sheet: table.sheet, Cell: cell, Words: fmt.Sprintf("in row %d, the row of headings, the hidden heading %q is gone, so it can't be told what a row is about; "+
			"put the heading back, or use the workbook as it was saved before", table.headings.Number, missing)}
	}
	r.older = table.columns[record.KeyAlsoColumn] == 0
	r.readForAllRows(table)
	for _, row := range table.rows {
		kind := row.text(record.KeyRowColumn)
		if kind == record.FindingRow {
			r.rows = append(r.rows, r.asked(row))
		}
		if !row.filledIn() {
			continue
		}
		switch kind {
		case record.FindingRow:
			r.decide(row)
		case record.CallRow, record.TieRow:
			r.call(row)
		}
	}
	return nil
}

// reviewKeys are the headings of the hidden columns without which a row of the review sheet cannot be read.
var reviewKeys = []string{
	record.KeyRowColumn, record.KeyClassColumn, record.KeyTagColumn, record.KeyMeasureColumn, record.KeyCodeColumn, record.KeyWasColumn,
	record.KeySheetColumn, record.KeyCellColumn,
}

// readForAllRows reads the initials and the date that stand above the headings.
func (r *review) readForAllRows(table *ourTable) {
	for _, row := range table.above {
		line := ourRow{table, row}
		if len(row.Cells) > 0 && strings.TrimSpace(row.Cells[0].Raw) == record.ForAllRows {
			r.initials, r.date = line.typed(record.InitialsColumn), line.typed(record.DateColumn)
		}
	}
}

// initialsOf gives the initials of a row, else those for every row; they count only where something is decided.
func (r *review) initialsOf(row ourRow) (initials, date string) {
	initials, date = row.typed(record.InitialsColumn), row.typed(record.DateColumn)
	if initials == "" {
		initials = r.initials
	}
	if date == "" {
		date = r.date
	}
	return initials, date
}

// filledIn reports whether the judge wrote anything into the row; what the program writes there itself does not count.
func (r ourRow) filledIn() bool {
	for _, heading := range []string{record.CorrectedColumn, record.InitialsColumn, record.RemarkColumn, record.DateColumn} {
		if r.typed(heading) != "" {
			return true
		}
	}
	return r.typed(record.DecisionColumn) != "" && r.text(record.KeyRowColumn) != record.TieRow
}

// asked gives what a row asks about, by its hidden columns.
func (r *review) asked(row ourRow) validate.Decision {
	return validate.Decision{
		Tag: row.text(record.KeyTagColumn), Class: row.text(record.KeyClassColumn), Measure: r.book.Measures.ByName(row.text(record.KeyMeasureColumn)),
		Code: row.text(record.KeyCodeColumn), Was: row.text(record.KeyWasColumn), At: row.place(record.DecisionColumn),
		Found:   rules.Place{File: row.text(record.KeyFileColumn), Sheet: row.text(record.KeySheetColumn), Cell: row.text(record.KeyCellColumn)},
		Other:   rules.Place{Sheet: row.text(record.KeyOtherSheet), Cell: row.text(record.KeyOtherCell)},
		Level:   validate.Level(row.text(record.KeyLevelColumn)),
		Also:    record.AskedOf(row.text(record.KeyAlsoColumn)),
		Message: row.text(record.KeyMessageColumn), Applied: row.text(record.KeyAppliedColumn) == "yes",
	}
}

// decide reads a decision about a finding.
func (r *review) decide(row ourRow) {
	decision := r.asked(row)
	decision.Value, decision.Remark = row.typed(record.CorrectedColumn), row.typed(record.RemarkColumn)
	decision.Initials, decision.Date = r.initialsOf(row)
	written := row.typed(record.DecisionColumn)
	problem := r.choose(&decision, written, row.typed(record.LikelyColumn))
	heading := record.DecisionColumn
	if problem == "" {
		problem, heading = r.problem(&decision, row)
	}
	if other := otherRow(decision, row); other != "" {
		problem, heading = other, record.TagColumn
	}
	decision.Waiting = problem == initialsMissing
	r.add(decision, problem, row.place(heading))
}

// otherRow says that what a row shows is not what its hidden columns are about: the sheet was sorted without them.
func otherRow(decision validate.Decision, row ourRow) string {
	for _, pair := range [][2]string{
		{row.typed(record.ClassColumn), decision.Class},
		{row.typed(record.TagColumn), decision.Tag},
		{row.typed(record.MeasureColumn), decision.Measure.String()},
	} {
		if pair[1] != "" && strings.TrimSpace(pair[1]) != pair[0] {
			return fmt.Sprintf("the row shows %q, and its hidden columns are about %q: the sheet was sorted without them; decide again on a sheet that is graded anew", pair[0], pair[1])
		}
	}
	return ""
}

// choose reads a choice as people write it. A value without a choice is a correction. What can be meant in two ways is a
// problem.
func (r *review) choose(decision *validate.Decision, written, likely string) (problem string) {
	plain := strings.Trim(plainWords(written), ".!")
	value, corrects := strings.CutPrefix(plain, string(validate.Correct)+" ")
	exchanged := decision.Other.Cell != ""
	switch {
	case plain == "" && decision.Value != "", plain == "correct", plain == string(validate.Correct):
		decision.Choice = validate.Correct
	case corrects && decision.Value == "":
		decision.Choice, decision.Value = validate.Correct, strings.TrimSpace(strings.Join(strings.Fields(written), " ")[len(plain)-len(value):])
	case plain == "accept", plain == string(validate.Accept):
		decision.Choice = validate.Accept
	case plain == string(validate.LeaveOut):
		decision.Choice = validate.LeaveOut
	case plain == "withdraw", plain == string(validate.Withdraw), plain == "take back":
		decision.Choice = validate.Withdraw
	case exchanged && (plain == "yes" || plain == string(validate.Exchange) || plain == "exchange: yes" || plain == "exchange yes"):
		decision.Choice = validate.Exchange
	case (plain == "ok" || plain == "okay" || plain == "yes") && decision.Value == "":
		switch {
		case exchanged:
			return fmt.Sprintf("%q can be meant in two ways; accept %s as it stands, or exchange it with cell %s?", written, orBlank(decision.Was), decision.Other.Cell)
		case likely != "":
			return fmt.Sprintf("%q can be meant in two ways; accept %s as it stands, or correct to %s?", written, orBlank(decision.Was), likely)
		}
		decision.Choice = validate.Accept
	default:
		decision.Choice = validate.Choice(written)
	}
	return ""
}

func orBlank(text string) string {
	if text == "" {
		return "the blank"
	}
	return text
}

// choices are what may be chosen in a row.
func choices(decision *validate.Decision) string {
	if decision.Other.Cell != "" {
		return "accept as is, exchange, correct to, or leave out"
	}
	return "accept as is, correct to, or leave out"
}

// problem says why a decision cannot be used and which of its cells to mend; empty where it can.
func (r *review) problem(decision *validate.Decision, row ourRow) (problem, heading string) {
	switch decision.Choice {
	case validate.Withdraw:
		return "", record.DecisionColumn
	case "":
		return "no decision is chosen; choose " + choices(decision), record.DecisionColumn
	case validate.Accept, validate.LeaveOut, validate.Exchange:
		if decision.Value != "" {
			return fmt.Sprintf("the decision is %q but a corrected value %q stands beside it; choose correct to, or clear the value", decision.Choice, decision.Value), record.DecisionColumn
		}
	case validate.Correct:
		if decision.Value == "" {
			return "the decision is to correct, but no corrected value is given; write the value", record.CorrectedColumn
		}
		r.answerNext(decision)
		if words := r.valueProblem(decision.Measure, decision.Value, row); words != "" {
			return words, record.CorrectedColumn
		}
	default:
		return fmt.Sprintf("%q is not a decision; choose %s", decision.Choice, choices(decision)), record.DecisionColumn
	}
	if decision.Initials == "" {
		return initialsMissing, record.InitialsColumn
	}
	return "", record.DecisionColumn
}

const initialsMissing = "the judge's initials are missing; a decision counts only with them"

// answerNext takes apart what answers the next question as well: of a dark cutter, "yes, 1/2" or a lowering alone.
func (r *review) answerNext(decision *validate.Decision) {
	if decision.Measure != measure.DarkCutter {
		return
	}
	lowering := plainWords(decision.Value)
	for _, yes := range []string{"yes", "dark cutter"} {
		lowering = strings.TrimLeft(strings.TrimPrefix(lowering, yes), " ,;:")
	}
	lowering = strings.TrimPrefix(lowering, "lowered ")
	if lowering == "0" && lowering == plainWords(decision.Value) {
		return // a mark that says no
	}
	if _, err := ReadValue(measure.DarkCutterLowering, lowering, r.book); err == nil {
		decision.Value, decision.Then = "yes", lowering
	}
}

// valueProblem says why a corrected value cannot be used: it cannot be read, or cannot be true.
func (r *review) valueProblem(id measure.ID, text string, row ourRow) string {
	if id == measure.None {
		return "the finding is about the whole carcass, so there is no one value to correct; correct the cell itself, accept, or leave out"
	}
	value, err := ReadValue(id, text, r.book)
	if err != nil {
		return err.Error()
	}
	lowest, highest := row.text(record.KeyLowestColumn), row.text(record.KeyHighestColumn)
	if bound, err := decimal.NewFromString(lowest); err == nil && value.Number.LessThan(bound) {
		return fmt.Sprintf("the corrected value %s is below %s, which cannot be true for %s; check the value", text, lowest, id)
	}
	if bound, err := decimal.NewFromString(highest); err == nil && value.Number.GreaterThan(bound) {
		return fmt.Sprintf("the corrected value %s is above %s, which cannot be true for %s; check the value", text, highest, id)
	}
	return ""
}

// add keeps a decision, refused where there is a problem.
func (r *review) add(decision validate.Decision, problem string, at rules.Place) {
	if problem != "" {
		decision.Refused, decision.Why = true, problem
		r.refuse(decision.Class, decision.Tag, decision.Measure, decision.Value, problem, at)
	}
	r.decisions = append(r.decisions, decision)
}

// refuse says what is wrong with a decision, where it was written.
func (r *review) refuse(class, tag string, id measure.ID, written, problem string, at rules.Place) {
	r.findings = append(r.findings, validate.Finding{
		Level: validate.Look, Code: record.NotApplied, At: at, Tag: tag, Class: class, Measure: id, Read: written,
		Message: fmt.Sprintf("S%s: %s. Until then the decision is not applied.", at.String()[1:], problem),
	})
}

// carcassKnown finds the class of a carcass that the judge named by tag, and its tag as the fair writes it.
func (r *review) carcassKnown(class, tag string) (classFound, tagFound, problem string) {
	if tag == "" {
		return class, tag, "no tag is given; write the carcass's tag and class"
	}
	var classes []string
	for name, tags := range r.tags {
		if class != "" && !strings.EqualFold(strings.TrimSpace(name), class) {
			continue
		}
		if found := findTag(tags, tag); found != "" {
			classes, tagFound = append(classes, name), found
		}
	}
	switch {
	case len(classes) == 1:
		return classes[0], tagFound, ""
	case len(classes) > 1:
		slices.Sort(classes)
		return class, tag, fmt.Sprintf("tag %s is in more than one class (%s); write the class as well", tag, strings.Join(classes, ", "))
	case class != "":
		return class, tag, fmt.Sprintf("no carcass with tag %s was read in class %q; check the tag and the class", tag, class)
	}
	return class, tag, fmt.Sprintf("no carcass with tag %s was read; check the tag", tag)
}

// findTag finds a tag as written, or but for leading zeros, which a spreadsheet drops from what is typed, where only one
// tag is meant.
func findTag(tags []string, wanted string) string {
	var alike []string
	for _, tag := range tags {
		if tag == wanted {
			return tag
		}
		if strings.TrimLeft(tag, "0") == strings.TrimLeft(wanted, "0") {
			alike = append(alike, tag)
		}
	}
	if len(alike) == 1 {
		return alike[0]
	}
	return ""
}

// tagsByClass lists the tags of each class.
func tagsByClass(records []record.Reading) map[string][]string {
	tags := make(map[string][]string)
	seen := make(map[[2]string]bool)
	for _, kept := range records {
		key := [2]string{kept.Class, kept.Tag}
		if kept.Tag != "" && !seen[key] {
			seen[key] = true
			tags[kept.Class] = append(tags[kept.Class], kept.Tag)
		}
	}
	return tags
}
