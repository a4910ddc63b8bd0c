package intake

import (
	"slices"
	"strings"
	"unicode"

	"railbook/rules"
	"railbook/rules/measure"
)

// vocabulary is every heading the rulebook accepts, made ready for looking up however people write it.
type vocabulary struct {
	accepted []acceptedHeading
	compact  map[string][]int      // which of the accepted, by the folded words without blanks: "ribeyearea"
	sorted   map[string][]int      // those of several words, by the folded words in any order
	keys     []compactKey          // all of compact, in order
	mapped   map[string]measure.ID // headings mapped by hand, by their folded words
	own      map[headingKey]bool   // the accepted headings that the board wrote itself
	seen     map[string]meaning    // what has been looked up already
}

// compactKey is the words of accepted headings without blanks.
type compactKey struct {
	text  string
	which []int
}

// acceptedHeading is a heading that the rulebook accepts, with its folded words.
type acceptedHeading struct {
	*rules.Heading
	words []string
}

// meaning is what a heading's words were found to say.
type meaning struct {
	candidates []rules.Heading // what it may be, by species; empty where it is not recognised
	unit       string          // the unit written in the heading; empty where none is
	because    string
	byHand     bool
}

func newVocabulary(book *rules.Rulebook, mapped map[measure.ID]string) *vocabulary {
	v := &vocabulary{
		accepted: make([]acceptedHeading, 0, len(book.Headings)),
		compact:  make(map[string][]int, len(book.Headings)/2), sorted: make(map[string][]int, len(book.Headings)/2),
		mapped: map[string]measure.ID{}, seen: map[string]meaning{},
	}
	v.own = ownHeadings(book)
	for _, boards := range []bool{true, false} { // the board's own first: of two entries of the same words the first decides
		for i := range book.Headings {
			if heading := &book.Headings[i]; v.own[keyOf(*heading)] == boards {
				v.accept(heading)
			}
		}
	}
	for _, definition := range book.Measures.Definitions() {
		if definition.Computed || definition.Heading == "" {
			continue
		}
		species := definition.Species
		if len(species) == 0 {
			species = []string{""}
		}
		for _, heading := range species {
			v.accept(&rules.Heading{Species: rules.Species(heading), Measure: definition.ID, Text: definition.Heading})
		}
	}
	for key, which := range v.sorted {
		if contradicts(v.candidates(which)) {
			delete(v.sorted, key)
		}
	}
	for id, text := range mapped {
		v.mapped[strings.Join(fold(text), " ")] = id
	}
	v.keys = make([]compactKey, 0, len(v.compact))
	for text, which := range v.compact {
		v.keys = append(v.keys, compactKey{text, which})
	}
	slices.SortFunc(v.keys, func(a, b compactKey) int { return strings.Compare(a.text, b.text) })
	return v
}

func (v *vocabulary) accept(heading *rules.Heading) {
	words := fold(heading.Text)
	if len(words) == 0 || heading.Measure == measure.SpeciesName && heading.Species != "" {
		return // "steer" under species is a word for beef, not a heading
	}
	number := len(v.accepted)
	v.accepted = append(v.accepted, acceptedHeading{heading, words})
	compact := strings.Join(words, "")
	v.compact[compact] = append(v.compact[compact], number)
	if len(words) == 1 {
		return
	}
	key := sortedWords(words)
	if !slices.ContainsFunc(v.sorted[key], func(known int) bool { return *v.accepted[known].Heading == *heading }) {
		v.sorted[key] = append(v.sorted[key], number)
	}
}

// sortedWords is the key of words whose order does not count.
func sortedWords(words []string) string {
	words = slices.Clone(words)
	slices.Sort(words)
	return strings.Join(words, " ")
}

// firstOfEach gives some of the accepted headings, the first for each species: the rulebook's order decides between two entries
// of the same words.
func (v *vocabulary) firstOfEach(which []int) (candidates []rules.Heading) {
	for _, heading := range v.candidates(which) {
		if !slices.ContainsFunc(candidates, func(known rules.Heading) bool { return known.Species == heading.Species }) {
			candidates = append(candidates, heading)
		}
	}
	return candidates
}

