package workbook

import (
	"fmt"

	"railbook/rules"
	"railbook/rules/address"
	"railbook/rules/phrase"
	"railbook/validate"
	"railbook/workbook/intake"
	"railbook/workbook/record"
)

// alteredFindings say of each sheet of ours that was changed by hand that it is written again.
func alteredFindings(altered []intake.Altered) (findings []validate.Finding) {
	for _, sheet := range altered {
		at := rules.Place{Sheet: sheet.Sheet}
		if len(sheet.Rows) > 0 {
			at.Cell = address.Cell(1, sheet.Rows[0])
		}
		findings = append(findings, validate.Finding{
			Level: validate.Note, Code: record.SheetAltered, At: at,
			Message: fmt.Sprintf("Sheet %q: %s since the program wrote it. It is written again from the record; what was typed there does not count.", sheet.Sheet, alteredWords(sheet)),
		})
	}
	return findings
}

// mostRowsNamed keeps the sentence short.
const mostRowsNamed = 5

func alteredWords(sheet intake.Altered) string {
	if len(sheet.Rows) == 0 {
		return "it was taken out"
	}
	var rows []string
	for _, row := range sheet.Rows[:min(len(sheet.Rows), mostRowsNamed)] {
		rows = append(rows, fmt.Sprint(row))
	}
	words := "row " + rows[0] + " was changed"
	if len(rows) > 1 {
		words = "rows " + phrase.JoinAnd(rows) + " were changed"
	}
	if more := len(sheet.Rows) - len(rows); more > 0 {
		words += fmt.Sprintf(", and %d more", more)
	}
	return words
}
