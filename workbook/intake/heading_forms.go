package intake

import (
	"slices"
	"strings"
	"sync"

	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"
)

// decoration is what a spreadsheet program or a footnote puts around a heading: "Sum of HCW", "HCW (1)".
// Skin on is how a hog's carcass is weighed where nothing else is said.
var decoration = phrase.NewPattern(`(?i)^(?:sum|average|avg|max|min) of +|[ ]*[(\[](?:\d|[a-e]|\*+|skin[ -]on)[)\]]$|,? *\bskin[ -]on\b(?:[)\]]$)?`)

// withoutDecoration gives a heading without what a pivot table or a footnote added.
func withoutDecoration(text string) string {
	return strings.TrimSpace(decoration.ReplaceAllString(strings.TrimSpace(text), ""))
}

// weightStates are the words by which a carcass weight is declared hot or chilled.
var weightStates = []string{"hot", "warm", "cold", "chilled", "chill", "cooler"}

// withoutWeightState gives a text without the words that say that a weight is hot or chilled: "kg hot".
func withoutWeightState(text string) string {
	return strings.Join(slices.DeleteFunc(strings.Fields(text), func(word string) bool { return slices.Contains(weightStates, strings.ToLower(word)) }), " ")
}

// statedWeight recognises a carcass weight whose heading says besides that it is hot or chilled: "Carcass lbs hot".
func (v *vocabulary) statedWeight(words []string) meaning {
	bare := slices.DeleteFunc(slices.Clone(words), func(word string) bool { return slices.Contains(weightStates, word) })
	stated := statedWeights(strings.Join(words, " "))
	if len(bare) == len(words) || len(bare) == 0 || stated == "" {
		return meaning{}
	}
	if slices.Equal(bare, []string{"carcass"}) {
		bare = append(bare, "weight")
	}
	found := v.lookUp(strings.Join(bare, " "))
	if !found.is(measure.HotCarcassWeight) {
		return meaning{}
	}
	found.candidates = slices.Clone(found.candidates)
	for i := range found.candidates {
		if found.candidates[i].Measure == measure.HotCarcassWeight && stated == rules.WeightsChilled {
			found.candidates[i].Measure = measure.ChilledCarcassWeight
		}
	}
	return found
}

// otherLanguage parts a heading that stands in two languages: "Peso vivo / Live wt (lb)".
var otherLanguage = phrase.NewPattern(`\s*(?:/|\||\n| - )\s*`)

// fewestBilingual is how many headings of a sheet must stand in two languages before any is read by one of its halves.
const fewestBilingual = 3

// halved recognises a heading of two halves by the one of them that is known, where the other is not; the unit may stand in
// either.
func (v *vocabulary) halved(text string) meaning {
	parts := otherLanguage.Split(text, -1)
	if len(parts) != 2 || parts[0] == "" || parts[1] == "" {
		return meaning{}
	}
	meant, other := v.recognise(parts[0]), v.recognise(parts[1])
	if len(meant.candidates) > 0 && len(other.candidates) > 0 && meant.candidates[0].Measure != other.candidates[0].Measure {
		return meaning{}
	}
	found := meant
	if len(found.candidates) == 0 {
		found = other
	}
	if len(found.candidates) > 0 {
		found.because += ", in one of two languages"
	}
	return found
}

// bilingual reports whether the headings of a page stand in two languages.
func (f *finder) bilingual() bool {
	for i := range f.page.lines[:min(len(f.page.lines), 40)] {
		halves := 0
		for _, cell := range f.page.lines[i].cells {
			text := clean(cell.Raw)
			if strings.ContainsAny(text, "/|-") && len(f.vocabulary.recognise(text).candidates) == 0 && len(f.vocabulary.halved(text).candidates) > 0 {
				halves++
			}
		}
		if halves >= fewestBilingual {
			return true
		}
	}
	return false
}

// recognise says what a heading on this page means.
func (f *finder) recognise(text string) meaning {
	found := f.vocabulary.recognise(text)
	if len(found.candidates) == 0 && f.twoLanguages {
		return f.vocabulary.halved(text)
	}
	return found
}

// headingKey is an accepted heading wherever it stands in the rulebook.
type headingKey struct {
	species rules.Species
	measure measure.ID
	text    string
}

func keyOf(heading rules.Heading) headingKey {
	return headingKey{heading.Species, heading.Measure, heading.Text}
}

// ownHeadings gives the accepted headings that a board, or somebody on the command line, wrote: those that do not ship, and
// those that are written once more. What they name wins over what ships.
func ownHeadings(book *rules.Rulebook) map[headingKey]bool {
	if book == rules.Shipped() {
		return nil
	}
	own, seen := map[headingKey]bool{}, map[headingKey]int{}
	shipped := shippedTimes()
	for _, heading := range book.Headings {
		key := keyOf(heading)
		if seen[key]++; heading.Given || seen[key] > shipped[key] {
			own[key] = true
		}
	}
	return own
}

// shippedTimes is how often each heading stands in what ships.
var shippedTimes = sync.OnceValue(func() map[headingKey]int {
	times := map[headingKey]int{}
	for _, heading := range rules.Shipped().Headings {
		times[keyOf(heading)]++
	}
	return times
})

// named reports whether somebody said by name that a heading means a measure: on the command line or in the rulebook.
func (v *vocabulary) named(m meaning, id measure.ID) bool {
	return m.is(id) && (m.byHand || slices.ContainsFunc(m.candidates, func(heading rules.Heading) bool { return heading.Measure == id && v.own[keyOf(heading)] }))
}

// preferNamed leaves every other column unread that would mean what one of a table's headings was said by name to mean.
func (r *reader) preferNamed(t *table) {
	for _, column := range t.columns {
		for _, candidate := range column.meaning.candidates {
			if !r.vocabulary.named(column.meaning, candidate.Measure) {
				continue
			}
			for i := range t.columns {
				other := &t.columns[i]
				if other.number == column.number || !other.meaning.is(candidate.Measure) || r.vocabulary.named(other.meaning, candidate.Measure) {
					continue
				}
				other.meaning.candidates = slices.DeleteFunc(slices.Clone(other.meaning.candidates), func(heading rules.Heading) bool { return heading.Measure == candidate.Measure })
				other.outranked = true
			}
		}
	}
}
