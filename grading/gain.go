package grading

import (
	"slices"

	"github.com/shopspring/decimal"

	"railbook/rules"
)

// The measures of gain and production. They are plain arithmetic of dates and weights (common practice); the rulebook
// says which weights are shrunk, what share of the start weight was carcass, and on which day the feeding ended.
const (
	FinalWeight         rules.Measure = "final weight"
	DaysOnFeed          rules.Measure = "days on feed"
	AverageDailyGain    rules.Measure = "average daily gain"
	WeightPerDayOfAge   rules.Measure = "weight per day of age"
	CarcassWeightPerDay rules.Measure = "carcass weight per day of age"
	CarcassGainPerDay   rules.Measure = "carcass gain per day"
	RetailCutsPerDay    rules.Measure = "retail cuts per day of age"
	ValuePerDayOnFeed   rules.Measure = "value per day on feed"
)

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
		definition{RetailCutsPerDay, arithmetic{{of: quotient{
			over:  product{figure(CarcassWeightPerDay), figure(rules.Cutability)},
			under: linear("100"), places: 6,
		}}}},
		Column{Measure: RetailCutsPerDay, Heading: "Retail cuts per day of age", Decimals: 3},
	}
	// valuePerDay is what a day of feeding added in carcass, in $ at the carcass's own price.
	valuePerDay = gainMeasure{
		definition{ValuePerDayOnFeed, arithmetic{{of: quotient{
			over: product{figure(CarcassGainPerDay), figure(rules.Price)}, under: linear("100"), places: 6,
		}}}},
		Column{Measure: ValuePerDayOnFeed, Heading: "Value $/day", Decimals: 2},
	}
)

// gain gives the measures of gain; lastDay is the day on which the carcass weight was that of the animal.
func gain(lastDay rules.Measure, more ...gainMeasure) []definition {
	all := []definition{
		{FinalWeight, arithmetic{
			{of: shrunk{reading(rules.FairWeight), finalIsShrunk}},
			{of: shrunk{reading(rules.LiveWeight), finalIsShrunk}},
		}},
		{DaysOnFeed, arithmetic{
			{of: difference{reading(rules.WeighInDate), reading(rules.StartDate)}, when: endsAtWeighIn(lastDay)},
			{of: difference{reading(rules.KillDate), reading(rules.StartDate)}, when: not(endsAtWeighIn(lastDay))},
		}},
		{AverageDailyGain, arithmetic{{of: quotient{
			over:  difference{figure(FinalWeight), shrunk{reading(rules.StartWeight), startIsShrunk}},
			under: difference{reading(rules.WeighInDate), reading(rules.StartDate)}, places: 6, zero: noDaysOnTest,
		}}}},
		{WeightPerDayOfAge, arithmetic{{of: quotient{
			over: figure(FinalWeight), under: difference{reading(rules.WeighInDate), reading(rules.BirthDate)}, places: 6, zero: noDaysOfAge,
		}}}},
		{CarcassWeightPerDay, arithmetic{{of: quotient{
			over: figure(rules.HotCarcassWeight), under: difference{reading(lastDay), reading(rules.BirthDate)}, places: 6, zero: noDaysOfAge,
		}}}},
		{CarcassGainPerDay, arithmetic{{of: quotient{
			over: difference{figure(rules.HotCarcassWeight), quotient{
				over:  product{shrunk{reading(rules.StartWeight), startIsShrunk}, startDressing},
				under: linear("100"), places: 6,
			}},
			under: figure(DaysOnFeed), places: 6, zero: noDaysOnFeed,
		}}}},
	}
	for _, one := range more {
		all = append(all, one.definition)
	}
	return all
}

// hasDates reports whether anything was read that only gain is computed from. Most sheets have nothing.
func hasDates(carcass *Carcass) bool {
	for _, measure := range []rules.Measure{rules.BirthDate, rules.StartDate, rules.StartWeight, rules.WeighInDate, rules.KillDate} {
		if _, read := carcass.Readings[measure]; read {
			return true
		}
	}
	return false
}

// gainColumns gives the columns of the measures of gain, in the order of gain.
func gainColumns(more ...gainMeasure) []Column {
	all := []Column{
		{Measure: AverageDailyGain, Heading: "Average daily gain", Decimals: 2},
		{Measure: WeightPerDayOfAge, Heading: "Weight per day of age", Decimals: 2},
		{Measure: CarcassWeightPerDay, Heading: "Carcass weight per day of age", Decimals: 2},
		{Measure: CarcassGainPerDay, Heading: "Carcass gain lb/day", Decimals: 2},
	}
	for _, one := range more {
		all = append(all, one.column)
	}
	return slices.Clip(all)
}

var startDressing = setting{"start dressing percent", func(s *rules.Settings, species rules.Species) decimal.NullDecimal {
	return s.StartDressingPercent[species]
}}

func endsAtWeighIn(lastDay rules.Measure) func(*rules.Settings) bool {
	return func(s *rules.Settings) bool { return lastDay == rules.WeighInDate || s.DaysEnd == rules.DaysEndWeighIn }
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
