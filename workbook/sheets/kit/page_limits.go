package kit

import (
	"fmt"
	"strings"

	"railbook/rules/address"
	"railbook/rules/measure"

	"github.com/xuri/excelize/v2"
)

func (p *Page) DropDown(column int, rows []int, choices []string, title, words string) {
	p.validate(column, rows, func(rule *excelize.DataValidation) {
		p.Do(func() error { return rule.SetDropList(choices) })
		rule.SetError(excelize.DataValidationErrorStyleStop, title, words)
		rule.SetInput(title, words)
	})
}

func (p *Page) NumberLimit(column int, rows []int, lowest, highest string, definition measure.Definition) {
	words, operator := "A number", excelize.DataValidationOperatorBetween
	if definition.Unit != "" {
		words += " in " + definition.Unit
	}
	low, high := lowest, highest
	if low == "" {
		low = "-999999"
	}
	if high == "" {
		high = "999999"
	}
	switch {
	case lowest != "" && highest != "":
		words += fmt.Sprintf(" from %s to %s", lowest, highest)
	case lowest != "":
		words += " of " + lowest + " or more"
	case highest != "":
		words += " of " + highest + " or less"
	}
	p.validate(column, rows, func(rule *excelize.DataValidation) {
		p.Do(func() error { return rule.SetRange(low, high, excelize.DataValidationTypeDecimal, operator) })
		rule.SetError(excelize.DataValidationErrorStyleWarning, definition.Heading, words+" is expected here.")
		rule.SetInput(definition.Heading, words+".")
	})
}

func (p *Page) Prompt(column int, rows []int, title, words string) {
	p.validate(column, rows, func(rule *excelize.DataValidation) { rule.SetInput(title, words) })
}

// validate sets one rule on cells of a column.
func (p *Page) validate(column int, rows []int, set func(*excelize.DataValidation)) {
	spans := RowSpans(column, rows)
	for len(spans) > 0 && !p.look.signed {
		some := spans[:min(rangesPerRule, len(spans))]
		spans = spans[len(some):]
		rule := excelize.NewDataValidation(true)
		rule.Sqref = strings.Join(some, " ")
		set(rule)
		p.Do(func() error { return p.File.AddDataValidation(p.Name, rule) })
	}
}

// rowSpans joins rows that follow one another: "K6:K9", "K12".
func RowSpans(column int, rows []int) []string {
	var spans []string
	for i := 0; i < len(rows); {
		from := i
		for i++; i < len(rows) && rows[i] == rows[i-1]+1; {
			i++
		}
		if i == from+1 {
			spans = append(spans, address.Cell(column, rows[from]))
		} else {
			spans = append(spans, address.Span(column, rows[from], column, rows[i-1]))
		}
	}
	return spans
}

// rangesPerRule keeps a rule's list of ranges short enough for every spreadsheet program.
const rangesPerRule = 400
