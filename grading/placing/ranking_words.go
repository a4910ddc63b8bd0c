package placing

import (
	"strings"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"
)

// why says in a sentence what decided a carcass's place against the next one.
func (r *Ranker) why(carcass *Entrant, blocks []block, at int) string {
	here := blocks[at]
	if here.overruled != "" {
		return "placed " + phrase.Ordinal(here.place) + " by the judge: " + here.overruled
	}
	var parts []string
	if len(here.carcasses) > 1 {
		parts = append(parts, r.levelWith(carcass, here))
	}
	switch {
	case at+1 < len(blocks):
		parts = append(parts, r.against(here, blocks[at+1]))
	case len(blocks) == 1 && len(here.carcasses) == 1:
		parts = append(parts, "the only carcass placed")
	case carcass.fails.After():
		parts = append(parts, "outside the limits: "+strings.Join(carcass.fails.of(rules.FailAfter).words(), "; "))
	case len(here.carcasses) == 1:
		parts = append(parts, "last of those placed")
	}
	return strings.Join(parts, "; ")
}

// levelWith says with whom a carcass shares its place.
func (r *Ranker) levelWith(carcass *Entrant, here block) string {
	var others []string
	for _, other := range here.carcasses {
		if other != carcass {
			others = append(others, other.Called())
		}
	}
	text := "level on every key with " + phrase.JoinAnd(others)
	switch {
	case here.byJudge:
		return text + ": the judge left them level"
	case r.Ranking.Ties == rules.TiesJudge:
		return text + ": the judge decides"
	default:
		return text + ": shared place"
	}
}

// against says what put one block above the next.
func (r *Ranker) against(upper, lower block) string {
	a, b := upper.carcasses[0], lower.carcasses[0]
	if lower.overruled != "" {
		return "ahead of " + b.Called() + ", which the judge placed " + phrase.Ordinal(lower.place)
	}
	if !a.fails.After() && b.fails.After() {
		return "meets the limits; the next does not: " + strings.Join(b.fails.of(rules.FailAfter).words(), "; ")
	}
	at := r.decider(upper, lower)
	if at < 0 {
		return "level on every key with " + b.Called() + "; the judge put it ahead"
	}
	return r.Over(a.Graded, b.Graded, at) + r.BothAt(a.Graded, at)
}

// Over puts the figures of the key that decided beside each other: "yield grade 2.4 over 2.7".
func (r *Ranker) Over(a, b *grading.Graded, at int) string {
	key := r.Ranking.Keys[at]
	first, second := r.sayBoth(a, b, key)
	text := first + " over " + second
	if grading.DefinitionOf(key.Measure).Kind != measure.KindGrade {
		text = grading.KeyWords(key) + " " + text
	}
	switch key.Prefer {
	case rules.PassAtMost:
		text += " (at most " + grading.SayNumber(key.Measure, key.Bound.Decimal) + " goes first)"
	case rules.PassAtLeast:
		text += " (at least " + grading.SayNumber(key.Measure, key.Bound.Decimal) + " goes first)"
	}
	return text
}

// BothAt says on what the two were level before the key at the index decided: ", both Low Choice".
func (r *Ranker) BothAt(carcass *grading.Graded, at int) string {
	for before := at - 1; before >= 0; before-- {
		key := r.Ranking.Keys[before]
		if key.Prefer != rules.Highest && key.Prefer != rules.Lowest {
			continue
		}
		words, _ := r.sayKey(carcass, carcass, key)
		if grading.DefinitionOf(key.Measure).Kind != measure.KindGrade {
			words = grading.KeyWords(key) + " " + words
		}
		return ", both " + words
	}
	return ""
}

// sayKey gives two carcasses' figures of a key as they are compared, in words that differ where the figures do.
func (r *Ranker) sayKey(a, b *grading.Graded, key rules.Key) (first, second string) {
	valueA, _ := grading.FigureFor(a, key.Measure, r.Book)
	valueB, _ := grading.FigureFor(b, key.Measure, r.Book)
	if grading.DefinitionOf(key.Measure).Kind != measure.KindNumber {
		return valueA.Text, valueB.Text
	}
	if key.Decimals.Valid {
		places := int32(key.Decimals.Decimal.IntPart())
		return grading.WithUnit(key.Measure, grading.Fixed(key.Measure, comparedFigure(valueA.Number, key), places)),
			grading.WithUnit(key.Measure, grading.Fixed(key.Measure, comparedFigure(valueB.Number, key), places))
	}
	return grading.SayApart(key.Measure, valueA.Number, valueB.Number)
}

// sayBoth is sayKey for figures that stand side by side, so that the unit need be said only once.
func (r *Ranker) sayBoth(a, b *grading.Graded, key rules.Key) (first, second string) {
	first, second = r.sayKey(a, b, key)
	unit := strings.TrimPrefix(grading.WithUnit(key.Measure, ""), "$")
	return strings.TrimSuffix(first, unit), second
}
