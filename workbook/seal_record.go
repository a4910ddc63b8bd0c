package workbook

import (
	"fmt"
	"strconv"

	"railbook/workbook/reading"
)

// recordLines lists what the signature covers beside what was graded from: who signed and when, the other lines of the
// Run record, and every cell of the Change record. A change's line has its number in place of a tag.
func recordLines(run *reading.Run, changes []reading.Change) (lines []reading.SealedLine) {
	for _, field := range runFields(run) {
		lines = append(lines, reading.SealedLine{Kind: signatureLine, Item: field.name, Value: *field.text})
	}
	lines = append(lines, reading.SealedLine{Kind: signatureLine, Item: reading.RevisionLine, Value: fmt.Sprint(run.Revision)})
	for number := range changes {
		lines = append(lines, fieldLines(changeLine, number, changeFields(&changes[number]))...)
	}
	return lines
}

// fieldLines gives a line for each filled text of a numbered row.
func fieldLines(kind string, number int, fields []field) (lines []reading.SealedLine) {
	for _, field := range fields {
		if *field.text != "" {
			lines = append(lines, reading.SealedLine{Kind: kind, Tag: fmt.Sprint(number + 1), Item: field.name, Value: *field.text})
		}
	}
	return lines
}

// field is a text that a sheet of ours shows under a name.
type field struct {
	name string
	text *string
}

func runFields(run *reading.Run) []field {
	return []field{
		{reading.JudgeLine, &run.Judge},
		{reading.SignedLine, &run.Date},
		{reading.InputNameLine, &run.InputName},
		{reading.InputSHALine, &run.InputSHA256},
		{reading.VersionLine, &run.Version},
		{reading.RulebookLine, &run.Rulebook},
		{reading.RulebookSHALine, &run.RulebookSHA},
		{reading.OwnRulebookLine, &run.OwnRulebookSHA},
		{reading.StateLine, &run.State},
	}
}

func changeFields(change *reading.Change) []field {
	return []field{
		{reading.WhenColumn, &change.When},
		{reading.WhoColumn, &change.Who},
		{reading.ClassColumn, &change.Class},
		{reading.TagColumn, &change.Tag},
		{reading.MeasureColumn, (*string)(&change.Measure)},
		{reading.SheetColumn, &change.At.Sheet},
		{reading.CellColumn, &change.At.Cell},
		{reading.WasColumn, &change.Was},
		{reading.IsColumn, &change.Is},
		{reading.MovedColumn, &change.Moved},
		{reading.FileColumn, &change.At.File},
	}
}

// restoreRecord puts the sealed texts back into the Run record, the Change record and last year's figures.
func restoreRecord(previous *reading.Previous, changed []lineDifference) {
	for _, line := range changed {
		one := line.was
		if one.Kind == "" {
			one = line.now
			one.Value = "" // it was not there when signed
		}
		switch one.Kind {
		case signatureLine:
			restoreField(runFields(&previous.Run), one)
			if revision, err := strconv.Atoi(one.Value); err == nil && one.Item == reading.RevisionLine {
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

func restoreField(fields []field, line reading.SealedLine) {
	for _, field := range fields {
		if field.name == line.Item {
			*field.text = line.Value
		}
	}
}
