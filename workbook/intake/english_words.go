package intake

import (
	"strings"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
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
