package grading

import (
	"fmt"
	"strings"

	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// The degrees of marbling from low to high with the codes plants write; a degree's place in the list times 100 is its
// value at 00. Degrees and the scale of hundreds: PMC12311919 table 6, PMC6140836 table 7. "Mod" is in no list, since it
// may be Modest or Moderate.
var marblingDegrees = []struct {
	name  string
	codes []string
}{
	{"Devoid", []string{"dv", "devoid", "dev"}},
	{"Practically Devoid", []string{"pd", "practicallydevoid", "pdev", "practdevoid"}},
	{"Traces", []string{"tr", "traces", "trace"}},
	{"Slight", []string{"sl", "slight", "slt", "sli"}},
	{"Small", []string{"sm", "small", "sml"}},
	{"Modest", []string{"mt", "modest", "mdst"}},
	{"Moderate", []string{"md", "moderate", "mdt"}},
	{"Slightly Abundant", []string{"slab", "slightlyabundant", "slightabundant", "sla", "slabundant"}},
	{"Moderately Abundant", []string{"mab", "moderatelyabundant", "moderateabundant", "mdab", "modab", "mdabundant"}},
	{"Abundant", []string{"ab", "abundant", "abun", "abd"}},
}

var marblingCodes = func() map[string]int64 {
	codes := make(map[string]int64)
	for at, degree := range marblingDegrees {
		for _, code := range degree.codes {
			codes[code] = int64(at) * 100
		}
	}
	return codes
}()

// MarblingHow says how a marbling score was understood.
type MarblingHow string

// The ways in which a marbling score is understood.
const (
	MarblingByNumber  MarblingHow = "number"    // 440, in hundreds a degree
	MarblingByWords   MarblingHow = "words"     // Small 40
	MarblingByScale   MarblingHow = "scale"     // 4.4, on the scale that the rulebook declares: worth a Note
	MarblingAssumed   MarblingHow = "assumed"   // Small+, or Small alone: worth a Note
	MarblingAmbiguous MarblingHow = "ambiguous" // may be read in two ways: there is no value
)

// MarblingReading is a marbling score as it was understood.
type MarblingReading struct {
	Value measure.Value // Number 0 to 999, cut to a whole number; a written number from 1000 up is kept for the limits to hold
	How   MarblingHow
	Note  string // what was assumed, or why it is ambiguous, in a few words
}

// ParseMarbling understands a marbling score: a number in hundreds a degree ("440"), a degree and its place ("SM 40",
// "Sm⁴⁰", "Small 40"), or, with a Note, a degree with a sign or alone: Small− is taken as Small 17, Small° and Small as
// Small 50, Small+ as Small 83, the middles of the thirds and of the degree. A bare number below 100 means nothing
// without a declared scale (5.0 is Modest on the one used since 2022 and was Small before; BIF, "Marbling score") and is
// ambiguous; so is a place of one digit ("Sm 5"). ok is false where the text is no marbling score at all.
func ParseMarbling(text string, scale rules.MarblingScale) (reading MarblingReading, ok bool) {
	text = strings.TrimSuffix(strings.TrimSpace(text), "%")
	if number, err := decimal.NewFromString(strings.ReplaceAll(plainText(text), ",", "")); err == nil {
		return marblingNumber(number, scale)
	}
	body, sign := cutSign(strings.TrimSpace(text))
	letters, rest := splitLetters(plainText(body))
	degree, known := marblingCodes[letters]
	switch {
	case !known:
		return MarblingReading{}, false
	case rest == "":
		value := MarblingValue(degree + sign.middle())
		return MarblingReading{value, MarblingAssumed, fmt.Sprintf("%s read as %s", strings.TrimSpace(text), value.Text)}, true
	case sign != noThird:
		return MarblingReading{}, false
	}
	place, err := decimal.NewFromString(rest)
	if err != nil || place.GreaterThanOrEqual(Hundred) {
		return MarblingReading{}, false
	}
	if len(rest) == 1 && rest != "0" {
		return MarblingReading{How: MarblingAmbiguous, Note: "place " + rest + " may be 0" + rest + " or " + rest + "0"}, true
	}
	return MarblingReading{Value: MarblingValue(degree + place.IntPart()), How: MarblingByWords}, true
}

func marblingNumber(number decimal.Decimal, scale rules.MarblingScale) (MarblingReading, bool) {
	if number.IsNegative() {
		return MarblingReading{}, false
	}
	if number.GreaterThanOrEqual(Hundred) {
		return MarblingReading{Value: MarblingValue(number.IntPart()), How: MarblingByNumber}, true
	}
	var score decimal.Decimal
	switch scale {
	case rules.MarblingSince22:
		score = number.Mul(Hundred)
	case rules.MarblingBefore22:
		score = number.Mul(Hundred).Sub(Hundred)
	case rules.MarblingReversed: // 6 is Small, 5 Modest
		score = decimal.NewFromInt(1000).Sub(number.Mul(Hundred))
	default:
		return MarblingReading{How: MarblingAmbiguous, Note: "a number below 100 means nothing unless the rulebook or the heading declares the scale"}, true
	}
	if score.IsNegative() || score.GreaterThanOrEqual(decimal.NewFromInt(1000)) {
		return MarblingReading{How: MarblingAmbiguous, Note: "the number is outside the scale " + string(scale)}, true
	}
	value := MarblingValue(score.IntPart())
	return MarblingReading{value, MarblingByScale, fmt.Sprintf("%s on the scale %q is %s", number, string(scale), value.Text)}, true
}

func MarblingValue(score int64) measure.Value {
	number := decimal.NewFromInt(score)
	return measure.Value{Number: number, Text: FormatMarbling(number)}
}

// FormatMarbling writes a marbling score of 0 to 999 in words, "Small 40"; any other number as it stands.
func FormatMarbling(score decimal.Decimal) string {
	whole := score.IntPart()
	if whole < 0 || whole > 999 || score.IsNegative() {
		return score.String()
	}
	return fmt.Sprintf("%s %02d", marblingDegrees[whole/100].name, whole%100)
}
