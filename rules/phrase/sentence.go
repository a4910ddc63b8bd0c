package phrase

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// joinAnd joins words as a sentence does: "a, b and c".
func JoinAnd(list []string) string {
	if len(list) < 2 {
		return strings.Join(list, "")
	}
	return strings.Join(list[:len(list)-1], ", ") + " and " + list[len(list)-1]
}

// Few shortens a long list: its first three, and how many more there are.
func Few(list []string) []string {
	const named = 3
	if len(list) <= named+1 {
		return list
	}
	return append(slices.Clone(list[:named]), fmt.Sprintf("%d more", len(list)-named))
}

// SentenceStart makes the first letter a capital.
func SentenceStart(text string) string {
	if text == "" {
		return text
	}
	first, size := utf8.DecodeRuneInString(text)
	return string(unicode.ToUpper(first)) + text[size:]
}

func Quote(text string) string { return fmt.Sprintf("%q", text) }

// Ordinal writes a place: 1st, 2nd, 3rd, 4th, 11th.
func Ordinal(place int) string {
	switch {
	case place%100 >= 11 && place%100 <= 13:
		return strconv.Itoa(place) + "th"
	case place%10 == 1:
		return strconv.Itoa(place) + "st"
	case place%10 == 2:
		return strconv.Itoa(place) + "nd"
	case place%10 == 3:
		return strconv.Itoa(place) + "rd"
	default:
		return strconv.Itoa(place) + "th"
	}
}

// thousands puts commas into the whole part of a number.
func Thousands(number string) string {
	sign := ""
	if rest, negative := strings.CutPrefix(number, "-"); negative {
		sign, number = "-", rest
	}
	whole, fraction, _ := strings.Cut(number, ".")
	for at := len(whole) - 3; at > 0; at -= 3 {
		whole = whole[:at] + "," + whole[at:]
	}
	if fraction != "" {
		whole += "." + fraction
	}
	return sign + whole
}

// dollars puts the dollar sign between a minus and the number.
func Dollars(number string) string {
	if rest, negative := strings.CutPrefix(number, "-"); negative {
		return "-$" + rest
	}
	return "$" + number
}

// JoinOr joins words as a choice does: "a, b or c".
func JoinOr(list []string) string {
	if len(list) < 2 {
		return strings.Join(list, "")
	}
	return strings.Join(list[:len(list)-1], ", ") + " or " + list[len(list)-1]
}
