package intake

import (
	"slices"
	"strings"

	"railbook/rules"
	"railbook/rules/measure"
	"railbook/workbook/xlsx"

	"github.com/shopspring/decimal"
)

// speciesWords are the rulebook's words for each species: its own names, the classes' words, and the words it lists
// under the measure species.
type speciesWords struct {
	words map[string]rules.Species
	seen  map[string]rules.Species // what has been looked up already
}

func newSpeciesWords(book *rules.Rulebook) speciesWords {
	words := map[string]rules.Species{}
	conflicting := map[string]bool{}
	add := func(text string, species rules.Species) {
		key := singular(text)
		if known, twice := words[key]; twice && known != species {
			conflicting[key] = true
		}
		words[key] = species
	}
	for _, definition := range book.Measures.Definitions() {
		for _, species := range definition.Species {
			add(species, rules.Species(species))
		}
	}
	for _, heading := range book.Headings {
		if heading.Measure == measure.SpeciesName && heading.Species != "" {
			add(heading.Text, heading.Species)
		}
	}
	for _, class := range book.Classes {
		if class.Species == "" {
			continue
		}
		for _, match := range class.Matches {
			add(match, class.Species)
		}
	}
	for word := range conflicting {
		delete(words, word)
	}
	return speciesWords{words, map[string]rules.Species{}}
}

// singular folds a text word by word, each in the singular.
func singular(text string) string {
	words := fold(text)
	for i, word := range words {
		if len(word) > 3 && strings.HasSuffix(word, "s") && !strings.HasSuffix(word, "ss") {
			words[i] = word[:len(word)-1]
		}
	}
	return strings.Join(words, " ")
}

// in gives the one species that a text names; empty where it names none, or several.
func (w speciesWords) in(text string) rules.Species {
	species, known := w.seen[text]
	if !known {
		species = w.lookUp(text)
		w.seen[text] = species
	}
	return species
}

func (w speciesWords) lookUp(text string) rules.Species {
	folded := singular(text)
	if species, whole := w.words[folded]; whole {
		return species
	}
	var found rules.Species
	for _, word := range strings.Fields(folded) {
		species, known := w.words[word]
		switch {
		case !known:
		case found != "" && found != species:
			return ""
		default:
			found = species
		}
	}
	return found
}

// speciesOf says which species a table is about and why; empty where nothing says so.
func (r *reader) speciesOf(t *table) (species rules.Species, why string) {
	fitting := r.speciesByHeadings(t)
	fits := func(species rules.Species) bool {
		return species != "" && (len(fitting) == 0 || slices.Contains(fitting, species))
	}
	for i := len(t.titles) - 1; i >= 0; i-- {
		if species := r.species.in(t.titles[i].text); fits(species) {
			return species, `the title "` + t.titles[i].text + `"`
		}
	}
	if species := r.species.in(t.page.sheet); fits(species) {
		return species, `the sheet's name "` + t.page.sheet + `"`
	}
	if len(fitting) > 1 {
		if species := r.speciesByMarbling(t, fitting); species != "" {
			return species, "marbling written in degrees"
		}
	}
	if len(fitting) == 1 {
		return fitting[0], "the headings"
	}
	if len(fitting) < len(allSpecies) {
		if species := r.speciesBySize(t, fitting); species != "" {
			return species, "the headings and what was measured"
		}
	}
	if r.options.Species != "" {
		return r.options.Species, asTold
	}
	if r.book.Settings.UnmarkedSpecies != "" {
		return r.book.Settings.UnmarkedSpecies, asTold
	}
	return "", ""
}

// asTold is why an unmarked sheet has its species: somebody said so, on the command line or in the rulebook.
const asTold = "as told"

// speciesByHeadings gives the species that have every measure under the table's headings.
func (r *reader) speciesByHeadings(t *table) []rules.Species {
	fitting := slices.Clone(allSpecies)
	for _, column := range t.columns {
		if len(column.meaning.candidates) == 0 || column.meaning.byHand {
			continue
		}
		fitting = slices.DeleteFunc(fitting, func(species rules.Species) bool {
			_, has := column.meaning.of(species)
			return !has
		})
	}
	return fitting
}

var allSpecies = func() []rules.Species {
	var all []rules.Species
	for _, definition := range measure.Standard().Definitions() {
		for _, name := range definition.Species {
			if species := rules.Species(name); !slices.Contains(all, species) {
				all = append(all, species)
			}
		}
	}
	return all
}()

// speciesByMarbling tells species apart by a marbling column whose cells hold degrees in words: only one of the
// species may write it so.
func (r *reader) speciesByMarbling(t *table, fitting []rules.Species) rules.Species {
	for _, column := range t.columns {
		var inWords []rules.Species
		for _, species := range fitting {
			if heading, ok := column.meaning.of(species); ok {
				if definition, _ := measure.Define(heading.Measure); definition.Kind == measure.KindMarbling {
					inWords = append(inWords, species)
				}
			}
		}
		if len(inWords) == 1 && len(inWords) < len(fitting) && t.hasLetters(column.number) {
			return inWords[0]
		}
	}
	return ""
}

// speciesBySize tells species apart by weights and areas that only one of them can have: by its headings alone a sheet with KPH may
// be of cattle or of goats. What stands in another unit than the measure's own tells nothing.
func (r *reader) speciesBySize(t *table, fitting []rules.Species) rules.Species {
	possible := slices.Clone(fitting)
	for _, column := range t.columns {
		possible = slices.DeleteFunc(possible, func(species rules.Species) bool {
			heading, meant := column.meaning.of(species)
			return meant && column.meaning.unit == "" && heading.Unit == "" && !r.anyPossible(t.numbersIn(column.number), species, heading.Measure)
		})
	}
	if len(possible) != 1 {
		return ""
	}
	return possible[0]
}

// anyPossible reports whether any of the numbers is within what the rulebook holds possible, or there is none.
func (r *reader) anyPossible(numbers []decimal.Decimal, species rules.Species, id measure.ID) bool {
	for _, limit := range r.book.Limits {
		if limit.Species == species && limit.Measure == id {
			return len(numbers) == 0 || slices.ContainsFunc(numbers, func(number decimal.Decimal) bool {
				return !below(number, limit.HoldBelow) && !(limit.HoldAbove.Valid && number.GreaterThan(limit.HoldAbove.Decimal))
			})
		}
	}
	return true
}

// numbersIn gives the numbers of a column, some hundred of them at most.
func (t *table) numbersIn(column int) (numbers []decimal.Decimal) {
	for i := range t.page.lines {
		line := &t.page.lines[i]
		if line.number <= t.bottom || line.number > t.lastLine || t.repeated[line.number] {
			continue
		}
		cell := line.at(column)
		if number, err := decimal.NewFromString(cell.Raw); cell.Kind == xlsx.Number && err == nil {
			numbers = append(numbers, number)
		}
		if len(numbers) >= 100 {
			break
		}
	}
	return numbers
}

// hasLetters reports whether a column's cells hold words.
func (t *table) hasLetters(column int) bool {
	for i := range t.page.lines {
		line := &t.page.lines[i]
		if line.number > t.bottom && line.number <= t.lastLine && !t.repeated[line.number] {
			if cell := line.at(column); cell.Kind == xlsx.Text && hasLetter(cell.Raw) {
				return true
			}
		}
	}
	return false
}
