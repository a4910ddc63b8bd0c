package whatif

import (
	"testing"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// pricedBook is the default rulebook with a price for every species, so that every part of a grid can be reached.
func pricedBook() *rules.Rulebook {
	book := *rules.Default()
	settings := book.Settings
	settings.BasePrice = map[rules.Species]decimal.NullDecimal{
		rules.Beef: valid("300"), rules.Swine: valid("90"), rules.Lamb: valid("310"), rules.Goat: valid("380"),
	}
	book.Settings = settings
	line := func(species rules.Species, part rules.Part, name string, from, upTo decimal.NullDecimal, adjust string) rules.GridLine {
		return rules.GridLine{
			Species: species, Part: part, Name: name, Band: rules.Band{From: from, UpTo: upTo, FromIsIn: true}, Adjust: grading.Exact(adjust),
		}
	}
	open := decimal.NullDecimal{}
	book.Grid = append(book.Grid[:len(book.Grid):len(book.Grid)],
		line(rules.Swine, rules.YieldPart, "", open, valid("50"), "-4"),
		line(rules.Swine, rules.YieldPart, "", valid("50"), valid("55"), "0"),
		line(rules.Swine, rules.YieldPart, "", valid("55"), open, "3"),
		line(rules.Lamb, rules.YieldPart, "", open, valid("1.5"), "-6"), // too lean is discounted: the grid goes up and down
		line(rules.Lamb, rules.YieldPart, "", valid("1.5"), valid("3"), "8"),
		line(rules.Lamb, rules.YieldPart, "", valid("3"), open, "0"),
		line(rules.Goat, rules.WeightPart, "", open, valid("30"), "-20"),
		line(rules.Goat, rules.WeightPart, "", valid("30"), open, "0"),
	)
	return &book
}

func someCarcass(t *rapid.T) *grading.Carcass {
	number := func(name string, from, upTo int, exponent int32) string {
		return decimal.New(int64(rapid.IntRange(from, upTo).Draw(t, name)), exponent).String()
	}
	switch species := rules.Species(rapid.SampledFrom(rules.SpeciesNames()).Draw(t, "species")); species {
	case rules.Beef:
		return plainCarcass(species, map[measure.ID]string{
			measure.HotCarcassWeight: number("weight", 520, 1080, 0), measure.AdjustedFat: number("fat", 10, 115, -2),
			measure.RibeyeArea: number("ribeye", 95, 175, -1), measure.InternalFat: number("kidney", 2, 8, 0),
			measure.Marbling: number("marbling", 210, 880, 0), measure.Maturity: number("maturity", 110, 290, 0),
		})
	case rules.Swine:
		return plainCarcass(species, map[measure.ID]string{
			measure.HotCarcassWeight: number("weight", 150, 240, 0), measure.TenthRibFat: number("tenth rib", 30, 140, -2),
			measure.LastRibFat: number("last rib", 40, 170, -2), measure.LoinMuscleArea: number("loin", 46, 105, -1), measure.MusclingScore: number("muscling", 1, 3, 0),
		})
	case rules.Lamb:
		return plainCarcass(species, map[measure.ID]string{
			measure.HotCarcassWeight: number("weight", 46, 95, 0), measure.AdjustedFat: number("fat", 5, 48, -2),
			measure.RibeyeArea: number("ribeye", 16, 45, -1), measure.BodyWallThickness: number("wall", 50, 130, -2),
			measure.FlankStreaking: number("streaking", 150, 700, 0), measure.LegScore: number("leg", 8, 15, 0), measure.Maturity: number("maturity", 110, 290, 0),
		})
	default:
		return plainCarcass(species, map[measure.ID]string{
			measure.HotCarcassWeight: number("weight", 20, 70, 0), measure.RibeyeArea: number("ribeye", 8, 28, -1), measure.BodyWallThickness: number("wall", 25, 90, -2),
		})
	}
}

// plainCarcass is a carcass on the rail of plain numbers.
func plainCarcass(species rules.Species, values map[measure.ID]string) *grading.Carcass {
	carcass := &grading.Carcass{Tag: "101", Species: species, Basis: rules.OnTheRail}
	for id, text := range values {
		carcass.SetReading(id, grading.Reading{Value: measure.NumberValue(grading.Exact(text)), Written: text, Plain: true})
	}
	return carcass
}

// regraded grades the carcass anew with one measure at a number.
func regraded(carcass *grading.Carcass, id measure.ID, number decimal.Decimal, book *rules.Rulebook) *grading.Graded {
	changed := carcass.Clone()
	changed.SetReading(id, grading.Reading{Value: measure.NumberValue(number), Plain: true})
	return grading.Grade(changed, book)
}

// rose reports whether a carcass reached a better step than the other: a lower yield grade, a higher grade or price.
func rose(was, is *grading.Graded, step measure.ID) bool {
	before, _ := was.Figure(step)
	after, ok := is.Figure(step)
	if step == measure.WholeYieldGrade {
		return ok && after.Number.LessThan(before.Number)
	}
	return ok && after.Number.GreaterThan(before.Number)
}

func TestAMoveReachesItsStepAndAStepLessDoesNot(t *testing.T) {
	book := pricedBook()
	rapid.Check(t, func(t *rapid.T) {
		carcass := someCarcass(t)
		graded := grading.Grade(carcass, book)
		for _, move := range Moves(graded) {
			changed := regraded(carcass, move.Measure, move.To.Number, book)
			if after, ok := changed.Figure(move.Reached); !ok || !after.Number.Equal(move.Becomes.Number) || !rose(graded, changed, move.Reached) {
				t.Fatalf("%+v: graded again the %s is %s", move, move.Reached, after.Text)
			}
			step := measuringStep(move.Measure)
			if move.To.Number.LessThan(move.From.Number) {
				step = step.Neg()
			}
			before := regraded(carcass, move.Measure, move.To.Number.Sub(step), book)
			weightOnly := move.Measure == measure.HotCarcassWeight && paidAlikeForWeight(graded, before)
			if rose(graded, before, move.Reached) && !weightOnly {
				t.Fatalf("%+v: a step less reaches it too", move)
			}
			if move.Worth.Valid {
				was, _ := graded.Figure(measure.CarcassValue)
				is, _ := changed.Figure(measure.CarcassValue)
				if !is.Number.Sub(was.Number).Equal(move.Worth.Decimal) {
					t.Fatalf("%+v: graded again the value is %s and was %s", move, is.Text, was.Text)
				}
			}
		}
	})
}

// The bands of the standards: a lamb of .36 in is yield grade 4 and one of .35 in 3 (U.S. standards for lamb, 1992); a hog
// of average muscling and 1.00 in of last-rib fat is U.S. No. 2 and one of .99 in No. 1 (7 CFR 54.135).
func TestMovesOfEverySpecies(t *testing.T) {
	for _, test := range []struct {
		species          rules.Species
		values           map[measure.ID]string
		measure, reached measure.ID
		want             string
	}{
		{rules.Lamb, map[measure.ID]string{measure.HotCarcassWeight: "62", measure.AdjustedFat: ".36"}, measure.AdjustedFat, measure.WholeYieldGrade, "0.35"},
		{rules.Swine, map[measure.ID]string{measure.HotCarcassWeight: "190", measure.LastRibFat: "1.00", measure.MusclingScore: "2"}, measure.LastRibFat, measure.PorkGrade, "0.99"},
		{rules.Goat, map[measure.ID]string{measure.HotCarcassWeight: "27.5"}, measure.HotCarcassWeight, measure.Price, "30.5"},
	} {
		moves := Moves(grading.Grade(plainCarcass(test.species, test.values), pricedBook()))
		if got := valueText(t, moves, test.measure, test.reached); got != test.want {
			t.Errorf("%s: %s for a better %s is %q, want %q", test.species, test.measure, test.reached, got, test.want)
		}
	}
}

func valueText(t *testing.T, moves []Move, id, reached measure.ID) string {
	t.Helper()
	for _, move := range moves {
		if move.Measure == id && move.Reached == reached {
			return move.To.Text
		}
	}
	return ""
}

// The equation: 2.50 + 2.50 × .44 + .20 × 2 + .0038 × 800 − .32 × 13 = 2.88 (7 CFR 54.105). Average Choice begins at
// Modest 00 in A (U.S. standards for grades of carcass beef).
func TestMovesOfOneSteer(t *testing.T) {
	graded := gradedBeef(t, map[measure.ID]string{
		measure.HotCarcassWeight: "800", measure.AdjustedFat: ".44", measure.RibeyeArea: "13.0", measure.InternalFat: "2",
		measure.Marbling: "Small 40", measure.Maturity: "A50",
	})
	wantNumber(t, graded, measure.YieldGrade, "2.88")
	moves := Moves(graded)
	for _, test := range []struct {
		measure, reached measure.ID
		want             string
	}{
		// .36 in less would make it 1.98, but .08 in is below what is usual, so it is not offered.
		{measure.AdjustedFat, measure.WholeYieldGrade, ""},
		{measure.RibeyeArea, measure.WholeYieldGrade, "15.8"}, // 2.88 − .32 × 2.8 = 1.984
		{measure.Marbling, measure.QualityGrade, "Modest 00"},
		{measure.AdjustedFat, measure.Price, "0.28"}, // 2.48 is paid as 2.0 up to 2.5; .29 in would leave 2.505
	} {
		if got := valueText(t, moves, test.measure, test.reached); got != test.want {
			t.Errorf("%s for a better %s: %q, want %q", test.measure, test.reached, got, test.want)
		}
	}
}

func TestNothingMovesWhatTheJudgeCalledOrNobodyMeasured(t *testing.T) {
	carcass := carcassOf(t, rules.Beef, rules.OnTheRail, map[measure.ID]string{
		measure.HotCarcassWeight: "800", measure.AdjustedFat: ".44", measure.RibeyeArea: "13.0", measure.Marbling: "Small 40", measure.Maturity: "A50",
	})
	carcass.SetReading(measure.QualityGrade, grading.Reading{Value: grading.ThirdValue(grading.Choice, "Choice", grading.LowThird)})
	graded := grading.Grade(carcass, defaultBook)
	for _, move := range Moves(graded) {
		if move.Reached == measure.QualityGrade || move.Measure == measure.InternalFat {
			t.Errorf("%+v", move)
		}
	}
	if _, ok := Within(graded, measure.QualityGrade); ok {
		t.Error("a grade that the judge called has a place within it")
	}
}

func TestWithinAGrade(t *testing.T) {
	for _, test := range []struct{ marbling, maturity, from, next string }{
		{"Small 40", "A50", "Small 00", "500"},   // Low Choice of A: Small 00 to 99
		{"Slight 70", "A50", "Slight 50", "400"}, // High Select: SL50–99
		{"Modest 40", "B30", "Modest 30", "630"}, // Average Choice of B30 begins at 530
		{"Abundant 20", "A50", "Abundant 00", "0"},
	} {
		graded := gradedBeef(t, map[measure.ID]string{
			measure.HotCarcassWeight: "800", measure.AdjustedFat: ".44", measure.RibeyeArea: "13.0", measure.Marbling: test.marbling, measure.Maturity: test.maturity,
		})
		stretch, ok := Within(graded, measure.QualityGrade)
		if !ok || stretch.From.Text != test.from || stretch.Next.Decimal.String() != test.next {
			t.Errorf("%s %s: from %s, next %s", test.marbling, test.maturity, stretch.From.Text, stretch.Next.Decimal)
		}
	}
}

// Of all numbers that are nearer than the one told none reaches the step, and where none is told none does: each is graded.
func TestNoNearerNumberReachesTheStep(t *testing.T) {
	books := []*rules.Rulebook{pricedBook(), withPremiums(pricedBook())}
	rapid.Check(t, func(t *rapid.T) {
		book := rapid.SampledFrom(books).Draw(t, "book")
		carcass := someCarcass(t)
		graded := grading.Grade(carcass, book)
		step := rapid.SampledFrom(steps(graded)).Draw(t, "step")
		id := rapid.SampledFrom(restsOn(graded, step)).Draw(t, "measure")
		varied := vary(graded, id)
		was, _ := graded.Figure(step)
		search := search{variedMeasure: varied, step: step, was: was.Number, isWeight: grading.DefinitionOf(id).Unit == "lb"}
		want := int64(0)
		for steps := int64(1); steps < 1000 && want == 0; steps++ {
			for _, count := range []int64{-steps, steps} {
				number := varied.from.Number.Add(varied.size.Mul(decimal.NewFromInt(count)))
				if want != 0 || number.LessThan(varied.least) || number.GreaterThan(varied.most) {
					continue
				}
				other := regraded(carcass, id, number, book)
				if rose(graded, other, step) && !(search.isWeight && paidAlikeForWeight(graded, other)) {
					want = count
				}
			}
		}
		if got := search.nearest(); got != want {
			t.Fatalf("the %s by the %s: nearest is %d measuring steps away, want %d", step, id, got, want)
		}
	})
}

// A weight may be better paid between two that are paid alike: the last one looked at does not tell of those before it.
func TestAWeightBetweenTwoThatArePaidAlike(t *testing.T) {
	graded := grading.Grade(plainCarcass(rules.Beef, map[measure.ID]string{
		measure.HotCarcassWeight: "712", measure.AdjustedFat: "0.13", measure.RibeyeArea: "9.5", measure.InternalFat: "3", measure.Marbling: "210", measure.Maturity: "110",
	}), pricedBook())
	was, _ := graded.Figure(measure.WholeYieldGrade)
	search := search{variedMeasure: vary(graded, measure.HotCarcassWeight), step: measure.WholeYieldGrade, was: was.Number, isWeight: true}
	if got := search.nearest(); got != -113 {
		t.Errorf("nearest is %d measuring steps away, want -113", got)
	}
}

// Of two numbers that are equally near the lower one is told: yield grades of lamb are 0.4 + 10 × fat (U.S. standards for lamb,
// 1992), so .05 in less leaves the middle band as .05 in more does.
func TestOfTwoEquallyNearTheLowerIsTold(t *testing.T) {
	book := *pricedBook()
	book.Grid = nil
	for _, band := range []struct{ from, upTo, adjust string }{{"", "2", "5"}, {"2", "2.9", "0"}, {"2.9", "", "5"}} {
		line := rules.GridLine{Species: rules.Lamb, Part: rules.YieldPart, Adjust: grading.Exact(band.adjust)}
		if line.Band.FromIsIn = band.from != ""; line.Band.FromIsIn {
			line.Band.From = valid(band.from)
		}
		if band.upTo != "" {
			line.Band.UpTo = valid(band.upTo)
		}
		book.Grid = append(book.Grid, line)
	}
	lamb := plainCarcass(rules.Lamb, map[measure.ID]string{measure.HotCarcassWeight: "62", measure.AdjustedFat: ".2"})
	if move, found := vary(grading.Grade(lamb, &book), measure.AdjustedFat).move(measure.Price); !found || move.To.Text != "0.15" {
		t.Errorf("told %v %q, want 0.15", found, move.To.Text)
	}
}
