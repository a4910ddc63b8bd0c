package grading

import (
	"strings"

	"github.com/shopspring/decimal"

	"railbook/rules"
	"railbook/rules/measure"
)

// definitionOf gives the definition of a measure, or of points for one of the rulebook's indexes.
func definitionOf(id measure.ID) measure.Definition {
	definition, standard := measure.Define(id)
	if !standard {
		definition, _ = measure.Define(measure.Points)
	}
	return definition
}

// keyWords names what a key compares as a sentence does: an index by its own name.
func keyWords(key rules.Key) string {
	if key.Index != "" {
		return key.Index
	}
	return key.Measure.String()
}

// shown gives a number with its decimals. A yield grade that rounding would lift to the next whole grade is cut.
func shown(id measure.ID, number decimal.Decimal, places int32) string {
	rounded := number.Round(places)
	if id == measure.YieldGrade && rounded.Floor().GreaterThan(number.Floor()) {
		rounded = number.Truncate(places)
	}
	return fixed(id, rounded, places)
}

// fixed writes a number: money with its cents, weights and points without idle zeros, inches without the zero before
// the point, as the trade writes them.
func fixed(id measure.ID, number decimal.Decimal, places int32) string {
	switch unit := definitionOf(id).Unit; unit {
	case "lb", "points", "days", "dots":
		return number.Round(places).String()
	case "in":
		return strings.Replace(number.StringFixed(places), "0.", ".", 1)
	case "$", "$/cwt", "$/day":
		return thousands(number.StringFixed(places))
	default:
		return number.StringFixed(places)
	}
}

// withUnit adds the unit of a measure to a number.
func withUnit(id measure.ID, number string) string {
	switch unit := definitionOf(id).Unit; unit {
	case "":
		return number
	case "$":
		return dollars(number)
	case "$/cwt":
		return dollars(number) + " per cwt"
	case "$/day":
		return dollars(number) + " a day"
	default:
		return number + " " + unit
	}
}

// sayNumber gives a number of a measure with its unit at the measure's own decimals.
func sayNumber(id measure.ID, number decimal.Decimal) string {
	return withUnit(id, shown(id, number, int32(definitionOf(id).Decimals)))
}

// say gives a value of a measure with its unit: "812 lb", "Low Choice".
func say(id measure.ID, value measure.Value) string {
	if definitionOf(id).Kind != measure.KindNumber {
		return value.Text
	}
	return sayNumber(id, value.Number)
}
