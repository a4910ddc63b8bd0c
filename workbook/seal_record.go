package workbook

import (
	"fmt"
	"strconv"

	"railbook/rules/measure"
	"railbook/workbook/intake"
)

// recordLines lists what the signature covers beside what was graded from: who signed and when, the other lines of the
// Run record, and every cell of the Change record. A change's line has its number in place of a tag.
func recordLines(run *intake.Run, changes []intake.Change) (lines []intake.SealedLine) {
	for _, field := range runFields(run) {
		lines = append(lines, intake.SealedLine{Kind: signatureLine, Item: field.name, Value: *field.text})
	}
	lines = append(lines, intake.SealedLine{Kind: signatureLine, Item: intake.RevisionLine, Value: fmt.Sprint(run.Revision)})
	for number := range changes {
		lines = append(lines, fieldLines(changeLine, number, changeFields(&changes[number]))...)
	}
	return lines
}

// fieldLines gives a line for each filled text of a numbered row.
func fieldLines(kind string, number int, fields []field) (lines []intake.SealedLine) {
	for _, field := range fields {
		if text := field.value(); text != "" {
			lines = append(lines, intake.SealedLine{Kind: kind, Tag: fmt.Sprint(number + 1), Item: field.name, Value: text})
		}
	}
	return lines
}

// field is a text that a sheet of ours shows under a name.
type field struct {
	name    string
	text    *string
	measure *measure.ID // in place of a text: the measure whose name it is
}

func (f field) value() string {
	if f.measure != nil {
		return f.measure.String()
	}
	return *f.text
}

func (f field) restore(text string) {
	if f.measure != nil {
		*f.measure = measure.Standard().ByName(text)
		return
	}
	*f.text = text
}

func runFields(run *intake.Run) []field {
	return []field{
		{intake.JudgeLine, &run.Judge, nil},
		{intake.SignedLine, &run.Date, nil},
		{intake.InputNameLine, &run.InputName, nil},
		{intake.InputSHALine, &run.InputSHA256, nil},
		{intake.VersionLine, &run.Version, nil},
		{intake.RulebookLine, &run.Rulebook, nil},
		{intake.RulebookSHALine, &run.RulebookSHA, nil},
		{intake.OwnRulebookLine, &run.OwnRulebookSHA, nil},
		{intake.StateLine, &run.State, nil},
	}
}

func changeFields(change *intake.Change) []field {
	return []field{
		{intake.WhenColumn, &change.When, nil},
		{intake.WhoColumn, &change.Who, nil},
		{intake.ClassColumn, &change.Class, nil},
		{intake.TagColumn, &change.Tag, nil},
		{intake.MeasureColumn, nil, &change.Measure},
		{intake.SheetColumn, &change.At.Sheet, nil},
		{intake.CellColumn, &change.At.Cell, nil},
		{intake.WasColumn, &change.Was, nil},
		{intake.IsColumn, &change.Is, nil},
		{intake.MovedColumn, &change.Moved, nil},
		{intake.FileColumn, &change.At.File, nil},
	}
}

// restoreRecord puts the sealed texts back into the Run record, the Change record and last year's figures.
func restoreRecord(previous *intake.Previous, changed []lineDifference) {
	for _, line := range changed {
		one := line.was
		if one.Kind == "" {
			one = line.now
			one.Value = "" // it was not there when signed
		}
		switch one.Kind {
		case signatureLine:
			restoreField(runFields(&previous.Run), one)
			if revision, err := strconv.Atoi(one.Value); err == nil && one.Item == intake.RevisionLine {
				previous.Run.Revision = revision
			}
		case changeLine:
			if number, err := strconv.Atoi(one.Tag); err == nil && number >= 1 && number <= len(previous.Changes) {
				restoreField(changeFields(&previous.Changes[number-1]), one)
			}
		case lastYearLine:
			if number, err := strconv.Atoi(one.Tag); err == nil && number >= 1 && number <= len(previous.LastYear) {
				restoreField(lastYearFields(&previous.LastYear[number-1]), one)
			}
		}
	}
}

func restoreField(fields []field, line intake.SealedLine) {
	for _, field := range fields {
		if field.name == line.Item {
			field.restore(line.Value)
		}
	}
}
