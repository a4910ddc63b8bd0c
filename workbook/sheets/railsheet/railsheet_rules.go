package railsheet

import (
	"strings"

	"railbook/rules"
	"railbook/rules/address"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/workbook/xlsx"

	"github.com/shopspring/decimal"
)

// addRules gives each column to be filled in its drop-down or its entry limits, and the words that are shown when one of
// its cells is selected. Limits and lists warn; they never refuse, for real carcasses break limits.
func (p *railPage) addRules() {
	first, last := railHeadingRow+1, p.Row
	if last < first {
		return
	}
	for number, column := range p.columns[:p.printed] {
		rule := p.entryRule(column, address.Cell(number+1, first))
		rule.Cells = address.Span(number+1, first, number+1, last)
		if words := p.guideOf(column); words.what != "" {
			rule.PromptTitle, rule.Prompt = ruleText(column.heading, mostRuleTitle), ruleText(words.Prompt(), mostRuleWords)
		}
		p.AddRule(rule)
	}
}

// How many letters a spreadsheet program shows of a rule's title and words (ECMA-376 part 1, 18.3.1.32).
const (
	mostRuleTitle = 32
	mostRuleWords = 255
)

func ruleText(text string, most int) string {
	letters := []rune(text)
	if len(letters) <= most {
		return text
	}
	return string(letters[:most-1]) + "…"
}

// entryRule says what may be entered into a column, of which a cell is the first, without a warning.
func (p *railPage) entryRule(column railColumn, cell string) xlsx.Rule {
	if column.choices != nil {
		return p.listRule(column)
	}
	limit, ok := p.limitOf(column)
	if !ok {
		return xlsx.Rule{}
	}
	within := entryBounds(limit)
	rule := xlsx.Rule{ErrorTitle: "Is this right?", Error: ruleText(limitWords(column, limit), mostRuleWords)}
	dots := ""
	if column.dots == dotsCounted {
		dots = "*" + p.grid
	}
	if within.low.Valid {
		rule.Lowest = within.low.Decimal.String() + dots
	}
	if within.high.Valid {
		rule.Highest = within.high.Decimal.String() + dots
	}
	if within.open {
		rule.Formula = "AND(ISNUMBER(" + cell + ")," + cell + "<" + rule.Highest
		if within.low.Valid {
			rule.Formula += "," + cell + ">=" + rule.Lowest
		}
		rule.Formula += ")"
	}
	return rule
}

func (p *railPage) listRule(column railColumn) xlsx.Rule {
	rule := xlsx.Rule{
		ErrorTitle: "Not in the list",
		Error:      "This is not one of the list's words. Look at the tab Column guide for how it may be written. Keep it if it is right.",
	}
	if len(strings.Join(column.choices, ",")) > mostRuleWords {
		rule.ListFrom = p.writer.lists.rangeOf(column.choices)
	} else {
		rule.Choices = column.choices
	}
	return rule
}

// limitOf gives the rulebook's limits of a column's measure; those of an area for the dots that are counted for it.
func (p *railPage) limitOf(column railColumn) (rules.Limit, bool) {
	id := column.measure
	if column.dots == dotsCounted || column.dots == dotsOutlined {
		id = p.areaCounted()
	}
	definition, _ := measure.Define(id)
	if definition.Kind != measure.KindNumber {
		return rules.Limit{}, false
	}
	var general rules.Limit
	found := false
	for _, limit := range p.writer.Rules.Limits {
		within := entryBounds(limit)
		switch {
		case limit.Measure != id || !within.low.Valid && !within.high.Valid:
		case limit.Species == p.kind.Species:
			return limit, true
		case limit.Species == "":
			general, found = limit, true
		}
	}
	return general, found
}

// areaCounted is the measure whose dots are counted on this sheet.
func (p *railPage) areaCounted() measure.ID {
	for _, column := range p.columns {
		if column.counted.is() {
			return column.measure
		}
	}
	return measure.None
}

// entryRange is what may be entered without a warning. Its ends belong to it; but for the upper one where open.
type entryRange struct {
	low, high decimal.NullDecimal
	open      bool
}

// entryBounds gives what raises no finding when the sheet is graded: the look limits, and the hold limits on a side that
// has no look limit or has it further out.
func entryBounds(limit rules.Limit) entryRange {
	within := entryRange{low: limit.LookBelow, high: limit.LookAbove}
	if !within.low.Valid {
		within.low = limit.HoldBelow
	}
	if !within.high.Valid || limit.HoldAbove.Valid && limit.HoldAt && limit.HoldAbove.Decimal.Equal(within.high.Decimal) {
		within.high, within.open = limit.HoldAbove, limit.HoldAt && limit.HoldAbove.Valid
	}
	return within
}

// limitWords says a limit, its unit, and what comes of passing it.
func limitWords(column railColumn, limit rules.Limit) string {
	definition, _ := measure.Define(limit.Measure)
	name, unit := phrase.Capital(limit.Measure.String()), definition.Unit
	if limit.Measure == measure.HotCarcassWeight {
		name = bareWeight // which may be chilled
	}
	within := entryBounds(limit)
	words := name + " is mostly " + entryWords(within.low, within.high) + " " + unit + "."
	if impossible := beyondWords(limit.HoldBelow, limit.HoldAbove); impossible != "" {
		words += " " + phrase.Capital(impossible) + " " + unit + " it can't be right."
	}
	if column.dots == dotsCounted {
		words = "These dots make an area that is unusual. " + words
	}
	return words + " Look again, and keep it if it is right."
}

func entryWords(low, high decimal.NullDecimal) string {
	switch {
	case low.Valid && high.Valid:
		return low.Decimal.String() + " to " + high.Decimal.String()
	case low.Valid:
		return "at least " + low.Decimal.String()
	case high.Valid:
		return "at most " + high.Decimal.String()
	}
	return ""
}

func beyondWords(low, high decimal.NullDecimal) string {
	switch {
	case low.Valid && low.Decimal.IsPositive() && high.Valid:
		return "below " + low.Decimal.String() + " or above " + high.Decimal.String()
	case high.Valid:
		return "above " + high.Decimal.String()
	case low.Valid && low.Decimal.IsPositive():
		return "below " + low.Decimal.String()
	}
	return ""
}
