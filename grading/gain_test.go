package grading

import (
	"strconv"
	"testing"
	"time"

	"github.com/shopspring/decimal"

	"railbook/rules"
)

// serial is a date as a spreadsheet counts it: days from 1899-12-30.
func serial(t *testing.T, date string) string {
	t.Helper()
	day, err := time.Parse(time.DateOnly, date)
	if err != nil {
		t.Fatal(err)
	}
	return strconv.Itoa(int(day.Sub(time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)).Hours() / 24))
}

// workedSteer is an invented steer whose arithmetic was checked by hand.
func workedSteer(t *testing.T) map[rules.Measure]string {
	return map[rules.Measure]string{
		rules.BirthDate: serial(t, "2024-03-12"), rules.StartDate: serial(t, "2024-12-14"), rules.WeighInDate: serial(t, "2025-06-30"),
		rules.KillDate: serial(t, "2025-07-08"), rules.StartWeight: "620", rules.LiveWeight: "1345", rules.HotCarcassWeight: "846",
		rules.AdjustedFat: ".42", rules.RibeyeArea: "14.2", rules.InternalFat: "2.0", rules.Marbling: "440",
	}
}

func TestGainOfTheWorkedSteer(t *testing.T) {
	shrink := func(on rules.ShrinkOn) func(*rules.Rulebook) {
		return func(b *rules.Rulebook) { b.Settings.ShrinkOn, b.Settings.Shrink = on, exact("4") }
	}
	for _, test := range []struct {
		name    string
		change  func(*rules.Rulebook)
		measure rules.Measure
		want    string
		within  string
	}{
		{"725 lb in 198 days", nil, AverageDailyGain, "3.66", ".005"},
		{"1345 lb in 475 days", nil, WeightPerDayOfAge, "2.83", ".005"},
		{"846 lb in 483 days", nil, CarcassWeightPerDay, "1.75", ".005"},
		{"206 days to the kill", nil, DaysOnFeed, "206", "0"},
		{"to the kill", nil, CarcassGainPerDay, "2.36", ".005"},
		{"to the weigh-in", func(b *rules.Rulebook) { b.Settings.DaysEnd = rules.DaysEndWeighIn }, CarcassGainPerDay, "2.46", ".005"},
		{"yield grade", nil, rules.YieldGrade, "2.62", ".005"},
		{"cutability", nil, rules.Cutability, "50.63", ".005"},
		{"retail cuts", nil, RetailCutsPerDay, "0.887", ".0005"},
		{"value: 301.38 $/cwt", nil, ValuePerDayOnFeed, "7.12", ".005"},
		{"4 % off both weights", shrink(rules.ShrinkBoth), AverageDailyGain, "3.52", ".005"},
		{"4 % off the final weight", shrink(rules.ShrinkFinal), AverageDailyGain, "3.39", ".005"},
		{"shrink that is taken off nothing", shrink(rules.ShrinkNone), AverageDailyGain, "3.66", ".005"},
	} {
		t.Run(test.name, func(t *testing.T) {
			book := variant(func(b *rules.Rulebook) {
				b.Settings.StartDressingPercent = map[rules.Species]decimal.NullDecimal{rules.Beef: decimal.NewNullDecimal(exact("58"))}
				if test.change != nil {
					test.change(b)
				}
			})
			wantNear(t, gradedAs(t, rules.Beef, rules.OnTheRail, book, workedSteer(t)), test.measure, test.want, test.within)
		})
	}
}

func TestAMissingDateOrWeightLeavesTheGainBlankWithTheReason(t *testing.T) {
	for _, test := range []struct {
		without, measure rules.Measure
		reason           string
	}{
		{rules.KillDate, CarcassGainPerDay, "no kill date"},
		{rules.KillDate, CarcassWeightPerDay, "no kill date"},
		{rules.WeighInDate, AverageDailyGain, "no weigh-in date"},
		{rules.BirthDate, WeightPerDayOfAge, "no birth date"},
		{rules.BirthDate, RetailCutsPerDay, "no birth date"},
		{rules.StartDate, AverageDailyGain, "no start date"},
		{rules.StartWeight, AverageDailyGain, "no start weight"},
		{rules.StartWeight, ValuePerDayOnFeed, "no start weight"},
	} {
		steer := workedSteer(t)
		delete(steer, test.without)
		if figure := gradedBeef(t, steer).Figures[test.measure]; figure.Missing != test.reason {
			t.Errorf("without %s, %s is %q (%s), want %s", test.without, test.measure, figure.Value.Text, figure.Missing, test.reason)
		}
	}
	steer := workedSteer(t)
	steer[rules.StartDate], steer[rules.WeighInDate] = steer[rules.WeighInDate], steer[rules.StartDate]
	if figure := gradedBeef(t, steer).Figures[AverageDailyGain]; figure.Missing != noDaysOnTest {
		t.Errorf("with the dates exchanged the gain is %q (%s)", figure.Value.Text, figure.Missing)
	}
}

