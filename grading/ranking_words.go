package grading

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"railbook/rules"
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
	if definitionOf(key.Measure).Kind != rules.KindGrade {
		text = measureWords(key.Measure) + " " + text
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
		if definitionOf(key.Measure).Kind != rules.KindGrade {
			words = measureWords(key.Measure) + " " + words
		}
		return ", both " + words
	}
	return ""
}

// sayKey gives two carcasses' figures of a key as they are compared, in words that differ where the figures do.
func (r *ranker) sayKey(a, b *Graded, key rules.Key) (first, second string) {
	valueA, _ := figureFor(a, key.Measure, r.book)
	valueB, _ := figureFor(b, key.Measure, r.book)
	if definitionOf(key.Measure).Kind != rules.KindNumber {
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

// say gives a value of a measure with its unit: "812 lb", "Low Choice".
func say(measure rules.Measure, value rules.Value) string {
	if definitionOf(measure).Kind != rules.KindNumber {
		return value.Text
	}
	return sayNumber(measure, value.Number)
}

// sayNumber gives a number of a measure with its unit at the measure's own decimals.
func sayNumber(measure rules.Measure, number decimal.Decimal) string {
	return withUnit(measure, shown(measure, number, int32(definitionOf(measure).Decimals)))
}

// sayApart gives two numbers of a measure with as many decimals as it takes to tell them apart.
func sayApart(measure rules.Measure, a, b decimal.Decimal) (first, second string) {
	for places := int32(definitionOf(measure).Decimals); ; places++ {
		first, second = shown(measure, a, places), shown(measure, b, places)
		if places >= comparedDecimals || a.Equal(b) || first != second && a.Cmp(b) == a.Round(places).Cmp(b.Round(places)) {
			return withUnit(measure, first), withUnit(measure, second)
		}
	}
}

// shown gives a number with its decimals. A yield grade that rounding would lift to the next whole grade is cut.
func shown(measure rules.Measure, number decimal.Decimal, places int32) string {
	rounded := number.Round(places)
	if measure == rules.YieldGrade && rounded.Floor().GreaterThan(number.Floor()) {
		rounded = number.Truncate(places)
	}
	return fixed(measure, rounded, places)
}

// fixed writes a number: money with its cents, weights and points without idle zeros, inches without the zero before
// the point, as the trade writes them.
func fixed(measure rules.Measure, number decimal.Decimal, places int32) string {
	switch unit := definitionOf(measure).Unit; unit {
	case "lb", "points", "days", "dots":
		return number.Round(places).String()
	case "in":
		return strings.Replace(number.StringFixed(places), "0.", ".", 1)
	case "$", "$/cwt", "$/day":
		return thousands(number.StringFixed(places))
	default:
		return number.StringFixed(places)
	}
}

// thousands puts commas into the whole part of a number.
func thousands(number string) string {
	sign := ""
	if rest, negative := strings.CutPrefix(number, "-"); negative {
		sign, number = "-", rest
	}
	whole, fraction, _ := strings.Cut(number, ".")
	for at := len(whole) - 3; at > 0; at -= 3 {
		whole = whole[:at] + "," + whole[at:]
	}
	if fraction != "" {
		whole += "." + fraction
	}
	return sign + whole
}

// withUnit adds the unit of a measure to a number.
func withUnit(measure rules.Measure, number string) string {
	switch unit := definitionOf(measure).Unit; unit {
	case "":
		return number
	case "$":
		return dollars(number)
	case "$/cwt":
		return dollars(number) + " per cwt"
	case "$/day":
		return dollars(number) + " a day"
	default:
		return number + " " + unit
	}
}

// dollars puts the dollar sign between a minus and the number.
func dollars(number string) string {
	if rest, negative := strings.CutPrefix(number, "-"); negative {
		return "-$" + rest
	}
	return "$" + number
}

// definitionOf gives the definition of a measure, or of points for one of the rulebook's indexes.
func definitionOf(measure rules.Measure) rules.Definition {
	if _, index := pointsIndex(measure); index {
		measure = rules.Points
	}
	definition, _ := rules.Define(measure)
	return definition
}

// measureWords names a measure as a sentence does: an index by its own name.
func measureWords(measure rules.Measure) string {
	if index, ok := pointsIndex(measure); ok && index != "" {
		return index
	}
	return string(measure)
}

// called names a carcass as a sentence does.
func (g *Graded) called() string {
	if g.Tag != "" {
		return g.Tag
	}
	return "the carcass without a tag at " + g.Place.String()
}

// ordinal writes a place: 1st, 2nd, 3rd, 4th, 11th.
func ordinal(place int) string {
	switch {
	case place%100 >= 11 && place%100 <= 13:
		return strconv.Itoa(place) + "th"
	case place%10 == 1:
		return strconv.Itoa(place) + "st"
	case place%10 == 2:
		return strconv.Itoa(place) + "nd"
	case place%10 == 3:
		return strconv.Itoa(place) + "rd"
	default:
		return strconv.Itoa(place) + "th"
	}
}

// joinAnd joins words as a sentence does: "a, b and c".
func joinAnd(list []string) string {
	if len(list) < 2 {
		return strings.Join(list, "")
	}
	return strings.Join(list[:len(list)-1], ", ") + " and " + list[len(list)-1]
}

// few shortens a long list: its first three, and how many more there are.
func few(list []string) []string {
	const named = 3
	if len(list) <= named+1 {
		return list
	}
	return append(slices.Clone(list[:named]), fmt.Sprintf("%d more", len(list)-named))
}

// sentenceStart makes the first letter a capital.
func sentenceStart(text string) string {
	if text == "" {
		return text
	}
	return strings.ToUpper(text[:1]) + text[1:]
}

func quote(text string) string { return fmt.Sprintf("%q", text) }
