package phrase

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// The standard library's Fields is the measure.
func TestSingleSpaced(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringOfN(rapid.SampledFrom([]rune{'a', '7', ' ', ' ', '\t', '\n', '\u00a0', 'é', '\u2003', 0x7f}), 0, 8, -1).Draw(t, "text")
		if got, want := SingleSpaced(text), strings.Join(strings.Fields(text), " "); got != want {
			t.Fatalf("%q: %q, want %q", text, got, want)
		}
	})
}
