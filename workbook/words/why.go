package words

import (
	"strings"

	"railbook/grading"
	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"
)

// Why says in a sentence what decided the place of the carcass at the index of those placed, against the next one.
func Why(class *placing.ClassPlacing, at int) string {
	placed := class.Placed[at]
	if placed.Overruled != "" {
		return "placed " + phrase.Ordinal(placed.Place) + " by the judge: " + placed.Overruled
	}
	var parts []string
	if placed.Shared {
		parts = append(parts, levelWith(class, at))
	}
	switch next, follows := class.NextPlace(at); {
	case follows:
		parts = append(parts, against(class, class.SharePlace(at)[0], next))
	case len(class.Placed) == 1:
		parts = append(parts, "the only carcass placed")
	case placed.After():
		parts = append(parts, "outside the limits: "+strings.Join(placed.AfterWords(), "; "))
	case !placed.Shared:
		parts = append(parts, "last of those placed")
	}
	return strings.Join(parts, "; ")
}

// levelWith says with whom a carcass shares its place.
func levelWith(class *placing.ClassPlacing, at int) string {
	placed := class.Placed[at]
	var others []string
	for _, other := range class.SharePlace(at) {
		if other.Entrant != placed.Entrant {
			others = append(others, other.Called())
		}
	}
	text := "level on every key with " + phrase.JoinAnd(others)
	switch {
	case placed.LeftLevel:
		return text + ": the judge left them level"
	case placed.JudgeTie:
		return text + ": the judge decides"
	default:
		return text + ": shared place"
	}
}

// against says what put one carcass above the first of the next place.
func against(class *placing.ClassPlacing, upper, lower placing.Placed) string {
	if lower.Overruled != "" {
		return "ahead of " + lower.Called() + ", which the judge placed " + phrase.Ordinal(lower.Place)
	}
	if !upper.After() && lower.After() {
		return "meets the limits; the next does not: " + strings.Join(lower.AfterWords(), "; ")
	}
	ranker := class.Ranker(upper.Book)
	at := -1
	if upper.After() == lower.After() {
		at = ranker.DecidedBy(upper, lower)
	}
	if at < 0 {
		return "level on every key with " + lower.Called() + "; the judge put it ahead"
	}
	return overWith(ranker, upper.Graded, lower.Graded, at)
}

// overWith puts the figures of the key that decided beside each other, and says on what the two were level before it: "yield
// grade 2.4 over 2.7, both Low Choice".
func overWith(ranker *placing.Ranker, upper, lower *grading.Graded, at int) string {
	difference := ranker.Difference(upper, lower, at)
	key := difference.Key
	text := withoutUnit(difference.Upper, key.Measure) + " over " + difference.Lower
	if grading.DefinitionOf(key.Measure).Kind != measure.KindGrade {
		text = grading.KeyWords(key) + " " + text
	}
	switch key.Prefer {
	case rules.PassAtMost:
		text += " (at most " + grading.SayNumber(key.Measure, key.Bound.Decimal) + " goes first)"
	case rules.PassAtLeast:
		text += " (at least " + grading.SayNumber(key.Measure, key.Bound.Decimal) + " goes first)"
	case rules.Highest, rules.Lowest:
	}
	if both, level := ranker.BothAt(upper, at); level {
		text += ", both " + saidWords(both)
	}
	return text
}
