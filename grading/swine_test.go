package grading

import (
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"railbook/rules"
)

func gradedAs(t testing.TB, species rules.Species, basis rules.Basis, book *rules.Rulebook, values map[rules.Measure]string) *Graded {
	t.Helper()
	return Grade(carcassOf(t, species, basis, values), book)
}

// Lancaster Farming 1994: a hog of 195 lb carcass, .65 in, 6.65 sq in has 54.381 % of lean with 5 % fat. The same hog by
// the fat-free equation, computed from it.
func TestLeanOfAPublishedHog(t *testing.T) {
	hog := map[rules.Measure]string{
		rules.HotCarcassWeight: "195", TenthRibFat: ".65", LoinMuscleArea: "6.65", Skinned: "no",
		rules.StartWeight: "40", rules.LiveWeight: "254", rules.StartDate: "45000", rules.KillDate: "45096", rules.WeighInDate: "45096",
	}
	for _, test := range []struct{ equation, percent, gain, source string }{
		{leanWithFat, "54.381", "0.968", "Lancaster Farming 1994"},
		{leanRibbed, "53.853", "0.958", "the same hog by the fat-free equation, computed"},
	} {
		book := variant(func(b *rules.Rulebook) { b.Settings.LeanEquation = test.equation })
		g := gradedAs(t, rules.Swine, rules.OnTheRail, book, hog)
		wantNear(t, g, LeanPercent, test.percent, "0.0005")
		wantNear(t, g, LeanGainPerDay, test.gain, "0.0005")
		wantNear(t, g, AverageDailyGain, "2.229", "0.0005")
		for _, measure := range []rules.Measure{LeanWeight, LeanPercent, LeanGainPerDay} {
			if figure := g.Figures[measure]; figure.Equation != test.equation || figure.Assumed != "" {
				t.Errorf("%s: %s was computed by %q, assuming %q", test.source, measure, figure.Equation, figure.Assumed)
			}
		}
		if name := g.Figures[LeanEquationName].Value.Text; name != test.equation {
			t.Errorf("the column says %q", name)
		}
	}
}

// From memory: no worked example was found. 180 lb with .8 in at the last rib is 23.568 + 90.54 − 17.0784 lb.
func TestUnribbedLean(t *testing.T) {
	book := variant(func(b *rules.Rulebook) { b.Settings.LeanEquation = leanUnribbed })
	g := gradedAs(t, rules.Swine, rules.OnTheRail, book, map[rules.Measure]string{rules.HotCarcassWeight: "180", LastRibFat: ".8"})
	wantNumber(t, g, LeanWeight, "97.0296")
	if g.Figures[LeanWeight].Assumed != skinOn {
		t.Errorf("assumed %q", g.Figures[LeanWeight].Assumed)
	}
}

// From memory: a barrow of 260 lb, .7 in, 7 sq in is .833 − 11.5486 + 37.975 + 75.66 − .534 lb; a gilt has .833 more.
func TestLiveScanLean(t *testing.T) {
	for sex, want := range map[string]string{"Barrow": "102.3854", "gilt": "103.2184"} {
		g := gradedAs(t, rules.Swine, rules.LiveScan, defaultBook, map[rules.Measure]string{
			rules.Sex: sex, rules.LiveWeight: "260", TenthRibFat: ".7", LoinMuscleArea: "7",
		})
		wantNumber(t, g, LeanWeight, want)
		wantNumber(t, g, rules.HotCarcassWeight, "192.4") // 74 % of the live weight, by the default rulebook
		for _, measure := range []rules.Measure{rules.HotCarcassWeight, LeanWeight, LeanPercent} {
			if !g.Figures[measure].Estimate {
				t.Errorf("%s is not called an estimate", measure)
			}
		}
		if g.Figures[LeanPercent].Equation != leanLiveScan {
			t.Errorf("the equation is %q", g.Figures[LeanPercent].Equation)
		}
	}
	g := gradedAs(t, rules.Swine, rules.LiveScan, defaultBook, map[rules.Measure]string{rules.LiveWeight: "260", TenthRibFat: ".7", LoinMuscleArea: "7"})
	if reason := g.Figures[LeanPercent].Missing; !strings.Contains(reason, "neither barrow nor gilt") {
		t.Errorf("without a sex: %q", reason)
	}
}

