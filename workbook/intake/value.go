package intake

import (
	"fmt"
	"strings"

	"railbook/rules"
	"railbook/rules/measure"
	"railbook/workbook/xlsx"

	"github.com/shopspring/decimal"
)

// ReadValue reads what a person wrote for a measure by itself, away from any column: a judge's corrected value. A bare
// number is in the measure's own unit. The error says what is wrong with the words, to be put into a sentence.
func ReadValue(id measure.ID, text string, book *rules.Rulebook) (measure.Value, error) {
	definition, known := measure.Define(id)
	if !known {
		return measure.Value{}, fmt.Errorf("%q is no measure", id)
	}
	text = strings.TrimSpace(text)
	if text == "" {
		return measure.Value{}, fmt.Errorf("no value is given")
	}
	p := &cellParser{
		definition: definition, marbling: book.Settings.MarblingScale,
		scale: newScale(definition.Unit, definition.Unit, "1", "1"),
	}
	cell := xlsx.Cell{Kind: xlsx.Text, Raw: text}
	if number, err := decimal.NewFromString(text); err == nil && !powerOfTen.MatchString(text) && definition.Kind != measure.KindText {
		cell = xlsx.Cell{Kind: xlsx.Number, Raw: number.String()}
	}
	parsed := p.read(cell)
	switch {
	case parsed.problem != "":
		return measure.Value{}, fmt.Errorf("%q %s", text, parsed.problem)
	case parsed.absent:
		return measure.Value{}, fmt.Errorf("%q says that there is no value", text)
	}
	return parsed.reading.Value, nil
}
