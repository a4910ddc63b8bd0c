package record

import (
	"crypto/sha256"
	"encoding/hex"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// The seal, which is taken without all texts in one, is the digest of all of them in the order of their bytes: of what is written
// for sha256sum (FIPS 180-4).
func TestSealIsTheDigestOfTheSortedTexts(t *testing.T) {
	word := rapid.StringMatching("[\x01\x08 \t\nABé\u2028]{0,3}")
	few := rapid.SampledFrom([]string{"A", " A", "B"})
	rapid.Check(t, func(t *rapid.T) {
		lines := rapid.SliceOf(rapid.Custom(func(t *rapid.T) SealedLine {
			return SealedLine{Kind: few.Draw(t, "kind"), Class: rapid.OneOf(few, word).Draw(t, "class"), Tag: few.Draw(t, "tag"), Item: word.Draw(t, "item"), Value: strings.Repeat(word.Draw(t, "value"), rapid.SampledFrom([]int{1, 1, 1, 9000}).Draw(t, "times"))}
		})).Draw(t, "lines")
		digest := sha256.Sum256([]byte(SealText(lines)))
		if seal := Seal(lines); seal != hex.EncodeToString(digest[:]) {
			t.Errorf("the seal is %s, and the digest of the texts %x", seal, digest)
		}
		for _, line := range lines {
			var fields []string
			for _, field := range []string{line.Kind, line.Class, line.Tag, line.Item, line.Value} {
				fields = append(fields, strings.Join(strings.Fields(field), " "))
			}
			if want := strings.Join(fields, "\t") + "\n"; line.Canonical() != want {
				t.Errorf("%q is written %q, and not %q", line, line.Canonical(), want)
			}
		}
		var texts strings.Builder
		for _, line := range InOrder(lines) {
			texts.WriteString(line.Canonical())
		}
		if texts.String() != SealText(lines) {
			t.Errorf("in order the lines are %q", texts.String())
		}
	})
}
