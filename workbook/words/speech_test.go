package words

import (
	"strings"
	"testing"

	"railbook/rules/measure"
)

func TestReasonsBlameNobody(t *testing.T) {
	for _, spoken := range []map[measure.ID]speech{spokenHighest, spokenLowest} {
		for id, words := range spoken {
			for _, text := range []string{words.ahead, words.behind} {
				for _, word := range []string{"bad", "failure", "fault", "he ", "she ", "his ", "her ", "you", "your", "pig", "cow"} {
					if strings.Contains(" "+text+" ", " "+word) {
						t.Errorf("%s: %q says %q", id, text, word)
					}
				}
			}
		}
	}
}
