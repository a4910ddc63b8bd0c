package grading

import (
	"strings"

	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// ParseLegScore understands a lamb's leg score that is written as a grade: "Ch+", "High Choice" and 12 are the same leg. The
// value is the score, 7 for Low Good to 15 for High Prime (the scale is from memory). whole is true where only the whole
// grade is given: its middle third is taken. ok is false for other words, and for the grades of beef alone.
func ParseLegScore(text string) (value measure.Value, whole, ok bool) {
	graded, whole, ok := ParseQualityGrade(text)
	if !ok || strings.HasSuffix(graded.Text, "Select") {
		return measure.Value{}, false, false
	}
	score := graded.Number.IntPart() - lambRankAboveScore
	if score < 7 || score > 15 {
		return measure.Value{}, false, false
	}
	return measure.NumberValue(decimal.NewFromInt(score)), whole, true
}

// ConformationOf gives the grade that a score on the scale of leg scores stands for: 12 is High Choice.
func ConformationOf(score measure.Value) (grade measure.Value, ok bool) {
	if !score.Number.IsInteger() {
		return measure.Value{}, false
	}
	grade, ok = lambGradeWords[score.Number.IntPart()]
	return grade, ok && score.Number.IntPart() >= 7
}