// The rule says which weights are shrunk, what share of the start weight was carcass, and on which day the feeding ended.
// 846 lb, 620 lb at the start, 58 %: (846 - 595.2 x .58)/206 with 4 % off the start weight; worked by hand, as are the others.
func TestGainFollowsTheRulebook(t *testing.T) {
	for _, test := range []struct {
		name    string
		change  func(*rules.Settings)
		measure rules.Measure
		want    string
	}{
		{"shrink comes off the start weight", func(s *rules.Settings) { s.ShrinkOn, s.Shrink = rules.ShrinkBoth, exact("4") }, CarcassGainPerDay, "2.431"},
		{"shrink on the final weight alone leaves the start weight", func(s *rules.Settings) { s.ShrinkOn, s.Shrink = rules.ShrinkFinal, exact("4") }, CarcassGainPerDay, "2.361"},
		{"another dressing percent", func(s *rules.Settings) {
			s.StartDressingPercent = map[rules.Species]decimal.NullDecimal{rules.Beef: decimal.NewNullDecimal(exact("55"))}
		}, CarcassGainPerDay, "2.451"},
		{"shrink on the weight per day of age", func(s *rules.Settings) { s.ShrinkOn, s.Shrink = rules.ShrinkFinal, exact("4") }, WeightPerDayOfAge, "2.718"},
		{"days to the weigh-in", func(s *rules.Settings) { s.DaysEnd = rules.DaysEndWeighIn }, DaysOnFeed, "198"},
		{"value per day to the weigh-in: 2.4566 x 301.38", func(s *rules.Settings) { s.DaysEnd = rules.DaysEndWeighIn }, ValuePerDayOnFeed, "7.404"},
		{"age is counted to the kill whatever the days on feed", func(s *rules.Settings) { s.DaysEnd = rules.DaysEndWeighIn }, CarcassWeightPerDay, "1.752"},
	} {
		t.Run(test.name, func(t *testing.T) {
			book := variant(func(b *rules.Rulebook) {
				b.Settings.StartDressingPercent = map[rules.Species]decimal.NullDecimal{rules.Beef: decimal.NewNullDecimal(exact("58"))}
				test.change(&b.Settings)
			})
			wantNear(t, gradedAs(t, rules.Beef, rules.OnTheRail, book, workedSteer(t)), test.measure, test.want, "0.0005")
		})
	}
	open := variant(func(b *rules.Rulebook) { b.Settings.StartDressingPercent = nil })
	g := gradedAs(t, rules.Beef, rules.OnTheRail, open, workedSteer(t))
	for _, measure := range []rules.Measure{CarcassGainPerDay, ValuePerDayOnFeed} {
		if figure := g.Figures[measure]; figure.Missing != "the rulebook sets no start dressing percent" || figure.Value.Text != "" {
			t.Errorf("%s without a start dressing percent is %q (%s)", measure, figure.Value.Text, figure.Missing)
		}
	}
	wantNear(t, g, AverageDailyGain, "3.66", ".005")
}

// Every measure of gain needs its dates and weights: without any one of them it is blank and says which, and never 0.
func TestEveryGainMeasureNeedsItsDatesAndWeights(t *testing.T) {
	needs := map[rules.Measure][]rules.Measure{
		AverageDailyGain:    {rules.StartDate, rules.WeighInDate, rules.StartWeight, rules.LiveWeight},
		WeightPerDayOfAge:   {rules.BirthDate, rules.WeighInDate, rules.LiveWeight},
		CarcassWeightPerDay: {rules.BirthDate, rules.KillDate, rules.HotCarcassWeight},
		CarcassGainPerDay:   {rules.StartDate, rules.KillDate, rules.StartWeight, rules.HotCarcassWeight},
		RetailCutsPerDay:    {rules.BirthDate, rules.KillDate, rules.HotCarcassWeight, rules.RibeyeArea, rules.AdjustedFat},
		ValuePerDayOnFeed:   {rules.StartDate, rules.KillDate, rules.StartWeight, rules.HotCarcassWeight, rules.Marbling},
	}
	whole := gradedBeef(t, workedSteer(t))
	for measure, inputs := range needs {
		if figure := whole.Figures[measure]; figure.Missing != "" {
			t.Errorf("%s of the whole steer is missing: %s", measure, figure.Missing)
		}
		for _, input := range inputs {
			steer := workedSteer(t)
			delete(steer, input)
			g := gradedBeef(t, steer)
			figure := g.Figures[measure]
			if figure.Missing == "" || figure.Value.Text != "" || !figure.Value.Number.IsZero() {
				t.Errorf("without %s, %s is %q (%s)", input, measure, figure.Value.Text, figure.Missing)
			}
			if formula, has := g.Formula(measure, sheetReferences{}); has {
				t.Errorf("without %s, %s has the formula %s", input, measure, formula)
			}
		}
	}
}
