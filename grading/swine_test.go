package grading

import (
	"math/rand/v2"
	"strings"
	"testing"

	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

func gradedAs(t testing.TB, species rules.Species, basis rules.Basis, book *rules.Rulebook, values map[measure.ID]string) *Graded {
	t.Helper()
	return Grade(carcassOf(t, species, basis, values), book)
}

// Lancaster Farming 1994: a hog of 195 lb carcass, .65 in, 6.65 sq in has 54.381 % of lean with 5 % fat. The same hog by
// the fat-free equation, computed from it.
func TestLeanOfAPublishedHog(t *testing.T) {
	hog := map[measure.ID]string{
		measure.HotCarcassWeight: "195", measure.TenthRibFat: ".65", measure.LoinMuscleArea: "6.65", measure.Skinned: "no",
		measure.StartWeight: "40", measure.LiveWeight: "254", measure.StartDate: "45000", measure.KillDate: "45096", measure.WeighInDate: "45096",
	}
	for _, test := range []struct{ equation, percent, gain, source string }{
		{leanWithFat, "54.381", "0.968", "Lancaster Farming 1994"},
		{leanRibbed, "53.853", "0.958", "the same hog by the fat-free equation, computed"},
	} {
		book := variant(func(b *rules.Rulebook) { b.Settings.LeanEquation = test.equation })
		g := gradedAs(t, rules.Swine, rules.OnTheRail, book, hog)
		wantNear(t, g, measure.LeanPercent, test.percent, "0.0005")
		wantNear(t, g, measure.LeanGainPerDay, test.gain, "0.0005")
		wantNear(t, g, measure.AverageDailyGain, "2.229", "0.0005")
		for _, id := range []measure.ID{measure.LeanWeight, measure.LeanPercent, measure.LeanGainPerDay} {
			if figure := g.FigureOf(id); figure.Equation != test.equation || figure.Assumed != "" {
				t.Errorf("%s: %s was computed by %q, assuming %q", test.source, id, figure.Equation, figure.Assumed)
			}
		}
		if name := g.FigureOf(measure.LeanEquationName).Value.Text; name != test.equation {
			t.Errorf("the column says %q", name)
		}
	}
}

// From memory: no worked example was found. 180 lb with .8 in at the last rib is 23.568 + 90.54 − 17.0784 lb.
func TestUnribbedLean(t *testing.T) {
	book := variant(func(b *rules.Rulebook) { b.Settings.LeanEquation = leanUnribbed })
	g := gradedAs(t, rules.Swine, rules.OnTheRail, book, map[measure.ID]string{measure.HotCarcassWeight: "180", measure.LastRibFat: ".8"})
	wantNumber(t, g, measure.LeanWeight, "97.0296")
	if g.FigureOf(measure.LeanWeight).Assumed != skinOn {
		t.Errorf("assumed %q", g.FigureOf(measure.LeanWeight).Assumed)
	}
}

// From memory: a barrow of 260 lb, .7 in, 7 sq in is .833 − 11.5486 + 37.975 + 75.66 − .534 lb; a gilt has .833 more.
func TestLiveScanLean(t *testing.T) {
	for sex, want := range map[string]string{"Barrow": "102.3854", "gilt": "103.2184"} {
		g := gradedAs(t, rules.Swine, rules.LiveScan, defaultBook, map[measure.ID]string{
			measure.Sex: sex, measure.LiveWeight: "260", measure.TenthRibFat: ".7", measure.LoinMuscleArea: "7",
		})
		wantNumber(t, g, measure.LeanWeight, want)
		wantNumber(t, g, measure.HotCarcassWeight, "192.4") // 74 % of the live weight, by the default rulebook
		for _, id := range []measure.ID{measure.HotCarcassWeight, measure.LeanWeight, measure.LeanPercent} {
			if !g.FigureOf(id).Estimate {
				t.Errorf("%s is not called an estimate", id)
			}
		}
		if g.FigureOf(measure.LeanPercent).Equation != leanLiveScan {
			t.Errorf("the equation is %q", g.FigureOf(measure.LeanPercent).Equation)
		}
	}
	g := gradedAs(t, rules.Swine, rules.LiveScan, defaultBook, map[measure.ID]string{measure.LiveWeight: "260", measure.TenthRibFat: ".7", measure.LoinMuscleArea: "7"})
	if reason := g.FigureOf(measure.LeanPercent).Missing; !strings.Contains(reason, "neither barrow nor gilt") {
		t.Errorf("without a sex: %q", reason)
	}
}

func TestSkinnedCarcassHasNoLean(t *testing.T) {
	g := gradedAs(t, rules.Swine, rules.OnTheRail, defaultBook, map[measure.ID]string{
		measure.HotCarcassWeight: "195", measure.TenthRibFat: ".65", measure.LoinMuscleArea: "6.65", measure.Skinned: "yes",
	})
	if g.FigureOf(measure.LeanPercent).Missing != "the lean equations are for a carcass with its skin on" {
		t.Errorf("a skinned carcass has %q (%s)", g.FigureOf(measure.LeanPercent).Value.Text, g.FigureOf(measure.LeanPercent).Missing)
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
		g := gradedAs(t, rules.Swine, rules.OnTheRail, defaultBook, map[measure.ID]string{measure.LastRibFat: test.fat, measure.MusclingScore: test.muscling})
		if got := g.FigureOf(measure.PorkGrade).Value.Text; got != test.want {
			t.Errorf("%s in with muscling %s is %q, want %s: %s", test.fat, test.muscling, got, test.want, test.source)
		}
	}
	for name, values := range map[string]map[measure.ID]string{
		"soft":            {measure.Firmness: "1"},
		"pale and watery": {measure.LeanColor: "1", measure.Wetness: "1"},
	} {
		values[measure.LastRibFat], values[measure.MusclingScore] = ".8", "2"
		if got := gradedAs(t, rules.Swine, rules.OnTheRail, defaultBook, values).FigureOf(measure.PorkGrade).Value.Text; got != PorkUtility {
			t.Errorf("%s lean is %q", name, got)
		}
	}
	pale := map[measure.ID]string{measure.LastRibFat: ".8", measure.MusclingScore: "2", measure.LeanColor: "1", measure.Wetness: "2", measure.Firmness: "2"}
	if got := gradedAs(t, rules.Swine, rules.OnTheRail, defaultBook, pale).FigureOf(measure.PorkGrade).Value.Text; got != "U.S. No. 1" {
		t.Errorf("pale but dry lean is %q", got)
	}
	wrong := gradedAs(t, rules.Swine, rules.OnTheRail, defaultBook, map[measure.ID]string{measure.LastRibFat: ".8", measure.MusclingScore: "4"})
	if wrong.FigureOf(measure.PorkGrade).Missing == "" {
		t.Error("a muscling score of 4 gets a grade")
	}
}

// No grid with a worked answer is published for these: there is no price, never one of 0, and cell, grid sheet and rulebook
// tell the board the same.
func TestNoPublishedGridMeansNoPrice(t *testing.T) {
	const why = "no published grid: set your own"
	for _, species := range []rules.Species{rules.Swine, rules.Lamb, rules.Goat} {
		g := gradedAs(t, species, rules.OnTheRail, defaultBook, map[measure.ID]string{measure.HotCarcassWeight: "60"})
		for _, id := range []measure.ID{measure.Price, measure.CarcassValue, measure.Premium} {
			if figure := g.FigureOf(id); figure.Missing == "" || figure.Value.Text != "" || !figure.Value.Number.IsZero() {
				t.Errorf("%s: %s is %q (%s)", species, id, figure.Value.Text, figure.Missing)
			}
			if formula, has := g.Formula(id, sheetReferences{}); has {
				t.Errorf("%s: %s has the formula %s", species, id, formula)
			}
		}
		if reason := g.FigureOf(measure.Price).Missing; !strings.HasPrefix(reason, why) {
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
		b.Settings.BasePrice = map[rules.Species]decimal.NullDecimal{rules.Swine: decimal.NewNullDecimal(Exact("80"))}
		for at, grade := range porkGrades()[:4] {
			b.Grid = append(b.Grid[:len(b.Grid):len(b.Grid)], rules.GridLine{
				Species: rules.Swine, Part: rules.QualityPart, Name: grade, Adjust: decimal.NewFromInt(int64(2 - 2*at)),
			})
		}
	})
	hog := map[measure.ID]string{measure.HotCarcassWeight: "200", measure.LastRibFat: "1.3", measure.MusclingScore: "2"}
	g := gradedAs(t, rules.Swine, rules.OnTheRail, book, hog)
	wantNumber(t, g, measure.Price, "78")
	wantNumber(t, g, measure.CarcassValue, "156")
	hog[measure.Firmness] = "1"
	if figure := gradedAs(t, rules.Swine, rules.OnTheRail, book, hog).FigureOf(measure.Price); figure.Missing != "no price in the grid for the grade U.S. Utility" {
		t.Errorf("Utility pork brings %q (%s)", figure.Value.Text, figure.Missing)
	}
}

// plainReading is a plain number in its own cell.
func plainReading(text string) Reading {
	return Reading{Value: measure.NumberValue(Exact(text)), Written: text, Plain: true}
}

// borderDates adds dates and weights of gain, of which any may be missing or the wrong way round.
func borderDates(random *rand.Rand, readings map[measure.ID]Reading, from, to int64) {
	for id, days := range map[measure.ID]string{
		measure.BirthDate: "45000 45100", measure.StartDate: "45150 45200", measure.WeighInDate: "45290 45300 45200", measure.KillDate: "45305 45310 45200",
	} {
		if random.IntN(8) > 0 {
			readings[id] = plainReading(bordered(random, days))
		}
	}
	if random.IntN(8) > 0 {
		readings[measure.StartWeight] = plainReading(decimalBetween(random, from*3, from*5, 1))
	}
	if random.IntN(2) > 0 {
		readings[measure.FairWeight] = plainReading(decimalBetween(random, from*10, to*10, 1))
	}
	if random.IntN(8) > 0 {
		readings[measure.LiveWeight] = plainReading(decimalBetween(random, from*10, to*10, 1))
	}
}

// borderSwine packs readings around the bands of the pork carcass grade.
func borderSwine(random *rand.Rand) map[measure.ID]Reading {
	readings := map[measure.ID]Reading{
		measure.LastRibFat:     plainReading(bordered(random, ".5 .74 .75 .9 .99 1 1.24 1.25 1.49 1.5 2.1")),
		measure.MusclingScore:  plainReading(bordered(random, "1 2 3")),
		measure.TenthRibFat:    plainReading(decimalBetween(random, 30, 150, 2)),
		measure.LoinMuscleArea: plainReading(decimalBetween(random, 400, 1100, 2)),
		measure.LoinDepth:      plainReading(decimalBetween(random, 180, 320, 2)),
		measure.Sex:            {Value: measure.Value{Text: bordered(random, "barrow gilt Gilt")}},
	}
	readings[measure.HotCarcassWeight] = plainReading(decimalBetween(random, 1450, 2450, 1))
	if random.IntN(3) == 0 { // probe data in millimetres
		fat := decimalBetween(random, 8, 30, 0)
		readings[measure.TenthRibFat] = Reading{Value: measure.NumberValue(Exact(fat).Mul(Exact("0.0393700787")).Round(4)), Written: fat, Factor: "0.0393700787"}
	}
	for id, scores := range map[measure.ID]string{measure.LeanColor: "1 2 3", measure.Firmness: "1 2 3 2", measure.Wetness: "1 2 3"} {
		if random.IntN(2) == 0 {
			readings[id] = plainReading(bordered(random, scores))
		}
	}
	borderDates(random, readings, 200, 300)
	return readings
}

// From memory, as the equation: 200 lb with 2.5 in of loin and .7 in of probe fat is 15.31 + 102 + 9.5325 − 21.8939 lb. It runs
// about two points under the ribbed equation, and needs the depth, not the area.
func TestProbeLean(t *testing.T) {
	book := variant(func(b *rules.Rulebook) { b.Settings.LeanEquation = leanProbed })
	hog := map[measure.ID]string{measure.HotCarcassWeight: "200", measure.TenthRibFat: ".7", measure.LoinDepth: "2.5"}
	g := gradedAs(t, rules.Swine, rules.OnTheRail, book, hog)
	wantNumber(t, g, measure.LeanWeight, "104.9486")
	if equation := g.FigureOf(measure.LeanPercent).Equation; equation != "probe lean" {
		t.Errorf("the equation is named %q", equation)
	}
	delete(hog, measure.LoinDepth)
	hog[measure.LoinMuscleArea] = "7.5"
	if figure := gradedAs(t, rules.Swine, rules.OnTheRail, book, hog).FigureOf(measure.LeanWeight); figure.Missing != "no loin depth" {
		t.Errorf("without a depth: %+v", figure)
	}
}
