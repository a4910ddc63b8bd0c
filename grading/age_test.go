package grading

import (
	"strconv"
	"testing"
	"time"

	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// A month is over when the day of birth comes again; the calendar itself is the outside.
func TestAgeInWholeMonths(t *testing.T) {
	for _, test := range []struct{ born, killed, want string }{
		{"2024-03-12", "2025-07-11", "15"},
		{"2024-03-12", "2025-07-12", "16"},
		{"2024-12-31", "2025-01-30", "0"},
		{"2024-12-31", "2025-01-31", "1"},
		{"2024-01-31", "2024-02-29", "0"}, // February has no 31st
		{"2024-01-31", "2024-03-01", "1"},
		{"2022-06-01", "2025-06-01", "36"},
	} {
		serial := func(day string) string {
			of, _ := time.Parse(time.DateOnly, day)
			return strconv.Itoa(int(of.Sub(time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)).Hours() / 24))
		}
		g := gradedBeef(t, map[measure.ID]string{measure.BirthDate: serial(test.born), measure.KillDate: serial(test.killed)})
		if got := g.FigureOf(measure.AgeInMonths); got.Value.Text != test.want {
			t.Errorf("born %s, killed %s: %s (%s), want %s", test.born, test.killed, got.Value.Text, got.Missing, test.want)
		}
	}
	if figure := gradedBeef(t, map[measure.ID]string{measure.BirthDate: "45800", measure.KillDate: "45000"}).FigureOf(measure.AgeInMonths); figure.Missing != noDaysOfAge {
		t.Errorf("born after the kill: %+v", figure)
	}
}

// Products are rounded once: 846 lb of 50.630396 % cutability in 483 days are 0.886826… lb a day, worked out by long division.
func TestProductsAreRoundedOnce(t *testing.T) {
	steer := workedSteer(t)
	g := gradedBeef(t, steer)
	cutability, _ := g.Figure(measure.Cutability)
	price, _ := g.Figure(measure.Price)
	days := Exact("483")
	want := Exact("846").Mul(cutability.Number).DivRound(days.Mul(Exact("100")), 6)
	wantNumber(t, g, measure.RetailCutsPerDay, want.String())
	gain := Exact("846").Sub(Exact("620").Mul(Exact("0.58")))
	book := variant(func(b *rules.Rulebook) { b.Settings.StartDressingPercent = dressing("58") })
	wantNumber(t, gradedAs(t, rules.Beef, rules.OnTheRail, book, steer), measure.ValuePerDayOnFeed, gain.Mul(price.Number).DivRound(Exact("20600"), 6).String())
}

func dressing(percent string) map[rules.Species]decimal.NullDecimal {
	return map[rules.Species]decimal.NullDecimal{rules.Beef: decimal.NewNullDecimal(Exact(percent))}
}