// candidates gives some of the accepted headings by their numbers.
func (v *vocabulary) candidates(which []int) []rules.Heading {
	candidates := make([]rules.Heading, len(which))
	for i, number := range which {
		candidates[i] = *v.accepted[number].Heading
	}
	return candidates
}

// contradicts reports whether the same words mean two measures of one species, as "fat adj" and "adj fat" do.
func contradicts(candidates []rules.Heading) bool {
	for i, heading := range candidates {
		for _, other := range candidates[i+1:] {
			if heading.Measure != other.Measure && (heading.Species == other.Species || heading.Species == "" || other.Species == "") {
				return true
			}
		}
	}
	return false
}

// recognise says what a heading means. Nothing is guessed: other words than the accepted ones are not recognised.
func (v *vocabulary) recognise(text string) meaning {
	if known, ok := v.seen[text]; ok {
		return known
	}
	found := v.lookUp(text)
	v.seen[text] = found
	return found
}

// longestHeading is how many letters a heading may have; what is longer is prose.
const longestHeading = 90

func (v *vocabulary) lookUp(text string) meaning {
	if len(text) > longestHeading || strings.TrimSpace(text) == "" {
		return meaning{}
	}
	words := fold(text)
	if id, byHand := v.mapped[strings.Join(words, " ")]; byHand {
		_, unit := withoutUnit(words)
		return meaning{
			candidates: []rules.Heading{{Measure: id, Text: text}}, unit: unit,
			because: "mapped by hand", byHand: true,
		}
	}
	if found, ok := v.find(words); ok {
		return v.alsoScanned(found, words, "")
	}
	rest, unit := withoutUnit(words)
	if scales[unit].base == "lb" && len(rest) == 1 && rest[0] == "carcass" && words[len(words)-1] != "#" {
		rest = append(rest, "weight") // a number of pounds; "Carcass" alone may be its number
	}
	found, ok := v.find(rest)
	if unit == "" || !ok {
		if found := v.qualified(rest, unit); len(found.candidates) > 0 {
			return found
		}
		if found := v.statedWeight(words); len(found.candidates) > 0 {
			return found
		}
		if plain := withoutDecoration(text); plain != text {
			return v.lookUp(plain)
		}
		return meaning{}
	}
	fitting := found.candidates[:0:0]
	for _, candidate := range found.candidates {
		definition, _ := measure.Define(candidate.Measure)
		if scales[unit].base == definition.Unit {
			fitting = append(fitting, candidate)
		}
	}
	if len(fitting) == 0 {
		return meaning{}
	}
	return v.alsoScanned(meaning{candidates: fitting, unit: unit, because: found.because + ", in " + unitName(unit)}, rest, unit)
}

// qualified recognises a heading by what is left of it without the words that say how the measure was taken.
func (v *vocabulary) qualified(words []string, unit string) meaning {
	if found := v.scanHeading(words, unit); len(found.candidates) > 0 {
		return found
	}
	return v.oneSide(words, unit)
}

// alsoScanned adds what a heading means without its word for ultrasound for the species that have no such heading of
// their own: "UFAT" of a hog.
func (v *vocabulary) alsoScanned(found meaning, words []string, unit string) meaning {
	for _, candidate := range v.scanHeading(words, unit).candidates {
		if _, known := found.of(candidate.Species); !known {
			found.candidates = append(slices.Clone(found.candidates), candidate)
		}
	}
	return found
}

// oneSide recognises the weight of one side that is declared hot or cold: "Left side hot wt".
func (v *vocabulary) oneSide(words []string, unit string) meaning {
	bare := slices.DeleteFunc(slices.Clone(words), func(word string) bool {
		return slices.Contains([]string{"hot", "warm", "cold", "chilled", "carcass"}, word)
	})
	found, ok := v.find(bare)
	if len(bare) == len(words) || !ok || !found.is(measure.LeftSideWeight, measure.RightSideWeight) {
		return meaning{}
	}
	found.unit = unit
	return found
}

