package intake

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// TestEnglishWords holds the words of plain texts beside what the pattern of a heading's words finds in them.
func TestEnglishWords(t *testing.T) {
	byPattern := func(text string) []string {
		return headingWords.FindAllString(strings.ToLower(brackets.Replace(text)), -1)
	}
	check := func(text string) string {
		if plainEnglish(text) && !slices.Equal(englishWords(strings.ToLower(text)), byPattern(text)) {
			return strings.Join(englishWords(strings.ToLower(text)), "|") + ", want " + strings.Join(byPattern(text), "|")
		}
		return ""
	}
	for _, text := range []string{"", "HCW (lb)", "REA sq. in.", "REA in^2", "12/13th rib", "12/13ths", "1/2", "1 / 2", "1.5x", "x1.5", "3.", "3/", "3/x", "10th", "a^2^2", "12^2", "<30>", `6" x 4`, "#", "YG#2", "[a]{b}"} {
		if wrong := check(text); wrong != "" {
			t.Errorf("%q: %s", text, wrong)
		}
	}
	if !plainEnglish("REA sq") || plainEnglish("S.D.") || plainEnglish("hotWeight") || plainEnglish("plant's") || plainEnglish("µm") {
		t.Error("what is plain is not told from what is not")
	}
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringOfN(rapid.SampledFrom([]rune(`aBths 0129/.^2%#"<>+-()[],;`)), 0, 12, -1).Draw(t, "text")
		if wrong := check(text); wrong != "" {
			t.Fatalf("%q: %s", text, wrong)
		}
	})
}
