package grading

import (
	"slices"

	"github.com/shopspring/decimal"

	"railbook/rules"
	"railbook/rules/measure"
)

// The figures of gain and production are plain arithmetic of dates and weights (common practice); the rulebook says which
// weights are shrunk, what share of the start weight was carcass, and on which day the feeding ended.

// What is said where the dates cannot be right.
const (
	noDaysOnTest = "the weigh-in date is not after the start date"
	noDaysOnFeed = "there are no days on feed between the dates"
	noDaysOfAge  = "the birth date is not before the day of the weight"
)

// gainMeasure is one of the measures of gain that not every species has.
type gainMeasure struct {
	definition definition
	column     Column
}

var (
	// retailCutsPerDay is lb of retail cuts for each day of age.
	retailCutsPerDay = gainMeasure{
		definition{measure.RetailCutsPerDay, arithmetic{{of: quotient{
			over:  product{figure(measure.CarcassWeightPerDay), figure(measure.Cutability)},
			under: linear("100"), places: 6,
		}}}},
		Column{Measure: measure.RetailCutsPerDay, Heading: "Retail cuts per day of age", Decimals: 3},
	}
	// valuePerDay is what a day of feeding added in carcass, in $ at the carcass's own price.
	valuePerDay = gainMeasure{
		definition{measure.ValuePerDayOnFeed, arithmetic{{of: quotient{
			over: product{figure(measure.CarcassGainPerDay), figure(measure.Price)}, under: linear("100"), places: 6,
		}}}},
		Column{Measure: measure.ValuePerDayOnFeed, Heading: "Value $/day", Decimals: 2},
	}
)

// gain gives the measures of gain; lastDay is the day on which the carcass weight was that of the animal.
func gain(lastDay measure.ID, more ...gainMeasure) []definition {
	all := []definition{
		{measure.FinalWeight, arithmetic{
			{of: shrunk{reading(measure.FairWeight), finalIsShrunk}},
			{of: shrunk{reading(measure.LiveWeight), finalIsShrunk}},
		}},
		{measure.DaysOnFeed, arithmetic{
			{of: difference{reading(measure.WeighInDate), reading(measure.StartDate)}, when: endsAtWeighIn(lastDay)},
			{of: difference{reading(measure.KillDate), reading(measure.StartDate)}, when: not(endsAtWeighIn(lastDay))},
		}},
		{measure.AverageDailyGain, arithmetic{{of: quotient{
			over:  difference{figure(measure.FinalWeight), shrunk{reading(measure.StartWeight), startIsShrunk}},
			under: difference{reading(measure.WeighInDate), reading(measure.StartDate)}, places: 6, zero: noDaysOnTest,
		}}}},
		{measure.WeightPerDayOfAge, arithmetic{{of: quotient{
			over: figure(measure.FinalWeight), under: difference{reading(measure.WeighInDate), reading(measure.BirthDate)}, places: 6, zero: noDaysOfAge,
		}}}},
		{measure.CarcassWeightPerDay, arithmetic{{of: quotient{
			over: figure(measure.HotCarcassWeight), under: difference{reading(lastDay), reading(measure.BirthDate)}, places: 6, zero: noDaysOfAge,
		}}}},
		{measure.CarcassGainPerDay, arithmetic{{of: quotient{
			over: difference{figure(measure.HotCarcassWeight), quotient{
				over:  product{shrunk{reading(measure.StartWeight), startIsShrunk}, startDressing},
				under: linear("100"), places: 6,
			}},
			under: figure(measure.DaysOnFeed), places: 6, zero: noDaysOnFeed,
		}}}},
	}
	for _, one := range more {
		all = append(all, one.definition)
	}
	return all
}

// hasDates reports whether anything was read that only gain is computed from. Most sheets have nothing.
func hasDates(carcass *Carcass) bool {
	for _, id := range []measure.ID{measure.BirthDate, measure.StartDate, measure.StartWeight, measure.WeighInDate, measure.KillDate} {
		if _, read := carcass.Readings[id]; read {
			return true
		}
	}
	return false
}

// gainColumns gives the columns of the measures of gain, in the order of gain.
func gainColumns(more ...gainMeasure) []Column {
	all := []Column{
		{Measure: measure.AverageDailyGain, Heading: "Average daily gain", Decimals: 2},
		{Measure: measure.WeightPerDayOfAge, Heading: "Weight per day of age", Decimals: 2},
		{Measure: measure.CarcassWeightPerDay, Heading: "Carcass weight per day of age", Decimals: 2},
		{Measure: measure.CarcassGainPerDay, Heading: "Carcass gain lb/day", Decimals: 2},
	}
	for _, one := range more {
		all = append(all, one.column)
	}
	return slices.Clip(all)
}

var startDressing = setting{"start dressing percent", func(s *rules.Settings, species rules.Species) decimal.NullDecimal {
	return s.StartDressingPercent[species]
}}

func endsAtWeighIn(lastDay measure.ID) func(*rules.Settings) bool {
	return func(s *rules.Settings) bool {
		return lastDay == measure.WeighInDate || s.DaysEnd == rules.DaysEndWeighIn
	}
}

func not(of func(*rules.Settings) bool) func(*rules.Settings) bool {
	return func(s *rules.Settings) bool { return !of(s) }
}

func finalIsShrunk(settings *rules.Settings) bool {
	return settings.ShrinkOn == rules.ShrinkFinal || settings.ShrinkOn == rules.ShrinkBoth
}

func startIsShrunk(settings *rules.Settings) bool { return settings.ShrinkOn == rules.ShrinkBoth }

// shrunk is a live weight less the rulebook's shrink, where the rulebook shrinks that weight.
type shrunk struct {
	of expression
	is func(*rules.Settings) bool
}

func (s shrunk) operands() []expression { return s.of.operands() }

func (s shrunk) keeps(g *Graded) decimal.Decimal {
	if !s.is(&g.book.Settings) {
		return one
	}
	return one.Sub(g.book.Settings.Shrink.Shift(-2))
}

func (s shrunk) value(g *Graded) (decimal.Decimal, string) {
	weight, problem := s.of.value(g)
	return weight.Mul(s.keeps(g)), problem
}

func (s shrunk) write(f *formula, tightness int) {
	keeps := s.keeps(f.graded)
	if keeps.Equal(one) {
		s.of.write(f, tightness)
		return
	}
	defer f.brackets(tightness > asAddend)()
	s.of.write(f, asFactor)
	f.add("*")
	f.number(keeps)
}
