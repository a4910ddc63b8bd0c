package kit

import (
	"fmt"
	"strings"

	"railbook/rules/address"
	"railbook/rules/measure"
	"railbook/workbook/xlsx"
)

func (p *Page) DropDown(column int, rows []int, choices []string, title, words string) {
	p.limitRows(column, rows, xlsx.Rule{Choices: append([]string{}, choices...), Refuse: true, ErrorTitle: title, Error: words, PromptTitle: title, Prompt: words})
}

func (p *Page) NumberLimit(column int, rows []int, lowest, highest string, definition measure.Definition) {
	words := "A number"
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
	p.limitRows(column, rows, xlsx.Rule{
		Lowest: low, Highest: high, ErrorTitle: definition.Heading, Error: words + " is expected here.",
		PromptTitle: definition.Heading, Prompt: words + ".",
	})
}

func (p *Page) Prompt(column int, rows []int, title, words string) {
	p.limitRows(column, rows, xlsx.Rule{PromptTitle: title, Prompt: words})
}

// AddRule limits what may be entered into cells of the page.
func (p *Page) AddRule(rule xlsx.Rule) {
	p.Do(func() error { return p.look.draft.AddRule(p.Name, rule) })
}

// limitRows sets one rule on cells of a column.
func (p *Page) limitRows(column int, rows []int, rule xlsx.Rule) {
	spans := RowSpans(column, rows)
	for len(spans) > 0 && !p.look.signed {
		some := spans[:min(rangesPerRule, len(spans))]
		spans = spans[len(some):]
		rule.Cells = strings.Join(some, " ")
		p.AddRule(rule)
	}
}

// RowSpans joins rows that follow one another: "K6:K9", "K12".
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
