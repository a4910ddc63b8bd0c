package rules

import (
	"slices"
	"strings"
	"unicode"

	"railbook/rules/measure"
	"railbook/rules/phrase"
)

func (l *loading) headings() {
	lines := l.lines(HeadingsTable)
	accepted := make(map[string]int, len(lines)*headingsOfALine) // which of the book's headings
	l.book.Headings = slices.Grow(l.book.Headings, len(lines)*headingsOfALine)
	for _, line := range lines {
		species := line.species()
		if _, ok := line.needed("Measure"); !ok {
			continue
		}
		definition, ok := line.measure(species)
		if !ok {
			continue
		}
		if definition.Computed {
			line.fault("Measure", "%s is computed by the program and not read from a sheet, so no heading can stand for it.%s", phrase.Capital(definition.Name), sheetsOwn(definition.ID))
			continue
		}
		unit := line.choice("Unit", unitWords)
		if unit != "" && unitIsOf[unit] != definition.Unit {
			line.fault("Unit", "%s can't be in %s. Clear the unit, or correct the measure.", phrase.Capital(definition.Name), unit)
		}
		texts := line.list("Accepted headings")
		if len(texts) == 0 {
			line.needed("Accepted headings")
		}
		place, given := line.place("Accepted headings"), line.text("Source") == GivenWhenGrading
		for _, text := range texts {
			key := string(species) + "\t" + foldHeading(text)
			if definition.ID == measure.SpeciesName && species != "" {
				key = "a word for the species\t" + key // "steer" is a word for beef, and heads no column
			}
			if number, twice := accepted[key]; twice {
				earlier := l.book.Headings[number]
				if earlier.Measure != definition.ID {
					line.fault("Accepted headings", "The heading %q stands for %s here and for %s in cell %s. It can stand for one of them.", text, definition.ID, earlier.Measure, earlier.Place.Cell)
				} else {
					line.warn("Accepted headings", "The heading %q is there twice; the first time in cell %s.", text, earlier.Place.Cell)
				}
			}
			accepted[key] = len(l.book.Headings)
			l.book.Headings = append(l.book.Headings, Heading{Species: species, Measure: definition.ID, Text: text, Unit: unit, Place: place, Given: given})
		}
	}
}

// headingsOfALine is how many headings a line accepts at the most, on the average.
const headingsOfALine = 20

// unitIsOf gives the unit of the measures that can be written in a unit.
var unitIsOf = map[string]string{
	"lb": "lb", "kg": "lb", "in": "in", "tenths": "in", "hundredths": "in", "mm": "in", "cm": "in", "sq in": "sq in", "sq cm": "sq in", "%": "%", "dots": "dots",
}

// foldHeading makes headings comparable as a person would: letter case and punctuation ignored.
func foldHeading(text string) string {
	var folded strings.Builder
	folded.Grow(len(text))
	gap := false
	for _, letter := range text {
		letter = unicode.ToLower(letter)
		if !unicode.IsLetter(letter) && !unicode.IsDigit(letter) {
			gap = folded.Len() > 0
			continue
		}
		if gap {
			folded.WriteByte(' ')
		}
		gap = false
		folded.WriteRune(letter)
	}
	return folded.String()
}

// sheetsOwn names the measure that a sheet's own figure of a computed one is read as.
func sheetsOwn(id measure.ID) string {
	if own := measure.Standard().ByName("sheet " + id.String()); own != measure.None {
		return " A sheet's own figure is " + own.String() + "."
	}
	return ""
}
