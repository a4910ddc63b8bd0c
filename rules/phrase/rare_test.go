package phrase

import (
	"regexp"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// rareExpressions have what a match needs in each way in which an expression can say it, and some say nothing sure.
var rareExpressions = []string{
	`(?i)\b(?:not|no|never)\b[^.;]{0,5}\b(?:photo\w*|pics?|names?)\b|\bopt(?:ed)?[ -]?out\b|\banonym\w*`,
	`(?i)s?k(?:is|ask)+`, `Ab(c|d)x{2,3}`, `(?i)a*b?`, `(?i)(?:ab|)c`, `^[ab]c$`, `(?i)don['’]?t|é`, `x{0,2}y`,
}

// A pattern that looks first for what a match needs finds what the standard library's expression finds, whatever the case of the
// letters, and with those beyond ASCII that count as one of it (Unicode, simple case folding: the long s, the sign of kelvin).
func TestRarePatternIsItsExpression(t *testing.T) {
	words := []string{"no", "not", "Photo", "pic", "name", "opt", "out", "Anonymous", "s", "K", "\u017f", "\u212a", "is", "ask", "Ab", "ab", "c", "d", "x", "b", "don", "'", "’", "t", "é", "É", "y", "-", " ", ".", strings.Repeat("z", shortText)}
	for _, expression := range rareExpressions {
		pattern, want := NewRarePattern(expression), regexp.MustCompile(expression)
		rapid.Check(t, func(t *rapid.T) {
			text := strings.Join(rapid.SliceOfN(rapid.SampledFrom(words), 0, 7).Draw(t, "words"), "")
			if got := pattern.MatchString(text); got != want.MatchString(text) {
				t.Fatalf("%s in %q: %v", expression, text, got)
			}
		})
	}
}

// What is passed over is what holds nothing that a match needs: without that the expression would be asked each time.
func TestRarePatternPassesOver(t *testing.T) {
	for _, row := range []struct {
		expression, text string
		may              bool
	}{
		{rareExpressions[0], "Youth 1050", false},
		{rareExpressions[0], "OPT OUT", true},
		{rareExpressions[0], "Arno Youth", false},
		{rareExpressions[0], "Arno Photos", true},
		{`(?i)a*b?`, "zzz", true},
		{`(?i)(?:ab|)c`, "ab", false},
		{`Ab(c|d)x{2,3}`, "cd", false},
		{`x{0,2}y`, "xx", false},
		{rareExpressions[0], strings.Repeat("z", shortText), false},
		{rareExpressions[0], strings.Repeat("z", shortText+1), true},
		{rareExpressions[0], "é", true},
	} {
		if got := NewRarePattern(row.expression).mayMatch(row.text); got != row.may {
			t.Errorf("%s in %q: %v", row.expression, row.text, got)
		}
	}
}
