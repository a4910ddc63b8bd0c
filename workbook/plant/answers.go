package plant

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"railbook/rules"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/intake"
	"railbook/workbook/xlsx"
)

// Answer is what the plant wrote beside a question.
type Answer struct {
	About
	Tag     string
	Written string // what stood in the cell when it was asked about
	Text    string // the answer, as written
	Row     int    // of the list
}

// ReadAnswers reads the answers out of a list of questions, lines without an answer left out. The error says what the file lacks.
func ReadAnswers(book *xlsx.Book) ([]Answer, error) {
	for _, sheet := range book.Sheets() {
		grid, err := book.Scan(sheet.Name)
		if err != nil {
			return nil, err
		}
		for at, row := range grid.Rows {
			if columns := headingsOf(row); columns != nil {
				return answersUnder(grid.Rows[at+1:], columns), nil
			}
		}
	}
	return nil, fmt.Errorf("%s is no list of questions: no row has the headings %q, %q and %q. Name the list that was written by check --questions, with the answers filled in",
		filepath.Base(book.Path), sheetHeading, checkHeading, answerHeading)
}

// headingsOf gives the columns of the list's headings by their words; nil where a row does not have them all.
func headingsOf(row xlsx.Row) map[string]int {
	columns := map[string]int{}
	for _, cell := range row.Cells {
		columns[strings.TrimSpace(cell.Raw)] = cell.Column
	}
	for _, heading := range []string{answerHeading, writtenHeading, workbookHeading, sheetHeading, cellHeading, tagHeading, measureHeading, checkHeading} {
		if columns[heading] == 0 {
			return nil
		}
	}
	return columns
}

func answersUnder(rows []xlsx.Row, columns map[string]int) []Answer {
	var list []Answer
	for _, row := range rows {
		text := func(heading string) string {
			for _, cell := range row.Cells {
				if cell.Column == columns[heading] {
					return asText(cell.Raw)
				}
			}
			return ""
		}
		answer := strings.TrimSpace(text(answerHeading))
		if answer == "" {
			continue
		}
		list = append(list, Answer{
			About: About{text(workbookHeading), text(sheetHeading), text(cellHeading), measure.Standard().ByName(text(measureHeading)), text(checkHeading)},
			Tag:   text(tagHeading), Written: text(writtenHeading), Text: answer, Row: row.Number,
		})
	}
	return list
}

// asText takes away the sign that keeps a text from being a formula.
func asText(raw string) string {
	if len(raw) > 1 && raw[0] == '\'' && neverFormula(raw[1:]) != raw[1:] {
		return raw[1:]
	}
	return raw
}

// For gives the answers about a workbook that goes, or went, by one of these names. A list of one workbook is about it by whatever
// name it goes now.
func For(answers []Answer, names ...string) []Answer {
	asked := map[string]bool{}
	for _, answer := range answers {
		asked[answer.Workbook] = true
	}
	if len(asked) < 2 {
		return answers
	}
	var list []Answer
	for _, answer := range answers {
		if slices.Contains(names, answer.Workbook) {
			list = append(list, answer)
		}
	}
	return list
}

// Fits reports whether an answer is about a finding: the same cell or carcass, the same measure, the same check and the same value.
func (a Answer) Fits(finding *validate.Finding) bool {
	return a.Check == finding.Code && a.Measure == finding.Measure && a.Tag == finding.Tag && a.Written == finding.Read &&
		a.Sheet == finding.At.Sheet && (a.Cell == finding.At.Cell || finding.Tag != "")
}

// rightAsWritten are the answers that say that what is written is right.
var rightAsWritten = []string{"as written", "right", "correct", "right as written", "is right", "stands", "unchanged"}

// Decision gives the decision that an answer would be, for the judge to confirm: it has no initials, so it is not applied. Where an
// answer is no value and does not say that the cell is right, nothing is chosen and the judge reads it in the remark.
func (a Answer) Decision(finding *validate.Finding, book *rules.Rulebook) validate.Decision {
	decision := validate.Decision{
		Tag: finding.Tag, Class: finding.Class, Measure: finding.Measure, Code: finding.Code, Was: finding.Read, Remark: "The plant answered: " + a.Text,
		Found: finding.At, Level: finding.Level, Message: finding.Message, Refused: true, Waiting: true,
	}
	plain := strings.ToLower(strings.Trim(strings.Join(strings.Fields(a.Text), " "), ".!"))
	value, err := intake.ReadValue(finding.Measure, a.Text, book)
	switch {
	case slices.Contains(rightAsWritten, plain) || finding.Read != "" && a.Text == finding.Read:
		decision.Choice = validate.Accept
	case finding.Measure == measure.None || err != nil || finding.Carcass == nil || notAValue(finding.Measure, plain):
	case sameAsWritten(finding, value):
		decision.Choice = validate.Accept
	default:
		decision.Choice, decision.Value = validate.Correct, a.Text
		if finding.Measure == measure.Tag && strings.TrimLeft(a.Text, "0") == strings.TrimLeft(finding.Hint, "0") {
			decision.Value = finding.Hint // some programs drop the zeros before a number
		}
	}
	return decision
}

// sameAsWritten reports whether a value is what the cell holds already: 13.60 is 13.6.
func sameAsWritten(finding *validate.Finding, value measure.Value) bool {
	now, read := finding.Carcass.Reading(finding.Measure)
	return read && now.Value.Number.Equal(value.Number) && now.Value.Text == value.Text
}

// notAValue keeps an answer in words from becoming a tag or another text.
func notAValue(id measure.ID, plain string) bool {
	definition, _ := measure.Define(id)
	return definition.Kind == measure.KindText && (plain == "yes" || plain == "no" || strings.Contains(plain, " "))
}
