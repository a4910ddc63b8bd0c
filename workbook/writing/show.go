package writing

import (
	"strings"

	"github.com/shopspring/decimal"

	"railbook/grading"
	"railbook/rules"
)

// headingOf is our heading of a measure with its unit: "Ribeye area, sq in".
func headingOf(measure rules.Measure) string {
	definition, known := rules.Define(measure)
	switch {
	case !known:
		return string(measure)
	case definition.Computed, definition.Unit == "", strings.HasSuffix(definition.Heading, definition.Unit):
		return definition.Heading
	}
	return definition.Heading + ", " + definition.Unit
}

// heading is our heading of a measure in a class: where live animals were scanned, it says what was scanned and what is
// estimated from that.
func (k kindOfClass) heading(measure rules.Measure) string {
	words := headingOf(measure)
	definition, _ := rules.Define(measure)
	if k.Basis != rules.LiveScan || definition.Kind != rules.KindNumber {
		return words
	}
	for _, column := range grading.Columns(k.Species, k.Basis) {
		if column.Measure == measure && strings.HasPrefix(column.Heading, "Estimated") {
			return column.Heading
		}
	}
	if definition.Computed || definition.Unit == "lb" || measure == rules.InternalFat {
		return words // weights come from a scale, and fat inside the animal is not scanned
	}
	return "Scanned " + strings.ToLower(words[:1]) + words[1:]
}

// numberFormat shows a number with the decimals of its measure, a little away from the text of the next column.
func numberFormat(decimals int) string {
	if decimals == 0 {
		return "#,##0_)"
	}
	return "#,##0." + strings.Repeat("0", decimals) + "_)"
}

// figureEntry shows a figure of a carcass: a number as a number, a grade in its words, a missing one as blank.
func figureEntry(graded *grading.Graded, measure rules.Measure, of role) entry {
	value, ok := graded.Figure(measure)
	if !ok {
		return entry{"", style{Role: of}}
	}
	definition, _ := rules.Define(measure)
	if definition.Kind != rules.KindNumber {
		return entry{value.Text, style{Role: of, Wrap: true}}
	}
	number := asPrinted(value.Number, definition.Decimals, measure == rules.YieldGrade)
	return entry{number, style{Role: of, Format: numberFormat(definition.Decimals)}}
}

// asPrinted keeps a figure whole but for one that rounding would lift to the next whole grade: 2.996 is printed as 2.99,
// for it is a 2.
func asPrinted(number decimal.Decimal, decimals int, cut bool) decimal.Decimal {
	places := int32(decimals)
	if cut && !number.Round(places).Truncate(0).Equal(number.Truncate(0)) {
		return number.Truncate(places)
	}
	return number
}

// FigureText is a figure of a carcass in words, a number as it is printed; empty where there is none.
func FigureText(graded *grading.Graded, measure rules.Measure) string {
	value, ok := graded.Figure(measure)
	if !ok {
		return ""
	}
	definition, _ := rules.Define(measure)
	if definition.Kind != rules.KindNumber {
		return value.Text
	}
	return asPrinted(value.Number, definition.Decimals, measure == rules.YieldGrade).StringFixed(int32(definition.Decimals))
}

func textOf(graded *grading.Graded, measure rules.Measure) string {
	reading, ok := graded.Reading(measure)
	if !ok {
		return ""
	}
	return reading.Value.Text
}

// sentence begins a text with a capital letter and ends it with a full stop.
func sentence(text string) string {
	if text == "" {
		return ""
	}
	text = strings.ToUpper(text[:1]) + text[1:]
	if strings.HasSuffix(text, ".") || strings.HasSuffix(text, "?") {
		return text
	}
	return text + "."
}

func plural(count int, one, many string) string {
	if count == 1 {
		return "1 " + one
	}
	return decimal.NewFromInt(int64(count)).String() + " " + many
}
