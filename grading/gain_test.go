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
