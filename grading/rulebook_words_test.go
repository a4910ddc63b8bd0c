package grading

import (
	"slices"
	"testing"

	"railbook/rules"
)

// The grades a board may write in its rulebook are those the grading knows, in the same order.
func TestRulebookAndGradingOrderGradesAlike(t *testing.T) {
	for _, species := range []rules.Species{rules.Beef, rules.Lamb} {
		words := rules.GradeWords(species)
		for number, word := range words {
			value, _, ok := ParseQualityGrade(word)
			if !ok || value.Text != word {
				t.Errorf("%s of %s is read as %q, %v", word, species, value.Text, ok)
				continue
			}
			if number == 0 {
				continue
			}
			if above, _, _ := ParseQualityGrade(words[number-1]); !value.Number.LessThan(above.Number) {
				t.Errorf("%s of %s ranks no lower than %s", word, species, words[number-1])
			}
		}
	}
	if words := rules.GradeWords(rules.Swine); !slices.Equal(words, porkGrades()) {
		t.Errorf("the rulebook names the pork carcass grades %q, the grading %q", words, porkGrades())
	}
}
