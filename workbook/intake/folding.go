package intake

import (
	"strings"
	"unicode/utf8"

	"railbook/rules/phrase"

	"golang.org/x/text/unicode/norm"
)

// fold takes a heading's words apart in the one form in which headings are compared: letter case, punctuation, accents
// of width, small words and the usual short forms do not count.
func fold(text string) []string {
	var words []string
	for _, word := range wordsIn(text) {
		if short, known := shortForms[word]; known {
			word = short
		}
		if word == "" {
			continue
		}
		if last := len(words) - 1; last >= 0 {
			if joined, known := joinedWords[words[last]+" "+word]; known {
				words[last] = joined
				continue
			}
		}
		words = append(words, word)
	}
	return words
}

// shortForms are words that are compared as others; small words fall away.
var shortForms = map[string]string{
	"wt": "weight", "wts": "weight", "wgt": "weight", "wght": "weight", "weights": "weight",
	"carc": "carcass", "carcase": "carcass", "carcas": "carcass",
	"pct": "%", "percent": "%", "percentage": "%",
	"no": "#", "num": "#", "number": "#", "nbr": "#", "nr": "#", "nos": "#",
	"yld": "yield", "colour": "color", "tenth": "10th", "twelfth": "12th", "exhib": "exhibitor",
	"over": ">", "under": "<",
	"the": "", "of": "", "at": "", "and": "", "or": "", "a": "", "an": "",
}

// joinedWords are pairs written as one word as often as two.
var joinedWords = map[string]string{
	"rib eye": "ribeye", "back fat": "backfat", "ear tag": "eartag", "loin eye": "loineye", "body wall": "bodywall",
	"birth date": "birthdate", "in 2": "in2", "cm 2": "cm2",
}

var (
	quoteForms   = strings.NewReplacer("”", `"`, "″", `"`, "“", `"`, "''", `"`, "’", "", "'", "", "№", "#", "⁄", "/", "≥", ">", "≤", "<")
	brackets     = strings.NewReplacer("(", " ", ")", " ", "[", " ", "]", " ", "{", " ", "}", " ")
	initials     = phrase.NewPattern(`\b(?:\pL\.){2,}`)
	camelCase    = phrase.NewPattern(`(\p{Ll})(\p{Lu})`)
	headingWords = phrase.NewPattern(`\d+/\d+(?:th|ths)?|\d+\.\d+|[\pL\d]+(?:\^2)?|[%#"<>+]`)
)

// wordsIn takes a text apart into words, numbers and the signs that count in a heading, in small letters.
func wordsIn(text string) []string {
	if plainEnglish(text) {
		return englishWords(strings.ToLower(text))
	}
	text = norm.NFKC.String(withoutFootnotes(text))
	text = quoteForms.Replace(text)
	text = camelCase.ReplaceAllString(text, "$1 $2")
	text = initials.ReplaceAllStringFunc(text, func(letters string) string { return strings.ReplaceAll(letters, ".", "") })
	return headingWords.FindAllString(strings.ToLower(brackets.Replace(text)), -1)
}

// footnoteMark is a word with the mark of a footnote behind it: "HCW¹", "REA²", "KPH†".
var footnoteMark = phrase.NewPattern(`[\pL%#]+[⁰¹²³⁴-⁹†‡§ᵃᵇᶜᵈ]+`)

// withoutFootnotes takes the marks of footnotes off the words of a heading. A unit's own mark ("cm²") is none.
func withoutFootnotes(text string) string {
	return footnoteMark.ReplaceAllStringFunc(text, func(marked string) string {
		word := strings.TrimRight(marked, "⁰¹²³⁴⁵⁶⁷⁸⁹†‡§ᵃᵇᶜᵈ")
		if _, isUnit := readUnit(word); isUnit && hasLetter(word) {
			return marked
		}
		return word
	})
}

// plainEnglish reports whether a text, like nearly all that is folded, is of English letters in which nothing has to be
// replaced first, so that no pattern need be matched.
func plainEnglish(text string) bool {
	for i := range len(text) {
		switch letter := text[i]; {
		case letter >= utf8.RuneSelf, letter == '\'', letter == '.' && i > 0 && isLetter(text[i-1]):
			return false
		case letter >= 'A' && letter <= 'Z' && i > 0 && text[i-1] >= 'a' && text[i-1] <= 'z':
			return false
		}
	}
	return true
}

// englishWords gives of such a text, in small letters, what headingWords finds in it.
func englishWords(text string) (words []string) {
	digits := func(at int) int {
		for at < len(text) && isDigit(text[at]) {
			at++
		}
		return at
	}
	for at := 0; at < len(text); {
		end := at
		switch letter := text[at]; {
		case isDigit(letter):
			end = digits(at)
			if next := end + 1; next < len(text) && isDigit(text[next]) && (text[end] == '/' || text[end] == '.') {
				fraction := text[end] == '/'
				if end = digits(next); fraction && strings.HasPrefix(text[end:], "th") {
					end += len("th")
				}
				break
			}
			end = endOfWord(text, end)
		case isLetter(letter):
			end = endOfWord(text, at)
		case strings.IndexByte(`%#"<>+`, letter) >= 0:
			end = at + 1
		default:
			at++
			continue
		}
		words = append(words, text[at:end])
		at = end
	}
	return words
}

// endOfWord gives where a word of letters and digits ends, with the square of a unit.
func endOfWord(text string, at int) int {
	for at < len(text) && (isLetter(text[at]) || isDigit(text[at])) {
		at++
	}
	if strings.HasPrefix(text[at:], "^2") {
		at += len("^2")
	}
	return at
}

func isDigit(letter byte) bool { return letter >= '0' && letter <= '9' }

func isLetter(letter byte) bool { return letter|0x20 >= 'a' && letter|0x20 <= 'z' }
