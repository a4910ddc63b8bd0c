package grading

import (
	"strconv"
	"testing"
	"time"

	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
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
func workedSteer(t *testing.T) map[measure.ID]string {
	return map[measure.ID]string{
		measure.BirthDate: serial(t, "2024-03-12"), measure.StartDate: serial(t, "2024-12-14"), measure.WeighInDate: serial(t, "2025-06-30"),
		measure.KillDate: serial(t, "2025-07-08"), measure.StartWeight: "620", measure.LiveWeight: "1345", measure.HotCarcassWeight: "846",
		measure.AdjustedFat: ".42", measure.RibeyeArea: "14.2", measure.InternalFat: "2.0", measure.Marbling: "440",
	}
}

func TestGainOfTheWorkedSteer(t *testing.T) {
	shrink := func(on rules.ShrinkOn) func(*rules.Rulebook) {
		return func(b *rules.Rulebook) { b.Settings.ShrinkOn, b.Settings.Shrink = on, Exact("4") }
	}
	for _, test := range []struct {
		name    string
		change  func(*rules.Rulebook)
		measure measure.ID
		want    string
		within  string
	}{
		{"725 lb in 198 days", nil, measure.AverageDailyGain, "3.66", ".005"},
		{"1345 lb in 475 days", nil, measure.WeightPerDayOfAge, "2.83", ".005"},
		{"846 lb in 483 days", nil, measure.CarcassWeightPerDay, "1.75", ".005"},
		{"206 days to the kill", nil, measure.DaysOnFeed, "206", "0"},
		{"to the kill", nil, measure.CarcassGainPerDay, "2.36", ".005"},
		{"to the weigh-in", func(b *rules.Rulebook) { b.Settings.DaysEnd = rules.DaysEndWeighIn }, measure.CarcassGainPerDay, "2.46", ".005"},
		{"yield grade", nil, measure.YieldGrade, "2.62", ".005"},
		{"cutability", nil, measure.Cutability, "50.63", ".005"},
		{"retail cuts", nil, measure.RetailCutsPerDay, "0.887", ".0005"},
		{"value: 301.38 $/cwt", nil, measure.ValuePerDayOnFeed, "7.12", ".005"},
		{"4 % off both weights", shrink(rules.ShrinkBoth), measure.AverageDailyGain, "3.52", ".005"},
		{"4 % off the final weight", shrink(rules.ShrinkFinal), measure.AverageDailyGain, "3.39", ".005"},
		{"shrink that is taken off nothing", shrink(rules.ShrinkNone), measure.AverageDailyGain, "3.66", ".005"},
	} {
		t.Run(test.name, func(t *testing.T) {
			book := variant(func(b *rules.Rulebook) {
				b.Settings.StartDressingPercent = map[rules.Species]decimal.NullDecimal{rules.Beef: decimal.NewNullDecimal(Exact("58"))}
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
		without, measure measure.ID
		reason           string
	}{
		{measure.KillDate, measure.CarcassGainPerDay, "no kill date"},
		{measure.KillDate, measure.CarcassWeightPerDay, "no kill date"},
		{measure.WeighInDate, measure.AverageDailyGain, "no weigh-in date"},
		{measure.BirthDate, measure.WeightPerDayOfAge, "no birth date"},
		{measure.BirthDate, measure.RetailCutsPerDay, "no birth date"},
		{measure.StartDate, measure.AverageDailyGain, "no start date"},
		{measure.StartWeight, measure.AverageDailyGain, "no start weight"},
		{measure.StartWeight, measure.ValuePerDayOnFeed, "no start weight"},
	} {
		steer := workedSteer(t)
		delete(steer, test.without)
		if figure := gradedBeef(t, steer).FigureOf(test.measure); figure.Missing != test.reason {
			t.Errorf("without %s, %s is %q (%s), want %s", test.without, test.measure, figure.Value.Text, figure.Missing, test.reason)
		}
	}
	steer := workedSteer(t)
	steer[measure.StartDate], steer[measure.WeighInDate] = steer[measure.WeighInDate], steer[measure.StartDate]
	if figure := gradedBeef(t, steer).FigureOf(measure.AverageDailyGain); figure.Missing != noDaysOnTest {
		t.Errorf("with the dates exchanged the gain is %q (%s)", figure.Value.Text, figure.Missing)
	}
}

// The rule says which weights are shrunk, what share of the start weight was carcass, and on which day the feeding ended.
// 846 lb, 620 lb at the start, 58 %: (846 - 595.2 x .58)/206 with 4 % off the start weight; worked by hand, as are the others.
func TestGainFollowsTheRulebook(t *testing.T) {
	for _, test := range []struct {
		name    string
		change  func(*rules.Settings)
		measure measure.ID
		want    string
	}{
		{"shrink comes off the start weight", func(s *rules.Settings) { s.ShrinkOn, s.Shrink = rules.ShrinkBoth, Exact("4") }, measure.CarcassGainPerDay, "2.431"},
		{"shrink on the final weight alone leaves the start weight", func(s *rules.Settings) { s.ShrinkOn, s.Shrink = rules.ShrinkFinal, Exact("4") }, measure.CarcassGainPerDay, "2.361"},
		{"another dressing percent", func(s *rules.Settings) {
			s.StartDressingPercent = map[rules.Species]decimal.NullDecimal{rules.Beef: decimal.NewNullDecimal(Exact("55"))}
		}, measure.CarcassGainPerDay, "2.451"},
		{"shrink on the weight per day of age", func(s *rules.Settings) { s.ShrinkOn, s.Shrink = rules.ShrinkFinal, Exact("4") }, measure.WeightPerDayOfAge, "2.718"},
		{"days to the weigh-in", func(s *rules.Settings) { s.DaysEnd = rules.DaysEndWeighIn }, measure.DaysOnFeed, "198"},
		{"value per day to the weigh-in: 2.4566 x 301.38", func(s *rules.Settings) { s.DaysEnd = rules.DaysEndWeighIn }, measure.ValuePerDayOnFeed, "7.404"},
		{"age is counted to the kill whatever the days on feed", func(s *rules.Settings) { s.DaysEnd = rules.DaysEndWeighIn }, measure.CarcassWeightPerDay, "1.752"},
	} {
		t.Run(test.name, func(t *testing.T) {
			book := variant(func(b *rules.Rulebook) {
				b.Settings.StartDressingPercent = map[rules.Species]decimal.NullDecimal{rules.Beef: decimal.NewNullDecimal(Exact("58"))}
				test.change(&b.Settings)
			})
			wantNear(t, gradedAs(t, rules.Beef, rules.OnTheRail, book, workedSteer(t)), test.measure, test.want, "0.0005")
		})
	}
	open := variant(func(b *rules.Rulebook) { b.Settings.StartDressingPercent = nil })
	g := gradedAs(t, rules.Beef, rules.OnTheRail, open, workedSteer(t))
	for _, id := range []measure.ID{measure.CarcassGainPerDay, measure.ValuePerDayOnFeed} {
		if figure := g.FigureOf(id); figure.Missing != "the rulebook sets no start dressing percent" || figure.Value.Text != "" {
			t.Errorf("%s without a start dressing percent is %q (%s)", id, figure.Value.Text, figure.Missing)
		}
	}
	wantNear(t, g, measure.AverageDailyGain, "3.66", ".005")
}

// Every measure of gain needs its dates and weights: without any one of them it is blank and says which, and never 0.
func TestEveryGainMeasureNeedsItsDatesAndWeights(t *testing.T) {
	needs := map[measure.ID][]measure.ID{
		measure.AverageDailyGain:    {measure.StartDate, measure.WeighInDate, measure.StartWeight, measure.LiveWeight},
		measure.WeightPerDayOfAge:   {measure.BirthDate, measure.WeighInDate, measure.LiveWeight},
		measure.CarcassWeightPerDay: {measure.BirthDate, measure.KillDate, measure.HotCarcassWeight},
		measure.CarcassGainPerDay:   {measure.StartDate, measure.KillDate, measure.StartWeight, measure.HotCarcassWeight},
		measure.RetailCutsPerDay:    {measure.BirthDate, measure.KillDate, measure.HotCarcassWeight, measure.RibeyeArea, measure.AdjustedFat},
		measure.ValuePerDayOnFeed:   {measure.StartDate, measure.KillDate, measure.StartWeight, measure.HotCarcassWeight, measure.Marbling},
	}
	whole := gradedBeef(t, workedSteer(t))
	for id, inputs := range needs {
		if figure := whole.FigureOf(id); figure.Missing != "" {
			t.Errorf("%s of the whole steer is missing: %s", id, figure.Missing)
		}
		for _, input := range inputs {
			steer := workedSteer(t)
			delete(steer, input)
			g := gradedBeef(t, steer)
			figure := g.FigureOf(id)
			if figure.Missing == "" || figure.Value.Text != "" || !figure.Value.Number.IsZero() {
				t.Errorf("without %s, %s is %q (%s)", input, id, figure.Value.Text, figure.Missing)
			}
			if formula, has := g.Formula(id, sheetReferences{}); has {
				t.Errorf("without %s, %s has the formula %s", input, id, formula)
			}
		}
	}
}
