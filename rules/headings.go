package rules

import (
	"strings"
	"unicode"
)

func (l *loading) headings() {
	type seen struct {
		measure Measure
		place   Place
	}
	accepted := make(map[string]seen)
	for _, line := range l.lines(HeadingsTable) {
		species := line.species()
		if _, ok := line.needed("Measure"); !ok {
			continue
		}
		definition, ok := line.measure(species)
		if !ok {
			continue
		}
		if definition.Computed {
			line.fault("Measure", "%s is computed by the program and not read from a sheet, so no heading can stand for it.%s", capital(string(definition.Measure)), sheetsOwn(definition.Measure))
			continue
		}
		unit := line.choice("Unit", unitWords)
		texts := line.list("Accepted headings")
		if len(texts) == 0 {
			line.needed("Accepted headings")
		}
		for _, text := range texts {
			key := string(species) + "\t" + foldHeading(text)
			if definition.Measure == SpeciesName && species != "" {
				key = "a word for the species\t" + key // "steer" is a word for beef, and heads no column
			}
			if earlier, twice := accepted[key]; twice && earlier.measure != definition.Measure {
				line.fault("Accepted headings", "The heading %q stands for %s here and for %s in cell %s. It can stand for one of them.", text, definition.Measure, earlier.measure, earlier.place.Cell)
			} else if twice {
				line.warn("Accepted headings", "The heading %q is there twice; the first time in cell %s.", text, earlier.place.Cell)
			}
			accepted[key] = seen{definition.Measure, line.place("Accepted headings")}
			l.book.Headings = append(l.book.Headings, Heading{Species: species, Measure: definition.Measure, Text: text, Unit: unit, Place: line.place("Accepted headings")})
		}
	}
}

// foldHeading makes headings comparable as a person would: letter case and punctuation ignored.
func foldHeading(text string) string {
	words := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	return strings.Join(words, " ")
}

// sheetsOwn names the measure that a sheet's own figure of a computed one is read as.
func sheetsOwn(measure Measure) string {
	if own := Measure("sheet " + string(measure)); own != "" {
		if _, found := Define(own); found {
			return " A sheet's own figure is " + string(own) + "."
		}
	}
	return ""
}
