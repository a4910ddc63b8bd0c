package phrase

import (
	"strings"

	"github.com/xrash/smetrics"
)

// Nearest gives the word that was most likely meant by a text: the one with the fewest letters to change, and at most half
// of the text's letters. It is empty where no word is that near.
func Nearest(text string, words []string) string {
	best, least := "", len(text)/2+1
	for _, word := range words {
		if distance := smetrics.WagnerFischer(strings.ToLower(text), strings.ToLower(word), 1, 1, 1); distance < least {
			best, least = word, distance
		}
	}
	return best
}
