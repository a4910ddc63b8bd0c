package rules

import (
	"railbook/rules/measure"
	"railbook/rules/phrase"

	"github.com/shopspring/decimal"
)

func (l *loading) targets() {
	for _, line := range l.lines(TargetsTable) {
		species := line.species()
		if text := line.text("Species"); text == "" || fold(text) == "all" {
			line.fault("Species", "A target is for one species. Name it: %s.", phrase.JoinOr(speciesWords))
		}
		if _, ok := line.needed("Measure"); !ok {
			continue
		}
		definition, ok := line.measure(species)
		if !ok || !line.compares(definition, measure.KindNumber, measure.KindMarbling, measure.KindMaturity) {
			continue
		}
		target := Target{
			Species: species, Measure: definition.ID, From: line.bound("From"), UpTo: line.bound("Up to"),
			Words: line.text("In words"), Source: line.text("Source"), Place: line.place("Measure"),
		}
		if line.text("From") == "" && line.text("Up to") == "" {
			line.fault("From", "This target has neither a low nor a high end. Fill in one of them, or clear the line.")
		}
		line.crossed("Up to", target.From.number(), target.UpTo.number(), false)
		for _, earlier := range l.book.Targets {
			if earlier.Species == species && earlier.Measure == target.Measure {
				line.fault("Measure", "The target for %s%s is there twice; the first time in cell %s. Keep one of the two lines.", target.Measure, forSpecies(species), earlier.Place.Cell)
			}
		}
		l.book.Targets = append(l.book.Targets, target)
	}
}

// growing is how an end that grows with the carcass is written: "1.4 + 0.02 per lb".
var growing = phrase.NewPattern(`^(\S+)\s*\+\s*(\S+)\s+per lb$`)

// bound reads an end of a target: a number, or one that grows with each pound of hot carcass weight.
func (n line) bound(heading string) Bound {
	parts := growing.FindStringSubmatch(n.text(heading))
	if parts == nil {
		return Bound{NullDecimal: n.number(heading)}
	}
	start, ok := parseNumber(parts[1])
	perPound, too := parseNumber(parts[2])
	if !ok || !too {
		n.fault(heading, "%q under %q is no end of a target. Write a number such as 12.5, or one that grows with the carcass, such as 1.4 + 0.02 per lb.", n.text(heading), heading)
		return Bound{}
	}
	return Bound{decimal.NewNullDecimal(start), perPound}
}

// number is an end that does not grow.
func (b Bound) number() decimal.NullDecimal {
	if !b.PerPound.IsZero() {
		return decimal.NullDecimal{}
	}
	return b.NullDecimal
}
