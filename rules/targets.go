package rules

import (
	"railbook/rules/measure"
)

func (l *loading) targets() {
	for _, line := range l.lines(TargetsTable) {
		species := line.species()
		if text := line.text("Species"); text == "" || fold(text) == "all" {
			line.fault("Species", "A target is for one species. Name it: %s.", oneOf(speciesWords))
		}
		if _, ok := line.needed("Measure"); !ok {
			continue
		}
		definition, ok := line.measure(species)
		if !ok || !line.compares(definition, measure.KindNumber, measure.KindMarbling, measure.KindMaturity) {
			continue
		}
		target := Target{
			Species: species, Measure: definition.ID, From: line.number("From"), UpTo: line.number("Up to"),
			Words: line.text("In words"), Source: line.text("Source"), Place: line.place("Measure"),
		}
		if line.text("From") == "" && line.text("Up to") == "" {
			line.fault("From", "This target has neither a low nor a high end. Fill in one of them, or clear the line.")
		}
		line.crossed("Up to", target.From, target.UpTo, false)
		for _, earlier := range l.book.Targets {
			if earlier.Species == species && earlier.Measure == target.Measure {
				line.fault("Measure", "The target for %s%s is there twice; the first time in cell %s. Keep one of the two lines.", target.Measure, forSpecies(species), earlier.Place.Cell)
			}
		}
		l.book.Targets = append(l.book.Targets, target)
	}
}
