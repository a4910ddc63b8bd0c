package intake

import (
	"fmt"
	"strings"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/validate"

	"github.com/shopspring/decimal"
)

// HiddenCodes are the codes of the notes that something of a sheet is hidden, which is only how it is shown.
var HiddenCodes = []string{hiddenRows, hiddenColumns, hiddenSheet}

const (
	hiddenRows    = "hidden rows"
	hiddenColumns = "hidden columns"
	hiddenSheet   = "hidden sheet"
)

// examples is how many cells a note names.
const examples = 3

// note counts an interpretation under one heading; it is reported once for the column.
func (tr *tableReader) note(under *column, words string, id measure.ID, reading grading.Reading) {
	key := noteKey{under.number, words}
	found := tr.notes[key]
	if found == nil {
		found = &columnNote{measure: id, at: tr.table.page.place(under.at), read: under.text}
		tr.notes[key] = found
		tr.order = append(tr.order, key)
	}
	found.count++
	if len(found.first) <= examples {
		found.first = append(found.first, reading.Place.Cell+" "+phrase.Quote(reading.Written))
	}
}

// reportNotes turns what was counted into findings.
func (tr *tableReader) reportNotes() {
	for _, key := range tr.order {
		found := tr.notes[key]
		tr.find(validate.Finding{
			Level: validate.Note, Code: "interpreted", At: found.at, Measure: found.measure, Read: found.read,
			Message: fmt.Sprintf("under %s, %s: %s (%s).", phrase.Quote(found.read), phrase.Plural(found.count, "cell", "cells"), key.words, strings.Join(phrase.Examples(found.first, examples), ", ")),
		})
	}
	tr.reportHidden()
}

// reportHidden says what of the table a person looking at the sheet does not see, or did not see when the workbook was signed.
func (tr *tableReader) reportHidden() {
	if tr.options.Hidden != nil && tr.table.page.file == "" {
		if tr.hiddenSaid[tr.table.page.sheet] {
			return
		}
		tr.hiddenSaid[tr.table.page.sheet] = true
		for _, kept := range tr.options.Hidden[tr.table.page.sheet] {
			tr.find(validate.Finding{Level: validate.Note, Code: kept.Code, At: tr.sheetPlace(), Message: kept.Words})
		}
		return
	}
	if tr.hidden > 0 {
		tr.find(validate.Finding{
			Level: validate.Note, Code: hiddenRows, At: tr.sheetPlace(),
			Message: phrase.Plural(tr.hidden, "row is", "rows are") + " hidden or filtered out on this sheet, and read like the rest.",
		})
	}
	var headings []string
	for _, column := range tr.table.columns {
		if tr.table.page.hiddenColumn[column.number] && len(column.meaning.candidates) > 0 {
			headings = append(headings, phrase.Quote(column.text))
		}
	}
	if len(headings) > 0 {
		tr.find(validate.Finding{
			Level: validate.Note, Code: hiddenColumns, At: tr.sheetPlace(),
			Message: phrase.Plural(len(headings), "column is", "columns are") + " hidden on this sheet, and read like the rest: " + strings.Join(headings, ", ") + ".",
		})
	}
	if tr.table.page.hidden {
		tr.find(validate.Finding{
			Level: validate.Note, Code: hiddenSheet, At: tr.sheetPlace(), Message: "This sheet is hidden, and was read like the rest.",
		})
	}
}

func (tr *tableReader) sheetPlace() rules.Place {
	return rules.Place{File: tr.table.page.file, Sheet: tr.table.page.sheet}
}

func (r *reader) find(finding validate.Finding) {
	r.result.Findings = append(r.result.Findings, finding)
}

// percentShown gives a percent-formatted number as it is shown: 0.025 is 2.5%.
func percentShown(raw string) (string, error) {
	number, err := decimal.NewFromString(raw)
	if err != nil {
		return "", err
	}
	return number.Mul(decimal.NewFromInt(100)).String() + "%", nil
}
