package grading

import (
	"strings"

	"railbook/rules"

	"github.com/shopspring/decimal"
)

// definitionOf gives the definition of a measure, or of points for one of the rulebook's indexes.
func definitionOf(measure rules.Measure) rules.Definition {
	if _, index := pointsIndex(measure); index {
		measure = rules.Points
	}
	definition, _ := rules.Define(measure)
	return definition
}

// measureWords names a measure as a sentence does: an index by its own name.
func measureWords(measure rules.Measure) string {
	if index, ok := pointsIndex(measure); ok && index != "" {
		return index
	}
	return string(measure)
}

// shown gives a number with its decimals. A yield grade that rounding would lift to the next whole grade is cut.
func shown(measure rules.Measure, number decimal.Decimal, places int32) string {
	rounded := number.Round(places)
	if measure == rules.YieldGrade && rounded.Floor().GreaterThan(number.Floor()) {
		rounded = number.Truncate(places)
	}
	return fixed(measure, rounded, places)
}

// fixed writes a number: money with its cents, weights and points without idle zeros, inches without the zero before
// the point, as the trade writes them.
func fixed(measure rules.Measure, number decimal.Decimal, places int32) string {
	switch unit := definitionOf(measure).Unit; unit {
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
func withUnit(measure rules.Measure, number string) string {
	switch unit := definitionOf(measure).Unit; unit {
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
func sayNumber(measure rules.Measure, number decimal.Decimal) string {
	return withUnit(measure, shown(measure, number, int32(definitionOf(measure).Decimals)))
}

// say gives a value of a measure with its unit: "812 lb", "Low Choice".
func say(measure rules.Measure, value rules.Value) string {
	if definitionOf(measure).Kind != rules.KindNumber {
		return value.Text
	}
	return sayNumber(measure, value.Number)
}
