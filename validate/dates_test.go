package validate

import (
	"slices"
	"strings"
	"testing"

	"railbook/rules"
	"railbook/rules/measure"
)

// Either side of every bound of dates: the order, three years, two months, and the ages of each species.
func TestDates(t *testing.T) {
	for _, c := range []struct {
		species rules.Species
		row     string
		at      measure.ID
		level   Level
	}{
		{rules.Beef, "birth date=2024-10-14; start date=2024-10-15; weigh-in date=2025-08-03; kill date=2025-08-03", measure.StartDate, ""},
		{rules.Beef, "birth date=2024-10-15; start date=2024-10-15; weigh-in date=2025-08-03; kill date=2025-08-03", measure.BirthDate, Hold},
		{rules.Beef, "start date=2025-08-02; weigh-in date=2025-08-03", measure.StartDate, ""},
		{rules.Beef, "start date=2025-08-03; weigh-in date=2025-08-03", measure.StartDate, Hold},
		{rules.Beef, "start date=2025-08-03; kill date=2025-08-03", measure.StartDate, Hold},
		{rules.Beef, "birth date=2025-08-03; weigh-in date=2025-08-03", measure.BirthDate, Hold},
		{rules.Beef, "weigh-in date=2025-08-04; kill date=2025-08-03", measure.WeighInDate, Hold},
		{rules.Beef, "start date=2022-08-03; kill date=2025-08-03", measure.StartDate, ""},
		{rules.Beef, "start date=2022-08-02; kill date=2025-08-03", measure.StartDate, Hold},
		{rules.Beef, "weigh-in date=2022-08-02; kill date=2025-08-03", measure.WeighInDate, Hold},
		{rules.Beef, "birth date=2024-03-01; start date=2024-10-15; weigh-in date=2035-08-03; kill date=2025-08-03", measure.WeighInDate, Hold},
		// Ages in months: this project's decisions, from the maturity groups and the usual market ages.
		{rules.Beef, "birth date=2024-11-03; kill date=2025-08-03", measure.BirthDate, ""},
		{rules.Beef, "birth date=2024-11-04; kill date=2025-08-03", measure.BirthDate, Look},
		{rules.Beef, "birth date=2025-02-03; kill date=2025-08-03", measure.BirthDate, Look},
		{rules.Beef, "birth date=2025-02-04; kill date=2025-08-03", measure.BirthDate, Hold},
		{rules.Beef, "birth date=2023-02-03; kill date=2025-08-03", measure.BirthDate, ""},
		{rules.Beef, "birth date=2023-02-02; kill date=2025-08-03", measure.BirthDate, Look},
		{rules.Beef, "birth date=2020-08-03; kill date=2025-08-03; maturity=300", measure.BirthDate, Look},
		{rules.Beef, "birth date=2020-08-02; kill date=2025-08-03", measure.BirthDate, Hold},
		{rules.Beef, "birth date=2015-08-02; kill date=2025-08-03; sex=cow; maturity=510", measure.BirthDate, Look},
		{rules.Swine, "birth date=2025-04-03; weigh-in date=2025-08-03", measure.BirthDate, ""},
		{rules.Swine, "birth date=2025-04-04; weigh-in date=2025-08-03", measure.BirthDate, Look},
		{rules.Swine, "birth date=2025-05-03; weigh-in date=2025-08-03", measure.BirthDate, Look},
		{rules.Swine, "birth date=2025-05-04; weigh-in date=2025-08-03", measure.BirthDate, Hold},
		{rules.Swine, "birth date=2024-11-03; kill date=2025-08-03", measure.BirthDate, ""},
		{rules.Swine, "birth date=2024-11-02; kill date=2025-08-03", measure.BirthDate, Look},
		{rules.Swine, "birth date=2024-02-03; kill date=2025-08-03", measure.BirthDate, Look},
		{rules.Swine, "birth date=2024-02-02; kill date=2025-08-03", measure.BirthDate, Hold},
		{rules.Lamb, "birth date=2025-05-03; kill date=2025-08-03", measure.BirthDate, ""},
		{rules.Lamb, "birth date=2025-05-04; kill date=2025-08-03", measure.BirthDate, Look},
		{rules.Lamb, "birth date=2025-06-03; kill date=2025-08-03", measure.BirthDate, Look},
		{rules.Lamb, "birth date=2025-06-04; kill date=2025-08-03", measure.BirthDate, Hold},
		{rules.Lamb, "birth date=2024-06-03; kill date=2025-08-03", measure.BirthDate, ""},
		{rules.Lamb, "birth date=2024-06-02; kill date=2025-08-03", measure.BirthDate, Look},
		{rules.Lamb, "birth date=2023-08-03; kill date=2025-08-03", measure.BirthDate, Look},
		{rules.Lamb, "birth date=2023-08-02; kill date=2025-08-03", measure.BirthDate, Hold},
		{rules.Goat, "birth date=2025-06-03; kill date=2025-08-03", measure.BirthDate, ""},
		{rules.Goat, "birth date=2025-06-04; kill date=2025-08-03", measure.BirthDate, Hold},
		{rules.Goat, "birth date=2024-06-03; kill date=2025-08-03", measure.BirthDate, ""},
		{rules.Goat, "birth date=2024-06-02; kill date=2025-08-03", measure.BirthDate, Look},
		{rules.Goat, "birth date=2023-02-03; kill date=2025-08-03", measure.BirthDate, Look},
		{rules.Goat, "birth date=2023-02-02; kill date=2025-08-03", measure.BirthDate, Hold},
		// Groups by age: Iowa State University.
		{rules.Beef, "birth date=2024-03-03; kill date=2025-08-03; hardbone=yes; maturity=299", measure.Maturity, ""},
		{rules.Beef, "birth date=2024-03-03; kill date=2025-08-03; hardbone=yes; maturity=300", measure.Maturity, Look},
	} {
		findings := Check(drawLot(t, c.species, firstOf(t, c.species).but(t, c.row)))
		level := levelOf(withoutRates(findings), c.at) // such a young one gains fast, and such an old one slowly
		if level != c.level {
			t.Errorf("%s %s: %q at the %s, want %q: %q", c.species, c.row, level, c.at, c.level, said(findings))
		}
	}
}

