package reading

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"

	"railbook/grading"
	"railbook/rules"
)

// correctedValue reads a value that a judge wrote on the Judge review sheet.
func correctedValue(measure rules.Measure, text string, book *rules.Rulebook) (rules.Value, error) {
	definition, known := rules.Define(measure)
	if !known {
		return rules.Value{}, fmt.Errorf("%q is no measure; the sheet was changed, so decide again in a fresh results workbook", measure)
	}
	unclear := fmt.Errorf("%q can't be read as %s; write it as on the card", text, measure)
	switch definition.Kind {
	case rules.KindNumber:
		number, err := decimal.NewFromString(strings.ReplaceAll(strings.TrimSuffix(strings.TrimSpace(text), definition.Unit), ",", ""))
		if err != nil {
			return rules.Value{}, unclear
		}
		return rules.NumberValue(number), nil
	case rules.KindMarbling:
		if read, ok := grading.ParseMarbling(text, book.Settings.MarblingScale); ok {
			return read.Value, nil
		}
		return rules.Value{}, unclear
	case rules.KindMaturity:
		if read, ok := grading.ParseMaturity(text); ok {
			return read.Value, nil
		}
		return rules.Value{}, unclear
	case rules.KindGrade:
		if value, _, ok := grading.ParseQualityGrade(text); ok {
			return value, nil
		}
		return rules.Value{}, unclear
	}
	return rules.Value{Text: text}, nil
}
