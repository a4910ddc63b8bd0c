package grading

import (
	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// The figures of gain and production are plain arithmetic of dates and weights (common practice); the rulebook says which
// weights are shrunk, what share of the start weight was carcass, and on which day the feeding ended.

// What is said where the dates cannot be right.
const (
	noDaysOnTest = "the weigh-in date is not after the start date"
	noDaysOnFeed = "there are no days on feed between the dates"
	noDaysOfAge  = "the birth date is not before the day of the weight"
)

// retailCutsPerDay is lb of retail cuts for each day of age, rounded once.
func retailCutsPerDay(lastDay measure.ID) definition {
	return definition{measure.RetailCutsPerDay, Arithmetic{{Of: Quotient{
		Over:  product{ComputedFigure(measure.HotCarcassWeight), ComputedFigure(measure.Cutability)},
		Under: product{linear("100"), difference{reading(lastDay), reading(measure.BirthDate)}}, Places: 6, zero: noDaysOfAge,
	}}}}
}

var (
	// carcassGain is lb of carcass put on since the start.
	carcassGain = difference{ComputedFigure(measure.HotCarcassWeight), product{product{shrunk{reading(measure.StartWeight), startIsShrunk}, startDressing}, linear("0.01")}}

	// valuePerDay is what a day of feeding added in carcass, in $ at the carcass's own price, rounded once.
	valuePerDay = definition{measure.ValuePerDayOnFeed, Arithmetic{{Of: Quotient{
		Over:  product{carcassGain, ComputedFigure(measure.Price)},
		Under: product{linear("100"), ComputedFigure(measure.DaysOnFeed)}, Places: 6, zero: noDaysOnFeed,
	}}}}
)

// gain gives the measures of gain; lastDay is the day on which the carcass weight was that of the animal.
func gain(lastDay measure.ID, more ...definition) []definition {
	return append([]definition{
		{measure.FinalWeight, Arithmetic{
			{Of: shrunk{reading(measure.FairWeight), finalIsShrunk}},
			{Of: shrunk{reading(measure.LiveWeight), finalIsShrunk}},
		}},
		{measure.DaysOnFeed, Arithmetic{
			{Of: difference{reading(measure.WeighInDate), reading(measure.StartDate)}, When: endsAtWeighIn(lastDay)},
			{Of: difference{reading(measure.KillDate), reading(measure.StartDate)}, When: not(endsAtWeighIn(lastDay))},
		}},
		{measure.AgeInMonths, Arithmetic{{Of: wholeMonths{from: reading(measure.BirthDate), to: reading(lastDay)}}}},
		{measure.AverageDailyGain, Arithmetic{{Of: Quotient{
			Over:  difference{ComputedFigure(measure.FinalWeight), shrunk{reading(measure.StartWeight), startIsShrunk}},
			Under: difference{reading(measure.WeighInDate), reading(measure.StartDate)}, Places: 6, zero: noDaysOnTest,
		}}}},
		{measure.WeightPerDayOfAge, Arithmetic{{Of: Quotient{
			Over: ComputedFigure(measure.FinalWeight), Under: difference{reading(measure.WeighInDate), reading(measure.BirthDate)}, Places: 6, zero: noDaysOfAge,
		}}}},
		{measure.CarcassWeightPerDay, Arithmetic{{Of: Quotient{
			Over: ComputedFigure(measure.HotCarcassWeight), Under: difference{reading(lastDay), reading(measure.BirthDate)}, Places: 6, zero: noDaysOfAge,
		}}}},
		{measure.CarcassGainPerDay, Arithmetic{{Of: Quotient{
			Over: carcassGain, Under: ComputedFigure(measure.DaysOnFeed), Places: 6, zero: noDaysOnFeed,
		}}}},
	}, more...)
}

// hasDates reports whether anything was read that only gain is computed from. Most sheets have nothing.
func hasDates(carcass *Carcass) bool {
	for _, id := range []measure.ID{measure.BirthDate, measure.StartDate, measure.StartWeight, measure.WeighInDate, measure.KillDate} {
		if _, read := carcass.Written(id); read {
			return true
		}
	}
	return false
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
	of Expression
	is func(*rules.Settings) bool
}

func (s shrunk) operands() []Expression { return s.of.operands() }

func (s shrunk) keeps(g *Graded) decimal.Decimal {
	if !s.is(&g.Book.Settings) {
		return One
	}
	return One.Sub(g.Book.Settings.Shrink.Shift(-2))
}

func (s shrunk) value(g *Graded) (measure.Value, string) {
	weight, problem := s.of.value(g)
	return number(weight.Number.Mul(s.keeps(g))), problem
}

func (s shrunk) shape(shape []byte, g *Graded) []byte { return s.of.shape(shape, g) }

func (s shrunk) write(f *formula, tightness int) {
	keeps := s.keeps(f.graded)
	if keeps.Equal(One) {
		s.of.write(f, tightness)
		return
	}
	defer f.brackets(tightness > asAddend)()
	s.of.write(f, asFactor)
	f.add("*")
	f.number(keeps)
}
