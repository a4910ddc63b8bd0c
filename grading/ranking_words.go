package grading

import (
	"strings"

	"github.com/shopspring/decimal"

	"railbook/rules"
	"railbook/rules/measure"
)

// why says in a sentence what decided a carcass's place against the next one.
func (r *ranker) why(carcass *Graded, blocks []block, at int, fails map[*Graded]failures) string {
	here := blocks[at]
	if here.overruled != "" {
		return "placed " + ordinal(here.place) + " by the judge: " + here.overruled
	}
	var parts []string
	if len(here.carcasses) > 1 {
		parts = append(parts, r.levelWith(carcass, here))
	}
	switch {
	case at+1 < len(blocks):
		parts = append(parts, r.against(here, blocks[at+1], fails))
	case len(blocks) == 1 && len(here.carcasses) == 1:
		parts = append(parts, "the only carcass placed")
	case fails[carcass].after():
		parts = append(parts, "outside the limits: "+strings.Join(fails[carcass].of(rules.FailAfter).words(), "; "))
	case len(here.carcasses) == 1:
		parts = append(parts, "last of those placed")
	}
	return strings.Join(parts, "; ")
}

// levelWith says with whom a carcass shares its place.
func (r *ranker) levelWith(carcass *Graded, here block) string {
	var others []string
	for _, other := range here.carcasses {
		if other != carcass {
			others = append(others, other.called())
		}
	}
	text := "level on every key with " + joinAnd(others)
	switch {
	case here.byJudge:
		return text + ": the judge left them level"
	case r.ranking.Ties == rules.TiesJudge:
		return text + ": the judge decides"
	default:
		return text + ": shared place"
	}
}

// against says what put one block above the next.
func (r *ranker) against(upper, lower block, fails map[*Graded]failures) string {
	a, b := upper.carcasses[0], lower.carcasses[0]
	if lower.overruled != "" {
		return "ahead of " + b.called() + ", which the judge placed " + ordinal(lower.place)
	}
	if !fails[a].after() && fails[b].after() {
		return "meets the limits; the next does not: " + strings.Join(fails[b].of(rules.FailAfter).words(), "; ")
	}
	at := r.decider(upper, lower, fails)
	if at < 0 {
		return "level on every key with " + b.called() + "; the judge put it ahead"
	}
	return r.over(a, b, at) + r.bothAt(a, at)
}

// over puts the figures of the key that decided beside each other: "yield grade 2.4 over 2.7".
func (r *ranker) over(a, b *Graded, at int) string {
	key := r.ranking.Keys[at]
	first, second := r.sayBoth(a, b, key)
	text := first + " over " + second
	if definitionOf(key.Measure).Kind != measure.KindGrade {
		text = keyWords(key) + " " + text
	}
	switch key.Prefer {
	case rules.PassAtMost:
		text += " (at most " + sayNumber(key.Measure, key.Bound.Decimal) + " goes first)"
	case rules.PassAtLeast:
		text += " (at least " + sayNumber(key.Measure, key.Bound.Decimal) + " goes first)"
	}
	return text
}

// bothAt says on what the two were level before the key at the index decided: ", both Low Choice".
func (r *ranker) bothAt(carcass *Graded, at int) string {
	for before := at - 1; before >= 0; before-- {
		key := r.ranking.Keys[before]
		if key.Prefer != rules.Highest && key.Prefer != rules.Lowest {
			continue
		}
		words, _ := r.sayKey(carcass, carcass, key)
		if definitionOf(key.Measure).Kind != measure.KindGrade {
			words = keyWords(key) + " " + words
		}
		return ", both " + words
	}
	return ""
}

// sayKey gives two carcasses' figures of a key as they are compared, in words that differ where the figures do.
func (r *ranker) sayKey(a, b *Graded, key rules.Key) (first, second string) {
	valueA, _ := figureFor(a, key.Measure, r.book)
	valueB, _ := figureFor(b, key.Measure, r.book)
	if definitionOf(key.Measure).Kind != measure.KindNumber {
		return valueA.Text, valueB.Text
	}
	if key.Decimals.Valid {
		places := int32(key.Decimals.Decimal.IntPart())
		return withUnit(key.Measure, fixed(key.Measure, comparedFigure(valueA.Number, key), places)),
			withUnit(key.Measure, fixed(key.Measure, comparedFigure(valueB.Number, key), places))
	}
	return sayApart(key.Measure, valueA.Number, valueB.Number)
}

// sayBoth is sayKey for figures that stand side by side, so that the unit need be said only once.
func (r *ranker) sayBoth(a, b *Graded, key rules.Key) (first, second string) {
	first, second = r.sayKey(a, b, key)
	unit := strings.TrimPrefix(withUnit(key.Measure, ""), "$")
	return strings.TrimSuffix(first, unit), second
}

// sayApart gives two numbers of a measure with as many decimals as it takes to tell them apart.
func sayApart(id measure.ID, a, b decimal.Decimal) (first, second string) {
	for places := int32(definitionOf(id).Decimals); ; places++ {
		first, second = shown(id, a, places), shown(id, b, places)
		if places >= comparedDecimals || a.Equal(b) || first != second && a.Cmp(b) == a.Round(places).Cmp(b.Round(places)) {
			return withUnit(id, first), withUnit(id, second)
		}
	}
}
