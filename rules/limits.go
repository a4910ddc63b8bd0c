package rules

import (
	"slices"
	"sync"

	"railbook/rules/measure"
	"railbook/rules/phrase"

	"github.com/shopspring/decimal"
)

func (l *loading) limits() {
	for _, line := range l.lines(LimitsTable) {
		species := line.species()
		if _, ok := line.needed("Measure"); !ok {
			continue
		}
		definition, ok := line.measure(species)
		if !ok || !line.compares(definition, measure.KindNumber, measure.KindMarbling, measure.KindMaturity) {
			continue
		}
		if definition.Computed && definition.Unit == "points" {
			line.fault("Measure", "Points are not held to limits; what they are counted from is. Take the line out, or name a measure.")
			continue
		}
		limit := Limit{
			Species: species, Measure: definition.ID, Usual: line.text("Usual"),
			HoldBelow: line.number("Hold below"), LookBelow: line.number("Look below"),
			LookAbove: line.number("Look above"), HoldAbove: line.number("Hold above"),
			HoldAt: line.yes("Hold at that too", false), Source: line.text("Source"), Place: line.place("Measure"),
		}
		for _, earlier := range l.book.Limits {
			if earlier.Species == species && earlier.Measure == limit.Measure {
				line.fault("Measure", "The limits of %s%s are there twice; the first time in cell %s. Keep one of the two lines.", limit.Measure, forSpecies(species), earlier.Place.Cell)
			}
		}
		line.checkBounds(limit)
		l.book.Limits = append(l.book.Limits, limit)
	}
}

// shippedLimits adds the default limits of what the board's table has no line for, because a rulebook that is older than a
// limit must not leave a figure unlimited. A board that wants no limit writes a line without bounds.
func (l *loading) shippedLimits() {
	limits := standardLimits()
	if l.book.Measures != measure.Standard() { // the board's own measures have numbers among the others
		limits = limitsShippedFor(l.book.Measures)
	}
	for _, limit := range limits {
		written := slices.ContainsFunc(l.book.Limits, func(own Limit) bool {
			return (own.Species == limit.Species || own.Species == "") && own.Measure == limit.Measure
		})
		if !written {
			l.book.Limits = append(l.book.Limits, limit)
		}
	}
}

// limitsShippedFor gives the default limits with their measures as a table of measures has them.
func limitsShippedFor(measures *measure.Table) []Limit {
	shipped := &loading{book: &Rulebook{Measures: measures, Tables: shippedTables()}}
	shipped.limits()
	return shipped.book.Limits
}

var standardLimits = sync.OnceValue(func() []Limit { return limitsShippedFor(measure.Standard()) })

// checkBounds looks whether the four bounds stand in order.
func (n line) checkBounds(limit Limit) {
	bounds := []struct {
		heading string
		bound   decimal.NullDecimal
	}{{"Hold below", limit.HoldBelow}, {"Look below", limit.LookBelow}, {"Look above", limit.LookAbove}, {"Hold above", limit.HoldAbove}}
	last := -1
	for number, bound := range bounds {
		if !bound.bound.Valid {
			continue
		}
		if last >= 0 && bound.bound.Decimal.LessThan(bounds[last].bound.Decimal) {
			n.fault(bound.heading, "The limits are crossed: %q is %s and %q is %s, which is higher.", bound.heading, bound.bound.Decimal, bounds[last].heading, bounds[last].bound.Decimal)
		}
		last = number
	}
	if last < 0 {
		n.warn("Hold below", "This line has no bound, so it limits nothing.")
	}
	if limit.HoldAt && !limit.HoldAbove.Valid {
		n.warn("Hold at that too", "There is no \"Hold above\" on this line, so this yes does nothing.")
	}
}

// compares reports whether a measure is of one of the kinds; otherwise it cannot stand here and that is a fault.
func (n line) compares(definition measure.Definition, kinds ...measure.Kind) bool {
	for _, kind := range kinds {
		if definition.Kind == kind {
			return true
		}
	}
	n.fault("Measure", "%s is %s, which this sheet cannot use.", phrase.Capital(definition.Name), kindWords[definition.Kind])
	return false
}

var kindWords = map[measure.Kind]string{
	measure.KindNumber: "a number", measure.KindText: "words and no figure", measure.KindDate: "a date", measure.KindMark: "a yes or no mark",
	measure.KindMarbling: "a degree of marbling", measure.KindMaturity: "a maturity", measure.KindGrade: "a grade", measure.KindLowering: "an amount of lowering",
}
