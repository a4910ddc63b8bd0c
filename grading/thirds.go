package grading

import (
	"strings"
	"unicode"
)

// third is the part of a degree or grade that a sign or a word names.
type third int

const (
	noThird third = iota
	LowThird
	middleThird
	highThird
)

// middle is where a sign is taken to stand within a degree of 00 to 99: the middle of its third
// (00–33, 34–66, 67–99). Without a sign it is the middle of the degree.
func (t third) middle() int64 {
	switch t {
	case LowThird:
		return 17
	case highThird:
		return 83
	default:
		return 50
	}
}

// signs are the ways in which people write a third after a code. A hyphen counts only at the very end: "Sm-40" is
// Small 40.
var signs = []struct {
	written string
	third   third
}{
	{"-", LowThird},
	{"−", LowThird},
	{"–", LowThird},
	{"—", LowThird},
	{"⁻", LowThird},
	{"+", highThird},
	{"⁺", highThird},
	{"＋", highThird},
	{"°", middleThird},
	{"º", middleThird},
	{"˚", middleThird},
	{"⁰", middleThird},
}

// cutSign takes a sign off the end of a text.
func cutSign(text string) (rest string, sign third) {
	for _, sign := range signs {
		if rest, found := strings.CutSuffix(text, sign.written); found && (sign.written != "⁰" || !strings.ContainsFunc(rest, unicode.IsNumber)) {
			return strings.TrimSpace(rest), sign.third
		}
	}
	return text, noThird
}

var raised = strings.NewReplacer("⁰", "0", "¹", "1", "²", "2", "³", "3", "⁴", "4", "⁵", "5", "⁶", "6", "⁷", "7", "⁸", "8",
	"⁹", "9", "\u00a0", " ", "\u202f", " ", "\u2009", " ")

// plainText lowers the case, brings raised digits down to the line, and trims.
func plainText(text string) string {
	return strings.ToLower(strings.TrimSpace(raised.Replace(text)))
}

// splitLetters splits "small 40" or "sm-40" into its letters, without what joins them, and what follows them.
func splitLetters(text string) (letters, rest string) {
	end := strings.IndexFunc(text, func(r rune) bool { return r >= '0' && r <= '9' })
	if end < 0 {
		end = len(text)
	}
	letters = strings.Map(func(r rune) rune {
		if strings.ContainsRune(" .-–−—_/", r) {
			return -1
		}
		return r
	}, text[:end])
	return letters, text[end:]
}
