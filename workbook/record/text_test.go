package record

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// A text that is taken to stay as it is does: the replacer, which knows every letter, agrees.
func TestAPlainTextStaysAsItIs(t *testing.T) {
	letters := rapid.RuneFrom([]rune("aZx0 _.\\|~@\n\t\x1b\x7fé\u00a0\ufffe"))
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringOfN(letters, 0, 8, -1).Draw(t, "text")
		if !isPlain(text) {
			return
		}
		if strings.HasPrefix(text, " ") || strings.HasSuffix(text, " ") || escape.Replace(text) != text {
			t.Fatalf("%q is not plain", text)
		}
	})
}
