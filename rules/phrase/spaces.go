package phrase

import (
	"strings"
	"unicode/utf8"
)

// SingleSpaced is a text with one space between its words and none around them, whatever space stands there.
func SingleSpaced(text string) string {
	previous := byte(' ')
	for i := range len(text) {
		letter := text[i]
		if letter >= utf8.RuneSelf || letter < ' ' || letter == ' ' && previous == ' ' {
			return strings.Join(strings.Fields(text), " ")
		}
		previous = letter
	}
	return strings.TrimSuffix(text, " ") // most texts are so already
}