func TestSkinnedCarcassHasNoLean(t *testing.T) {
	g := gradedAs(t, rules.Swine, rules.OnTheRail, defaultBook, map[rules.Measure]string{
		rules.HotCarcassWeight: "195", TenthRibFat: ".65", LoinMuscleArea: "6.65", Skinned: "yes",
	})
	if g.Figures[LeanPercent].Missing != "the lean equations are for a carcass with its skin on" {
		t.Errorf("a skinned carcass has %q (%s)", g.Figures[LeanPercent].Value.Text, g.Figures[LeanPercent].Missing)
	}
}

// Equation: 7 CFR 53.153; bands: 7 CFR 54.135, 49 FR 48673.
func TestPorkCarcassGrade(t *testing.T) {
	for _, test := range []struct{ fat, muscling, want, source string }{
		{".9", "2", "U.S. No. 1", "7 CFR 53.153, example"},
		{".5", "1", "U.S. No. 2", "7 CFR 53.153, example: thin is never No. 1"},
		{".8", "2", "U.S. No. 1", "7 CFR 53.153, example"},
		{".99", "2", "U.S. No. 1", "band"},
		{"1.00", "2", "U.S. No. 2", "band"},
		{"1.24", "2", "U.S. No. 2", "band"},
		{"1.25", "2", "U.S. No. 3", "band"},
		{"1.49", "2", "U.S. No. 3", "band"},
		{"1.50", "2", "U.S. No. 4", "band"},
		{"2.50", "2", "U.S. No. 4", "band"},
		{"1.24", "3", "U.S. No. 1", "band, thick"},
		{"1.25", "3", "U.S. No. 2", "band, thick"},
		{".74", "1", "U.S. No. 2", "band, thin"},
		{".99", "1", "U.S. No. 2", "band, thin"},
		{"1.00", "1", "U.S. No. 3", "band, thin"},
		{"1.25", "1", "U.S. No. 4", "band, thin"},
	} {
		g := gradedAs(t, rules.Swine, rules.OnTheRail, defaultBook, map[rules.Measure]string{LastRibFat: test.fat, MusclingScore: test.muscling})
		if got := g.Figures[PorkGrade].Value.Text; got != test.want {
			t.Errorf("%s in with muscling %s is %q, want %s: %s", test.fat, test.muscling, got, test.want, test.source)
		}
	}
	for name, values := range map[string]map[rules.Measure]string{
		"soft":            {Firmness: "1"},
		"pale and watery": {LeanColor: "1", Wetness: "1"},
	} {
		values[LastRibFat], values[MusclingScore] = ".8", "2"
		if got := gradedAs(t, rules.Swine, rules.OnTheRail, defaultBook, values).Figures[PorkGrade].Value.Text; got != PorkUtility {
			t.Errorf("%s lean is %q", name, got)
		}
	}
	pale := map[rules.Measure]string{LastRibFat: ".8", MusclingScore: "2", LeanColor: "1", Wetness: "2", Firmness: "2"}
	if got := gradedAs(t, rules.Swine, rules.OnTheRail, defaultBook, pale).Figures[PorkGrade].Value.Text; got != "U.S. No. 1" {
		t.Errorf("pale but dry lean is %q", got)
	}
	wrong := gradedAs(t, rules.Swine, rules.OnTheRail, defaultBook, map[rules.Measure]string{LastRibFat: ".8", MusclingScore: "4"})
	if wrong.Figures[PorkGrade].Missing == "" {
		t.Error("a muscling score of 4 gets a grade")
	}
}

// No grid with a worked answer is published for these: there is no price, never one of 0, and cell, grid sheet and rulebook
// tell the board the same.
func TestNoPublishedGridMeansNoPrice(t *testing.T) {
	const why = "no published grid: set your own"
	for _, species := range []rules.Species{rules.Swine, rules.Lamb, rules.Goat} {
		g := gradedAs(t, species, rules.OnTheRail, defaultBook, map[rules.Measure]string{rules.HotCarcassWeight: "60"})
		for _, measure := range []rules.Measure{rules.Price, rules.CarcassValue, rules.Premium} {
			if figure := g.Figures[measure]; figure.Missing == "" || figure.Value.Text != "" || !figure.Value.Number.IsZero() {
				t.Errorf("%s: %s is %q (%s)", species, measure, figure.Value.Text, figure.Missing)
			}
			if formula, has := g.Formula(measure, sheetReferences{}); has {
				t.Errorf("%s: %s has the formula %s", species, measure, formula)
			}
		}
		if reason := g.Figures[rules.Price].Missing; !strings.HasPrefix(reason, why) {
			t.Errorf("%s: there is no price because of %q", species, reason)
		}
		if source := defaultBook.Settings.BasePriceSource[species]; source != why {
			t.Errorf("%s: the source of the blank base price is %q", species, source)
		}
		said := 0
		for _, row := range LayOutGrid(defaultBook, []rules.Species{species}).Rows {
			for _, cell := range row {
				if strings.HasPrefix(cell.Text, why) {
					said++
				}
			}
		}
		if said != 2 {
			t.Errorf("%s: the grid sheet says it %d times, wanted beside the base price and in place of the lines", species, said)
		}
	}
}

