package grading

import (
	"fmt"
	"strconv"
	"strings"

	"railbook/rules/measure"
	"railbook/rules/phrase"

	"github.com/shopspring/decimal"
)

// MaturityReading is a maturity as it was understood.
type MaturityReading struct {
	Value measure.Value // Number 100 to 599, A00 being 100; Text "A60"
	Note  string        // what was assumed ("A read as A50"), or why nothing could be read
}

var maturityWords = phrase.NewPattern(`^([a-e])(?:maturity)?(\d*)$`)

// ParseMaturity understands a maturity: a letter and its place 00 to 99 ("A60", "A-60", "a⁶⁰"), or a number of 100 to
// 599 ("160" is A60). A bare letter is taken as the middle of its group with a Note, a letter with a sign as the middle of
// that third (A− 17, A° 50, A+ 83). "B100" is refused, for it may be B00, B10 or C00. Groups by age: A 9–30 months,
// B 30–42, C 42–72, D 72–96, E over 96 (Iowa State University).
func ParseMaturity(text string) (reading MaturityReading, ok bool) {
	text = strings.TrimSpace(text)
	if number, err := decimal.NewFromString(plainText(text)); err == nil {
		whole := number.IntPart()
		if whole < 100 || whole > 599 {
			return MaturityReading{Note: "a maturity written as a number runs from 100 (A00) to 599 (E99)"}, false
		}
		return MaturityReading{Value: maturityValue(whole)}, true
	}
	body, sign := cutSign(text)
	letters, rest := splitLetters(plainText(body))
	match := maturityWords.FindStringSubmatch(letters + rest)
	if match == nil || rest != "" && sign != noThird {
		return MaturityReading{Note: "a maturity is a letter A to E with a place of 00 to 99"}, false
	}
	group := int64(match[1][0]-'a'+1) * 100
	if match[2] == "" {
		value := maturityValue(group + sign.middle())
		return MaturityReading{value, fmt.Sprintf("%s read as %s", text, value.Text)}, true
	}
	place, err := strconv.ParseInt(match[2], 10, 64)
	if err != nil || len(match[2]) != 2 {
		return MaturityReading{Note: "the place within a maturity group has two digits, 00 to 99"}, false
	}
	return MaturityReading{Value: maturityValue(group + place)}, true
}

func maturityValue(score int64) measure.Value {
	number := decimal.NewFromInt(score)
	return measure.Value{Number: number, Text: FormatMaturity(number)}
}

// FormatMaturity writes a maturity of 100 to 599 as a letter and place, "A60"; any other number as it stands.
func FormatMaturity(score decimal.Decimal) string {
	whole := score.IntPart()
	if whole < 100 || whole > 599 {
		return score.String()
	}
	return fmt.Sprintf("%c%02d", rune('A'+whole/100-1), whole%100)
}
