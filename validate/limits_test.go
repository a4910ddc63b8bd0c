package validate

import (
	"testing"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// A scan of 50.7 %, -2.62 % or .454 % of fat in the ribeye would otherwise win or lose a class.
func TestScannedFatIsLimited(t *testing.T) {
	for written, want := range map[string]Level{
		"50.7": Hold, "-2.62": Hold, "-0.01": Hold, ".454": Look, "0": Look, "1.49": Look, "1.5": "", "11": "", "11.01": Look, "20.01": Hold,
	} {
		batch := drawLot(t, rules.Beef, trueRow(t).but(t, "intramuscular fat="+written))
		setBasis(batch, rules.LiveScan)
		if got := levelOf(Check(batch), measure.IntramuscularFat); got != want {
			t.Errorf("%s: level %q, want %q", written, got, want)
		}
	}
}

// A figure at a bound of the default rulebook has not passed it, unless the line says so, and one just beyond has. The
// bounds themselves are held to their sources by the tests of rules.
func TestEitherSideOfEveryLimit(t *testing.T) {
	for _, line := range rules.Default().Limits {
		definition, _ := measure.Define(line.Measure)
		step := decimal.New(1, -int32(definition.Decimals)-1)
		of := newLimit(line)
		for _, bound := range []struct {
			at     decimal.NullDecimal
			beyond decimal.Decimal
			level  Level
			also   bool
		}{
			{line.HoldBelow, step.Neg(), Hold, line.HoldAt},
			{line.LookBelow, step.Neg(), Look, false},
			{line.LookAbove, step, Look, false},
			{line.HoldAbove, step, Hold, line.HoldAt},
		} {
			if !bound.at.Valid {
				continue
			}
			at, beyond := of.judge(bound.at.Decimal), of.judge(bound.at.Decimal.Add(bound.beyond))
			if (at == bound.level) != bound.also || beyond != bound.level {
				t.Errorf("%s %s at %s: %q, just beyond: %q", line.Species, line.Measure, bound.at.Decimal, at, beyond)
			}
		}
	}
}

// Whatever measure a sheet can give, an absurd value of it is on hold or looked at. Words, marks and grades have no absurd
// value: what is none of theirs is refused when the cell is read.
func TestEveryReadMeasureIsLimited(t *testing.T) {
	const dates = "birth date=45000; start date=45200; weigh-in date=45500; kill date=45501"
	for _, species := range []rules.Species{rules.Beef, rules.Swine, rules.Lamb, rules.Goat} {
		for _, definition := range measure.Standard().Definitions() {
			switch definition.Kind {
			case measure.KindNumber, measure.KindDate, measure.KindMarbling, measure.KindMaturity:
			default:
				continue
			}
			if definition.Computed || !definition.For(string(species)) {
				continue
			}
			for _, absurd := range []string{"77777", "-7777"} {
				row := firstOf(t, species)
				if definition.Kind == measure.KindDate {
					row = row.but(t, dates)
				}
				batch := drawLot(t, species, row.but(t, definition.Name+"="+absurd))
				if level := levelOf(Check(batch), definition.ID); level == "" {
					t.Errorf("%s: %s %s is neither held nor looked at: %q", species, definition.ID, absurd, said(Check(batch)))
				}
			}
		}
	}
}

// setBasis grades a lot again on another basis.
func setBasis(batch *Batch, basis rules.Basis) {
	for _, graded := range batch.Carcasses {
		graded.Basis = basis
		*graded = *grading.Grade(graded.Carcass, batch.Book)
	}
}

// levelOf gives the gravest level at which a measure's cell is named; empty where it is at most noted.
func levelOf(findings []Finding, id measure.ID) Level {
	level := Level("")
	for _, finding := range findings {
		if finding.Measure == id && finding.Level != Note && level != Hold {
			level = finding.Level
		}
	}
	return level
}
