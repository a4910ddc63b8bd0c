package rules

import (
	"strings"
	"testing"
	"unicode"

	"pgregory.net/rapid"
)

// The standard library's words are the measure.
func TestFoldHeading(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringOfN(rapid.SampledFrom([]rune("aBé7 .-(%İ\u00a0\ufffd")), 0, 9, -1).Draw(t, "text")
		words := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
		if got, want := foldHeading(text), strings.Join(words, " "); got != want {
			t.Fatalf("%q: %q, want %q", text, got, want)
		}
	})
}
