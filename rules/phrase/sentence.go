package phrase

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// JoinAnd joins words as a sentence does: "a, b and c".
func JoinAnd(list []string) string { return joined(list, " and ") }

// JoinOr joins words as a choice does: "a, b or c".
func JoinOr(list []string) string { return joined(list, " or ") }

func joined(list []string, last string) string {
	if len(list) < 2 {
		return strings.Join(list, "")
	}
	return strings.Join(list[:len(list)-1], ", ") + last + list[len(list)-1]
}

// Few shortens a long list: its first four, and how many more there are.
func Few(list []string) []string {
	const named = 4
	if len(list) <= named {
		return list
	}
	return append(slices.Clone(list[:named]), fmt.Sprintf("%d more", len(list)-named))
}

// Examples shortens a list that stands in brackets: the first of it, and an ellipsis where there are more.
func Examples(list []string, most int) []string {
	if len(list) <= most {
		return list
	}
	return append(slices.Clone(list[:most]), "…")
}

// Sentence begins a text with a capital letter and ends it with a full stop.
func Sentence(text string) string {
	text = Capital(text)
	if text == "" || strings.HasSuffix(text, ".") || strings.HasSuffix(text, "?") {
		return text
	}
	return text + "."
}

// Capital makes the first letter a capital.
func Capital(text string) string { return withFirst(text, unicode.ToUpper) }

// Uncapital makes the first letter a small one, for a sentence that goes on behind a colon.
func Uncapital(text string) string { return withFirst(text, unicode.ToLower) }

func withFirst(text string, letter func(rune) rune) string {
	if text == "" {
		return ""
	}
	first, size := utf8.DecodeRuneInString(text)
	return string(letter(first)) + text[size:]
}

// Quote puts what is written somewhere into quotation marks that it does not have itself.
func Quote(text string) string {
	if strings.Contains(text, `"`) {
		return "'" + text + "'"
	}
	return `"` + text + `"`
}

// Plural counts things: "1 carcass", "41 carcasses".
func Plural(count int, singular, many string) string {
	return strconv.Itoa(count) + " " + Agreeing(count, singular, many)
}

// Agreeing chooses the word that agrees with a count: "was" with 1, "were" with any other.
func Agreeing(count int, singular, many string) string {
	if count == 1 {
		return singular
	}
	return many
}

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

// Thousands puts commas into the whole part of a number.
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

// Dollars puts the dollar sign between a minus and the number.
func Dollars(number string) string {
	if rest, negative := strings.CutPrefix(number, "-"); negative {
		return "-$" + rest
	}
	return "$" + number
}