func (v *vocabulary) find(words []string) (meaning, bool) {
	alike := v.compact[strings.Join(words, "")]
	exact := slices.DeleteFunc(slices.Clone(alike), func(number int) bool { return !slices.Equal(v.accepted[number].words, words) })
	for _, which := range [][]int{exact, alike} {
		if found := v.firstOfEach(which); len(found) > 0 {
			return meaning{candidates: found, because: `accepted heading "` + found[0].Text + `"`}, true
		}
	}
	if found := v.candidates(v.sorted[sortedWords(words)]); len(found) > 0 {
		return meaning{candidates: found, because: `accepted heading "` + found[0].Text + `", its words in another order`}, true
	}
	return meaning{}, false
}

// of gives what the heading means for a species; ok is false where it is no measure of that species.
func (m meaning) of(species rules.Species) (rules.Heading, bool) {
	var general rules.Heading
	found := false
	for _, candidate := range m.candidates {
		if candidate.Species == species {
			return candidate, true
		}
		if candidate.Species == "" {
			general, found = candidate, true
		}
	}
	if found {
		if definition, known := measure.Define(general.Measure); known && species != "" && !definition.For(string(species)) {
			return general, m.byHand
		}
		return general, true
	}
	if species == "" && len(m.candidates) > 0 {
		return m.candidates[0], true
	}
	return rules.Heading{}, false
}

// is reports whether the heading can mean one of the measures.
func (m meaning) is(measures ...measure.ID) bool {
	for _, candidate := range m.candidates {
		if slices.Contains(measures, candidate.Measure) {
			return true
		}
	}
	return false
}

// unitPhrases are the folded forms of unitWords, the longest first.
var unitPhrases = foldedUnits()

func foldedUnits() [][]string {
	var phrases [][]string
	for words := range unitWords {
		if folded := fold(words); len(folded) > 0 && !isDotWord(folded) {
			phrases = append(phrases, folded)
		}
	}
	slices.SortFunc(phrases, func(a, b []string) int {
		if len(a) != len(b) {
			return len(b) - len(a)
		}
		return slices.Compare(a, b)
	})
	return phrases
}

// isDotWord keeps "dots" in a heading: it names the measure there, not a unit.
func isDotWord(words []string) bool { return words[0] == "dots" || words[0] == "dot" }

// withoutUnit takes the unit out of a heading's words: at the end, where most people write it, or else at the front.
func withoutUnit(words []string) (rest []string, unit string) {
	for _, phrase := range unitPhrases {
		if len(words) > len(phrase) && slices.Equal(words[len(words)-len(phrase):], phrase) {
			return words[:len(words)-len(phrase)], foldedUnit[strings.Join(phrase, " ")]
		}
	}
	if last := len(words) - 1; last > 0 && words[last] == "#" {
		return words[:last], "lb"
	}
	for _, phrase := range unitPhrases {
		if len(words) > len(phrase) && slices.Equal(words[:len(phrase)], phrase) {
			return words[len(phrase):], foldedUnit[strings.Join(phrase, " ")]
		}
	}
	return words, ""
}

var foldedUnit = func() map[string]string {
	units := map[string]string{}
	for words, unit := range unitWords {
		units[strings.Join(fold(words), " ")] = unit
	}
	return units
}()

// statedWeights says whether the words say that weights are hot or chilled; empty where they do not, or say both.
func statedWeights(text string) rules.WeightsAre {
	hot, chilled := false, false
	for _, word := range fold(text) {
		switch word {
		case "hot", "hcw", "hcwt", "warm":
			hot = true
		case "cold", "chilled", "chill", "ccw", "cooler":
			chilled = true
		}
	}
	switch {
	case hot && !chilled:
		return rules.WeightsHot
	case chilled && !hot:
		return rules.WeightsChilled
	}
	return ""
}

// hasLetter reports whether a text has any letter.
func hasLetter(text string) bool { return strings.ContainsFunc(text, unicode.IsLetter) }
