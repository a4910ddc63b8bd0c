package intake

import (
	"strings"

	"github.com/shopspring/decimal"
	"golang.org/x/text/unicode/norm"
)

// scale is a unit that people write, as the exact ratio that turns its numbers into the measure's own unit.
type scale struct {
	unit string // as it is named in findings and in Heading.Unit
	base string // the measure's unit that it converts to: "lb", "in", "sq in", "%"
	// The value in the base unit is the number × over / under.
	over, under decimal.Decimal
}

// Exact by definition: 1 lb = 0.45359237 kg, 1 in = 2.54 cm (the international yard and pound, 1959; NIST Handbook 44,
// Appendix C).
var scales = map[string]scale{
	"lb":         newScale("lb", "lb", "1", "1"),
	"kg":         newScale("kg", "lb", "1", "0.45359237"),
	"in":         newScale("in", "in", "1", "1"),
	"tenths":     newScale("tenths", "in", "1", "10"),
	"hundredths": newScale("hundredths", "in", "1", "100"),
	"mm":         newScale("mm", "in", "1", "25.4"),
	"cm":         newScale("cm", "in", "1", "2.54"),
	"sq in":      newScale("sq in", "sq in", "1", "1"),
	"sq cm":      newScale("sq cm", "sq in", "1", "6.4516"),
	"sq mm":      newScale("sq mm", "sq in", "1", "645.16"),
	"%":          newScale("%", "%", "1", "1"),
	"dots":       newScale("dots", "dots", "1", "1"),
}

func newScale(unit, base, over, under string) scale {
	return scale{unit, base, decimal.RequireFromString(over), decimal.RequireFromString(under)}
}

// own reports whether the unit is the measure's own.
func (s scale) own() bool { return s.over.Equal(s.under) }

// convert gives a number in the base unit, rounded to the 4 decimals of a converted measure.
func (s scale) convert(number decimal.Decimal) decimal.Decimal {
	if s.own() {
		return number
	}
	return number.Mul(s.over).DivRound(s.under, 4)
}

// factor gives the number to multiply by, as a formula writes it: to more digits than a spreadsheet keeps.
func (s scale) factor() string {
	if s.own() {
		return ""
	}
	return s.over.DivRound(s.under, 18).String()
}

// conversion says that numbers in this unit were converted; empty for the measure's own unit.
func (s scale) conversion() string {
	if s.own() {
		return ""
	}
	return "in " + unitName(s.unit) + ", converted to " + unitName(s.base)
}

// unitWords are the ways a unit is written, folded.
var unitWords = map[string]string{
	"lb": "lb", "lbs": "lb", "pound": "lb", "pounds": "lb", "lb s": "lb",
	"kg": "kg", "kgs": "kg", "kilo": "kg", "kilos": "kg", "kilogram": "kg", "kilograms": "kg",
	"in": "in", "inch": "in", "inches": "in", "ins": "in", `"`: "in",
	"mm": "mm", "millimeter": "mm", "millimeters": "mm", "millimetre": "mm", "millimetres": "mm",
	"cm": "cm", "centimeter": "cm", "centimeters": "cm", "centimetre": "cm", "centimetres": "cm",
	"sq in": "sq in", "sq inch": "sq in", "sq inches": "sq in", "square inch": "sq in", "square inches": "sq in",
	"in2": "sq in", "inch2": "sq in", "inches2": "sq in", "in sq": "sq in", "inches sq": "sq in", "inches squared": "sq in",
	"sqin": "sq in", "in^2": "sq in", "in 2": "sq in",
	"sq cm": "sq cm", "square cm": "sq cm", "square centimeters": "sq cm", "square centimetres": "sq cm",
	"cm2": "sq cm", "cm sq": "sq cm", "cm^2": "sq cm", "cm 2": "sq cm", "sqcm": "sq cm",
	"mm2": "sq mm", "sq mm": "sq mm", "mm^2": "sq mm",
	"tenth": "tenths", "tenths": "tenths", "10ths": "tenths", "10th": "tenths", "1/10": "tenths", "1/10 in": "tenths",
	"tenths in": "tenths", "10ths in": "tenths", "tenths inch": "tenths", "1/10ths": "tenths", "0.1 in": "tenths",
	"in 10ths": "tenths", "in tenths": "tenths", "1/10 inch": "tenths", "1/10th in": "tenths", "tenths of in": "tenths",
	"tenths of inch": "tenths", "tenths of an inch": "tenths", "10ths of in": "tenths", "1/10ths in": "tenths",
	"hundredth": "hundredths", "hundredths": "hundredths", "100ths": "hundredths", "1/100": "hundredths",
	"1/100 in": "hundredths", "0.01 in": "hundredths", "in hundredths": "hundredths", "in 100ths": "hundredths",
	"hundredths in": "hundredths", "100ths in": "hundredths", "hundredths of an inch": "hundredths",
	"%": "%", "pct": "%", "percent": "%", "per cent": "%",
	"dot": "dots", "dots": "dots",
}

var unitMarks = strings.NewReplacer(".", " ", ",", " ")

// readUnit understands a unit as written in a cell or in brackets; ok is false for anything else.
func readUnit(text string) (scale, bool) {
	text = strings.ToLower(clean(norm.NFKC.String(text)))
	text = numberMarks.Replace(text)
	if name, known := unitWords[text]; known {
		return scales[name], true
	}
	name, known := unitWords[clean(unitMarks.Replace(text))]
	return scales[name], known
}

// unitName says a unit in words.
func unitName(unit string) string {
	switch unit {
	case "kg":
		return "kilograms"
	case "lb":
		return "pounds"
	case "in":
		return "inches"
	case "mm":
		return "millimetres"
	case "cm":
		return "centimetres"
	case "tenths":
		return "tenths of an inch"
	case "hundredths":
		return "hundredths of an inch"
	case "sq in":
		return "square inches"
	case "sq cm":
		return "square centimetres"
	case "sq mm":
		return "square millimetres"
	case "%":
		return "percent"
	}
	return unit
}
