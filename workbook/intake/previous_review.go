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
	rulings   []placing.Ruling
	findings  []validate.Finding
	book      *rules.Rulebook
	tags      map[string][]string // the tags of each class, as the Readings sheet has them
}

// readReview reads every decision and ruling. What makes no sense is kept as a refused decision and said in a finding.
func (r *review) readReview(book *xlsx.Book) error {
	table, err := ourTableOf(book, record.JudgeReviewMark, record.JudgeReviewSheet, record.DecisionColumn, record.CorrectedColumn, record.InitialsColumn, record.RemarkColumn, record.DateColumn, record.KeyRowColumn)
	if err != nil || table == nil {
		return err
	}
	for _, row := range table.rows {
		if !row.filledIn() {
			continue
		}
		switch row.text(record.KeyRowColumn) {
		case record.FindingRow:
			r.decide(row)
		case record.CallRow, record.TieRow:
			r.call(row)
		}
	}
	return nil
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

// decide reads a decision about a finding.
func (r *review) decide(row ourRow) {
	decision := validate.Decision{
		Tag: row.text(record.KeyTagColumn), Class: row.text(record.KeyClassColumn), Measure: r.book.Measures.ByName(row.text(record.KeyMeasureColumn)),
		Code: row.text(record.KeyCodeColumn), Was: row.text(record.KeyWasColumn), Value: row.typed(record.CorrectedColumn), Initials: row.typed(record.InitialsColumn),
		Remark: row.typed(record.RemarkColumn), Date: row.typed(record.DateColumn), At: row.place(record.DecisionColumn),
		Found:   rules.Place{File: row.text(record.KeyFileColumn), Sheet: row.text(record.KeySheetColumn), Cell: row.text(record.KeyCellColumn)},
		Level:   validate.Level(row.text(record.KeyLevelColumn)),
		Message: row.text(record.KeyMessageColumn), Applied: row.text(record.KeyAppliedColumn) == "yes",
	}
	written := row.typed(record.DecisionColumn)
	decision.Choice = choiceOf(written)
	problem, heading := r.problem(decision, written, row)
	decision.Waiting = problem == initialsMissing
	r.add(decision, problem, row.place(heading))
}

// choiceOf reads a choice whatever its letter case and inner blanks; words that are no choice stay as they are.
func choiceOf(written string) validate.Choice {
	plain := strings.ToLower(strings.Join(strings.Fields(written), " "))
	for _, choice := range []validate.Choice{validate.Accept, validate.Correct, validate.LeaveOut} {
		if plain == string(choice) {
			return choice
		}
	}
	return validate.Choice(written)
}

// problem says why a decision cannot be used and which of its cells to mend; empty where it can.
func (r *review) problem(decision validate.Decision, written string, row ourRow) (problem, heading string) {
	switch decision.Choice {
	case "":
		return "no decision is chosen; choose accept as is, correct to, or leave out", record.DecisionColumn
	case validate.Accept, validate.LeaveOut:
		if decision.Value != "" {
			return fmt.Sprintf("the decision is %q but a corrected value %q stands beside it; choose correct to, or clear the value", decision.Choice, decision.Value), record.DecisionColumn
		}
	case validate.Correct:
		if decision.Value == "" {
			return "the decision is to correct, but no corrected value is given; write the value", record.CorrectedColumn
		}
		if words := r.valueProblem(decision.Measure, decision.Value, row); words != "" {
			return words, record.CorrectedColumn
		}
	default:
		return fmt.Sprintf("%q is not a decision; choose accept as is, correct to, or leave out", written), record.DecisionColumn
	}
	if decision.Initials == "" {
		return initialsMissing, record.InitialsColumn
	}
	return "", record.DecisionColumn
}

const initialsMissing = "the judge's initials are missing; a decision counts only with them"

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
		decision.Refused = true
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