// withoutRates leaves out what is said of computed figures.
func withoutRates(findings []Finding) []Finding {
	return slices.DeleteFunc(findings, func(finding Finding) bool { return strings.HasSuffix(finding.Code, "out of range") })
}

// One animal's dates are held beside those of the others of its sheet, where there are three.
func TestDatesBesideTheOthers(t *testing.T) {
	for kill, want := range map[string]Level{
		"2025-08-04": "", "2025-06-05": "", "2025-06-04": Look, "2025-10-03": "", "2025-10-04": Look, "2015-08-04": Hold, "2022-08-03": Hold, "2022-08-05": Look,
	} {
		rows := []drawn{trueRow(t).but(t, "kill date="+kill)}
		for _, other := range companions(t, "5") {
			rows = append(rows, other.but(t, "kill date=2025-08-04"))
		}
		if got := levelOf(Check(drawLot(t, rules.Beef, rows...)), measure.KillDate); got != want {
			t.Errorf("%s among 2025-08-04: %q, want %q", kill, got, want)
		}
	}
}

// A start date typed a year late cannot win by gain.
func TestStartDateAYearLate(t *testing.T) {
	rows := []drawn{trueRow(t).but(t, "start date=2025-06-20; start weight=600; weigh-in date=2025-08-01")}
	findings := Check(drawLot(t, rules.Beef, rows...))
	if levelOf(findings, measure.StartDate) != Hold {
		t.Errorf("%q", said(findings))
	}
}

// A weight at the start that is not below the one at the end is another animal's.
func TestStartWeight(t *testing.T) {
	for start, want := range map[string]Level{"1250": Hold, "1249": Look, "600": ""} { // above 1,100 it is unusual
		if got := levelOf(Check(drawLot(t, rules.Beef, trueRow(t).but(t, "start weight="+start))), measure.StartWeight); got != want {
			t.Errorf("%s: %q, want %q", start, got, want)
		}
	}
}

// Marbling of pork has no step between 6 and 10.
func TestScoreOffTheScale(t *testing.T) {
	for score, want := range map[string]Level{"6": "", "6.1": Hold, "9.9": Hold, "10": Look, "10.1": Hold} {
		if got := levelOf(Check(drawLot(t, rules.Swine, firstOf(t, rules.Swine).but(t, "pork marbling="+score))), measure.PorkMarbling); got != want {
			t.Errorf("%s: %q, want %q", score, got, want)
		}
	}
}
