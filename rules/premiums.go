package rules

import (
	"strings"

	"railbook/rules/measure"
	"railbook/rules/phrase"
)

// premiums reads the premiums for what a carcass meets several tests for.
func (l *loading) premiums() {
	lines := map[string][]line{} // with a letter under "Or", by premium and letter
	defer func() {
		for _, alternatives := range lines {
			alternatives[0].alone(len(alternatives) - 1)
		}
	}()
	for _, line := range l.lines(PremiumsTable) {
		species := line.ofOneSpecies("premium")
		name, ok := line.needed("Premium")
		if !ok || species == "" {
			continue
		}
		definition, ok := line.priced("Measure", species)
		if !ok {
			continue
		}
		test := Requirement{
			Species: species, Measure: definition.ID,
			AtLeast: line.boundOf(definition, "At least"), AtMost: line.boundOf(definition, "At most"),
			Above: line.boundOf(definition, "Above"), Below: line.boundOf(definition, "Below"), OneOf: line.text("One of"),
			PerPound:   line.number("Changes per lb").Decimal,
			LowestWord: line.lowestGrade(definition, species), MustNotBe: line.yes("Must not be", false), MustBe: line.saysNo("Must not be"),
			Or: line.text("Or"), Source: line.text("Source"), Place: line.place("Measure"),
		}
		line.checkTests(definition, test)
		if test.Or != "" {
			key := string(species) + "\t" + fold(name) + "\t" + fold(test.Or)
			lines[key] = append(lines[key], line)
		}
		if premium := l.premiumNamed(name, species); premium != nil {
			line.adjustsNothing(premium.Name)
			premium.Tests = append(premium.Tests, test)
			continue
		}
		premium := Premium{GridLine: GridLine{Species: species, Part: PremiumPart, Name: name, Source: line.text("Source"), Place: line.place("$/cwt")}}
		line.adjustment(&premium.GridLine)
		premium.Tests = append(premium.Tests, test)
		l.book.Premiums = append(l.book.Premiums, premium)
	}
}

func (l *loading) premiumNamed(name string, species Species) *Premium {
	for at := range l.book.Premiums {
		if premium := &l.book.Premiums[at]; premium.Species == species && fold(premium.Name) == fold(name) {
			return premium
		}
	}
	return nil
}

// adjustsNothing looks for a price on a line of a premium after its first.
func (n line) adjustsNothing(name string) {
	for _, heading := range []string{"$/cwt", "% of base"} {
		if n.text(heading) != "" {
			n.fault(heading, "What the premium %s adds stands on its first line. Clear %q here.", name, heading)
		}
	}
}

// ofOneSpecies reads the species of a line that has to name it.
func (n line) ofOneSpecies(what string) Species {
	species := n.species()
	if text := n.text("Species"); text == "" || fold(text) == "all" {
		n.fault("Species", "A line of a %s is for one species. Name it: %s.", what, phrase.JoinOr(speciesWords))
	}
	return species
}

// priced reads a measure that a price can depend on: none that follows from the price, or is worked out after it.
func (n line) priced(heading string, species Species) (measure.Definition, bool) {
	if _, ok := n.needed(heading); !ok {
		return measure.Definition{}, false
	}
	definition, ok := n.measureIn(heading, species)
	switch {
	case !ok:
		return definition, false
	case strings.HasPrefix(definition.Unit, "$"), definition.Unit == "points", definition.Unit == "lb/day", definition.Unit == "days",
		definition.ID == measure.AgeInMonths, definition.ID == measure.FinalWeight:
		n.fault(heading, "%s is worked out after the price, so no price can depend on it. Name what is measured, or a grade.", phrase.Capital(definition.Name))
		return definition, false
	}
	return definition, true
}

// matrix reads the price matrix of each species.
func (l *loading) matrix() {
	for _, line := range l.lines(MatrixTable) {
		before := len(l.faults)
		species := line.ofOneSpecies("price matrix")
		if species == "" {
			continue
		}
		first, ok := line.priced("Measure", species)
		second, too := line.priced("Second measure", species)
		if !ok || !too || !line.numeric("Measure", first) || !line.numeric("Second measure", second) {
			continue
		}
		cell := MatrixLine{
			GridLine: GridLine{Species: species, Part: MatrixPart, Source: line.text("Source"), Place: line.place("$/cwt")},
			First:    first.ID, Second: second.ID,
		}
		cell.Band, cell.SecondBand = line.openBand("From", "Up to"), line.openBand("Second from", "Second up to")
		line.adjustment(&cell.GridLine)
		cell.Name = first.Name + bandWords(cell.Band) + ", " + second.Name + bandWords(cell.SecondBand)
		for _, earlier := range l.book.Matrix {
			if earlier.Species == species {
				line.fitsBeside(earlier, cell)
			}
		}
		if len(l.faults) == before {
			l.book.Matrix = append(l.book.Matrix, cell)
		}
	}
}

func (n line) numeric(heading string, definition measure.Definition) bool {
	switch definition.Kind {
	case measure.KindNumber, measure.KindMarbling, measure.KindMaturity:
		return true
	}
	n.fault(heading, "%s is %s, which has no bands of numbers. Name a measure that is a number.", phrase.Capital(definition.Name), kindWords[definition.Kind])
	return false
}

// openBand reads a band whose lower end counts and whose upper end does not.
func (n line) openBand(from, upTo string) Band {
	band := Band{From: n.number(from), UpTo: n.number(upTo)}
	band.FromIsIn = band.From.Valid
	if band.From.Valid && band.UpTo.Valid && band.From.Decimal.GreaterThanOrEqual(band.UpTo.Decimal) {
		n.fault(upTo, "This band ends at %s and begins at %s, so nothing is in it.", band.UpTo.Decimal, band.From.Decimal)
	}
	return band
}

func bandWords(band Band) string {
	switch {
	case band.From.Valid && band.UpTo.Valid:
		return " " + band.From.Decimal.String() + " up to " + band.UpTo.Decimal.String()
	case band.UpTo.Valid:
		return " below " + band.UpTo.Decimal.String()
	case band.From.Valid:
		return " " + band.From.Decimal.String() + " and up"
	}
	return " any"
}

// fitsBeside looks whether a cell of a matrix is of the same two measures as another, and apart from it.
func (n line) fitsBeside(earlier, cell MatrixLine) {
	switch {
	case earlier.First != cell.First:
		n.fault("Measure", "A species has one price matrix, of two measures. The first line has %s here, in cell %s.", earlier.First, earlier.Place.Cell)
	case earlier.Second != cell.Second:
		n.fault("Second measure", "A species has one price matrix, of two measures. The first line has %s here, in cell %s.", earlier.Second, earlier.Place.Cell)
	case bandsMeet(earlier.Band, cell.Band) && bandsMeet(earlier.SecondBand, cell.SecondBand):
		n.fault("From", "This cell of the matrix overlaps that of the line with its price in cell %s. Let one band begin where the other ends.", earlier.Place.Cell)
	}
}

func bandsMeet(a, b Band) bool {
	apart := func(below, above Band) bool {
		return below.UpTo.Valid && above.From.Valid && below.UpTo.Decimal.LessThanOrEqual(above.From.Decimal)
	}
	return !apart(a, b) && !apart(b, a)
}
