package grading

import (
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"

	"github.com/shopspring/decimal"
)

// DefinitionOf gives the definition of a measure, standard or of a rulebook's own.
func DefinitionOf(id measure.ID) measure.Definition {
	definition, _ := measure.Define(id)
	return definition
}

// KeyWords names what a key compares as a sentence does: an index by its own name.
func KeyWords(key rules.Key) string {
	if key.Index != "" {
		return key.Index
	}
	return key.Measure.String()
}

// Shown gives a number with its decimals. A yield grade that rounding would lift to the next whole grade is cut.
func Shown(id measure.ID, number decimal.Decimal, places int32) string {
	return Fixed(id, ShownNumber(id, number, places), places)
}

// ShownNumber is the number that Shown writes.
func ShownNumber(id measure.ID, number decimal.Decimal, places int32) decimal.Decimal {
	if -number.Exponent() <= places {
		return number
	}
	rounded := measure.Round(number, places)
	if id == measure.YieldGrade && isNextGrade(rounded, number) {
		return number.Truncate(places)
	}
	return rounded
}

// RoundsToNextGrade reports whether rounding would lift a yield grade to the next whole grade: 2.996 to two decimals, which is a
// 2. Such a figure is cut instead wherever it is shown or compared.
func RoundsToNextGrade(id measure.ID, number decimal.Decimal, places int32) bool {
	return id == measure.YieldGrade && -number.Exponent() > places && isNextGrade(measure.Round(number, places), number)
}

func isNextGrade(rounded, number decimal.Decimal) bool {
	return measure.Compare(rounded, number) > 0 && measure.Compare(measure.Floor(rounded), number) > 0
}

// Fixed writes a number: money with its cents, weights and points without needless zeros. The zero before a point stays, as the
// number formats of the tables have it.
func Fixed(id measure.ID, number decimal.Decimal, places int32) string {
	switch unit := DefinitionOf(id).Unit; unit {
	case "lb", "points", "days", "dots":
		return measure.NumberText(measure.Round(number, places))
	case "$", "$/cwt", "$/day":
		return phrase.Thousands(measure.FixedText(number, places))
	default:
		return measure.FixedText(number, places)
	}
}

// WithUnit adds the unit of a measure to a number.
func WithUnit(id measure.ID, number string) string {
	switch unit := DefinitionOf(id).Unit; unit {
	case "":
		return number
	case "$":
		return phrase.Dollars(number)
	case "$/cwt":
		return phrase.Dollars(number) + " per cwt"
	case "$/day":
		return phrase.Dollars(number) + " a day"
	default:
		return number + " " + unit
	}
}

// SayNumber gives a number of a measure with its unit at the measure's own decimals.
func SayNumber(id measure.ID, number decimal.Decimal) string {
	return WithUnit(id, Shown(id, number, int32(DefinitionOf(id).Decimals)))
}

// SayFigure gives a number of a measure with its unit, a marbling in degrees: "0.44 in", "Small 40".
func SayFigure(id measure.ID, number decimal.Decimal) string {
	if id == measure.MarblingScore || DefinitionOf(id).Kind == measure.KindMarbling {
		return FormatMarbling(number)
	}
	return SayNumber(id, number)
}

// Say gives a value of a measure with its unit: "812 lb", "Low Choice".
func Say(id measure.ID, value measure.Value) string {
	if DefinitionOf(id).Kind != measure.KindNumber {
		return value.Text
	}
	return SayNumber(id, value.Number)
}

// SayAdjustment writes the dollars that a line of the grid adds, a premium with its plus: "+$17.54", "-$1.00".
func SayAdjustment(dollars decimal.Decimal) string {
	text := phrase.Dollars(phrase.Thousands(dollars.StringFixed(2)))
	if dollars.IsPositive() {
		return "+" + text
	}
	return text
}
