package validate

import (
	"fmt"
	"strings"
	"testing"

	"railbook/grading"
	"railbook/rules"
)

// A figure at a bound of the default rulebook has not passed it and one just beyond has: the bounds are those of
// rules/tables/limits.csv, which the tests of rules hold to their sources.
func TestEitherSideOfEveryReadLimit(t *testing.T) {
	for _, row := range []struct {
		basis   rules.Basis
		species rules.Species
		written string
		level   Level // empty where nothing is to be said of the cell
	}{
		{rules.LiveScan, rules.Beef, "intramuscular fat=50.7", Hold},
		{rules.LiveScan, rules.Beef, "intramuscular fat=-2.62", Hold},
		{rules.LiveScan, rules.Beef, "intramuscular fat=.454", Look},
		{rules.LiveScan, rules.Beef, "intramuscular fat=-0.01", Hold},
		{rules.LiveScan, rules.Beef, "intramuscular fat=0", Look},
		{rules.LiveScan, rules.Beef, "intramuscular fat=1.49", Look},
		{rules.LiveScan, rules.Beef, "intramuscular fat=1.5", ""},
		{rules.LiveScan, rules.Beef, "intramuscular fat=11", ""},
		{rules.LiveScan, rules.Beef, "intramuscular fat=11.01", Look},
		{rules.LiveScan, rules.Beef, "intramuscular fat=20", Look},
		{rules.LiveScan, rules.Beef, "intramuscular fat=20.01", Hold},
	} {
		t.Run(fmt.Sprintf("%s %s", row.species, row.written), func(t *testing.T) {
			lot := drawLot(t, row.species, firstOf(t, row.species).but(t, row.written))
			setBasis(lot, row.basis)
			measure, _, _ := strings.Cut(row.written, "=")
			if got := levelOf(Check(lot), rules.Measure(measure)); got != row.level {
				t.Errorf("level %q, want %q", got, row.level)
			}
		})
	}
}

// setBasis grades a lot again on another basis.
func setBasis(lot *Lot, basis rules.Basis) {
	for _, graded := range lot.Carcasses {
		graded.Basis = basis
		*graded = *grading.Grade(graded.Carcass, lot.Book)
	}
}

// levelOf gives the gravest level at which a measure's cell is named; empty where it is at most noted.
func levelOf(findings []Finding, measure rules.Measure) Level {
	level := Level("")
	for _, finding := range findings {
		if finding.Measure == measure && finding.Level != Note && level != Hold {
			level = finding.Level
		}
	}
	return level
}
