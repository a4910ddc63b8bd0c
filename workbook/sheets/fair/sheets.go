package fair

import (
	"railbook/workbook/result"
	"railbook/workbook/sheets/rulebook"
)

// ourSheets write our sheets in the order of their tabs.
var ourSheets = []func(*Press) error{
	(*Press).writePlacings,
	(*Press).writeReasons,
	(*Press).writeReview,
	(*Press).writeErrorLog,
	(*Press).writeSummary,
	(*Press).writeValueGrid,
	(*Press).writeChanges,
	(*Press).writeReadings,
	(*Press).writeLastYear,
	(*Press).writeRunRecord,
	(*Press).writeSealed,
	(*Press).writeCarried,
}

// writeSheets adds our sheets behind the user's.
func writeSheets(results *result.Results) error {
	press := newPress(results)
	for _, write := range ourSheets {
		if err := write(press); err != nil {
			return err
		}
	}
	return nil
}

// Write adds the computed columns beside the user's data, and our sheets and the rulebook behind the user's own. It does
// not save it.
func Write(results *result.Results) error {
	if err := writeColumns(results); err != nil {
		return err
	}
	if err := writeSheets(results); err != nil {
		return err
	}
	return rulebook.AddRulebookSheets(results.Book, results.Rules.Tables)
}
