package workbook

import (
	"strconv"

	"railbook/rules"
	"railbook/rules/measure"
	"railbook/workbook/intake"
	"railbook/workbook/record"
)

// restoreRecord puts the sealed texts back into how the results came to be, the changes and last year's figures.
func restoreRecord(previous *intake.Previous, changed []lineDifference) {
	measures := rules.MeasuresOf(previous.Rulebook)
	for _, line := range changed {
		sealed := line.was
		if sealed.Kind == "" {
			sealed = line.now
			sealed.Value = "" // it was not there when signed
		}
		switch sealed.Kind {
		case record.SignatureLine:
			restoreField(record.RunFields(&previous.Run), sealed, measures)
			if revision, err := strconv.Atoi(sealed.Value); err == nil && sealed.Item == record.RevisionLine {
				previous.Run.Revision = revision
			}
		case record.ChangeLine:
			if number, err := strconv.Atoi(sealed.Tag); err == nil && number >= 1 && number <= len(previous.Changes) {
				restoreField(record.ChangeFields(&previous.Changes[number-1]), sealed, measures)
			}
		case record.LastYearKind:
			if number, err := strconv.Atoi(sealed.Tag); err == nil && number >= 1 && number <= len(previous.LastYear) {
				restoreField(record.LastYearFields(&previous.LastYear[number-1]), sealed, measures)
			}
		}
	}
}

func restoreField(fields []record.Field, line record.SealedLine, measures *measure.Table) {
	for _, field := range fields {
		if field.Name == line.Item {
			field.Set(line.Value, measures)
		}
	}
}
