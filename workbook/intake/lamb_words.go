package intake

import (
	"strings"

	"railbook/grading"
	"railbook/rules/measure"
	"railbook/workbook/xlsx"
)

// legScore reads a leg score that is written as a grade: "Ch+".
func legScore(text string) parsedCell {
	value, whole, ok := grading.ParseLegScore(text)
	if !ok {
		return parsedCell{problem: "can't be read as a leg score; write a number from 7 (Low Good) to 15 (High Prime), or the grade, as High Choice or Ch+"}
	}
	parsed := parsedCell{reading: grading.Reading{Value: value}, note: "a grade read as its leg score, from 15 for High Prime to 7 for Low Good"}
	if whole {
		parsed.note = "a grade without low or high read as the leg score of its middle"
	}
	return parsed
}

// conformation reads the grade, in words or by its number on the scale of leg scores.
func conformation(cell xlsx.Cell) parsedCell {
	if value, _, ok := grading.ParseQualityGrade(cell.Raw); ok && !strings.HasSuffix(value.Text, "Select") {
		return parsedCell{reading: grading.Reading{Value: value}}
	}
	if typed, problem := readNumber(cell.Raw, false); problem == "" && !typed.hasUnit {
		if value, ok := grading.ConformationOf(measure.NumberValue(typed.number)); ok {
			return parsedCell{reading: grading.Reading{Value: value}, note: "a number on the scale of leg scores read as its grade, 12 as High Choice"}
		}
	}
	return parsedCell{problem: "can't be read as a conformation; write it as High Choice or Ch+, or as a number from 7 (Low Good) to 15 (High Prime)"}
}
