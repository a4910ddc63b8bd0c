package kit

import (
	"strings"

	"railbook/grading"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// NumberFormat shows a number with the decimals of its measure, a little away from the text of the next column.
func NumberFormat(decimals int) string {
	if decimals == 0 {
		return "#,##0_)"
	}
	return "#,##0." + strings.Repeat("0", decimals) + "_)"
}

// FigureEntry shows a figure of a carcass: a number as a number, a grade in its words, a missing one as blank.
func FigureEntry(graded *grading.Graded, id measure.ID, of Role) Entry {
	value, ok := graded.Figure(id)
	if !ok {
		return Entry{"", Style{Role: of}}
	}
	definition, _ := measure.Define(id)
	if definition.Kind != measure.KindNumber {
		return Entry{value.Text, Style{Role: of, Wrap: true}}
	}
	number := AsPrinted(id, value.Number)
	return Entry{number, Style{Role: of, Format: NumberFormat(definition.Decimals)}}
}

// AsPrinted keeps a figure whole but for one that rounding would lift to the next whole grade: 2.996 is printed as 2.99,
// because it is a 2.
func AsPrinted(id measure.ID, number decimal.Decimal) decimal.Decimal {
	if places := int32(grading.DefinitionOf(id).Decimals); grading.RoundsToNextGrade(id, number, places) {
		return number.Truncate(places)
	}
	return number
}

// FigureText is a figure of a carcass in words, a number as it is printed; empty where there is none.
func FigureText(graded *grading.Graded, id measure.ID) string {
	value, ok := graded.Figure(id)
	if !ok {
		return ""
	}
	definition, _ := measure.Define(id)
	if definition.Kind != measure.KindNumber {
		return value.Text
	}
	return AsPrinted(id, value.Number).StringFixed(int32(definition.Decimals))
}

// DollarWords writes dollars for a sentence: "$12,100.54", "-$24.90".
func DollarWords(amount decimal.Decimal) string {
	sign := ""
	if amount.IsNegative() {
		sign, amount = "-", amount.Neg()
	}
	whole, cents, _ := strings.Cut(amount.StringFixed(2), ".")
	for at := len(whole) - 3; at > 0; at -= 3 {
		whole = whole[:at] + "," + whole[at:]
	}
	return sign + "$" + whole + "." + cents
}