func TestAGridOfTheBoardsOwnPricesHogs(t *testing.T) {
	book := variant(func(b *rules.Rulebook) {
		b.Settings.BasePrice = map[rules.Species]decimal.NullDecimal{rules.Swine: decimal.NewNullDecimal(exact("80"))}
		for at, grade := range porkGrades()[:4] {
			b.Grid = append(b.Grid[:len(b.Grid):len(b.Grid)], rules.GridLine{
				Species: rules.Swine, Part: rules.QualityPart, Name: grade, Adjust: decimal.NewFromInt(int64(2 - 2*at)),
			})
		}
	})
	hog := map[rules.Measure]string{rules.HotCarcassWeight: "200", LastRibFat: "1.3", MusclingScore: "2"}
	g := gradedAs(t, rules.Swine, rules.OnTheRail, book, hog)
	wantNumber(t, g, rules.Price, "78")
	wantNumber(t, g, rules.CarcassValue, "156")
	hog[Firmness] = "1"
	if figure := gradedAs(t, rules.Swine, rules.OnTheRail, book, hog).Figures[rules.Price]; figure.Missing != "no price in the grid for the grade U.S. Utility" {
		t.Errorf("Utility pork brings %q (%s)", figure.Value.Text, figure.Missing)
	}
}

// plainReading is a plain number in its own cell.
func plainReading(text string) Reading {
	return Reading{Value: rules.NumberValue(exact(text)), Written: text, Plain: true}
}

// borderDates adds dates and weights of gain, of which any may be missing or the wrong way round.
func borderDates(random *rand.Rand, readings map[rules.Measure]Reading, from, to int64) {
	for measure, days := range map[rules.Measure]string{
		rules.BirthDate: "45000 45100", rules.StartDate: "45150 45200", rules.WeighInDate: "45290 45300 45200", rules.KillDate: "45305 45310 45200",
	} {
		if random.IntN(8) > 0 {
			readings[measure] = plainReading(bordered(random, days))
		}
	}
	if random.IntN(8) > 0 {
		readings[rules.StartWeight] = plainReading(decimalBetween(random, from*3, from*5, 1))
	}
	if random.IntN(2) > 0 {
		readings[rules.FairWeight] = plainReading(decimalBetween(random, from*10, to*10, 1))
	}
	if random.IntN(8) > 0 {
		readings[rules.LiveWeight] = plainReading(decimalBetween(random, from*10, to*10, 1))
	}
}

// borderSwine packs readings around the bands of the pork carcass grade.
func borderSwine(random *rand.Rand) map[rules.Measure]Reading {
	readings := map[rules.Measure]Reading{
		LastRibFat:     plainReading(bordered(random, ".5 .74 .75 .9 .99 1 1.24 1.25 1.49 1.5 2.1")),
		MusclingScore:  plainReading(bordered(random, "1 2 3")),
		TenthRibFat:    plainReading(decimalBetween(random, 30, 150, 2)),
		LoinMuscleArea: plainReading(decimalBetween(random, 400, 1100, 2)),
		rules.Sex:      {Value: rules.Value{Text: bordered(random, "barrow gilt Gilt")}},
	}
	readings[rules.HotCarcassWeight] = plainReading(decimalBetween(random, 1450, 2450, 1))
	if random.IntN(3) == 0 { // probe data in millimetres
		fat := decimalBetween(random, 8, 30, 0)
		readings[TenthRibFat] = Reading{Value: rules.NumberValue(exact(fat).Mul(exact("0.0393700787")).Round(4)), Written: fat, Factor: "0.0393700787"}
	}
	for measure, scores := range map[rules.Measure]string{LeanColor: "1 2 3", Firmness: "1 2 3 2", Wetness: "1 2 3"} {
		if random.IntN(2) == 0 {
			readings[measure] = plainReading(bordered(random, scores))
		}
	}
	borderDates(random, readings, 200, 300)
	return readings
}
