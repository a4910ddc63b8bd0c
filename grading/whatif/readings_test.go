package whatif

import (
	"testing"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// A reading that changes a figure of its species is among what the figure is said to be computed from, and so explained and
// moved by: color, firmness and wetness with the pork grade, too.
func TestWhatChangesAFigureIsUnderIt(t *testing.T) {
	book := withPremiums(pricedBook())
	rapid.Check(t, func(t *rapid.T) {
		carcass := someCarcass(t)
		if carcass.Species == rules.Swine {
			for _, id := range []measure.ID{measure.LeanColor, measure.Firmness, measure.Wetness, measure.LoinDepth, measure.CarcassLength} {
				carcass.SetReading(id, numberReading(rapid.IntRange(1, 3).Draw(t, id.String())))
			}
		}
		was := grading.Grade(carcass, book)
		for id, reading := range carcass.Readings() {
			changed := carcass.Clone()
			if reading.Value.Number.GreaterThan(grading.One) {
				reading.Value = measure.NumberValue(reading.Value.Number.Sub(grading.One))
			} else {
				reading.Value = measure.NumberValue(reading.Value.Number.Add(grading.One))
			}
			changed.SetReading(id, reading)
			is := grading.Grade(changed, book)
			for figure, before := range was.Figures() {
				after, ok := is.Computed(figure)
				if !ok || after.Missing != "" || before.Missing != "" || after.Value.Text == before.Value.Text {
					continue
				}
				if !was.RestsOn(figure, id) {
					t.Fatalf("%s of %s changes the %s from %s to %s and is not under it", id, carcass.Species, figure, before.Value.Text, after.Value.Text)
				}
			}
		}
	})
}

func numberReading(number int) grading.Reading {
	return grading.Reading{Value: measure.NumberValue(decimal.NewFromInt(int64(number))), Plain: true}
}

// withPremiums is a rulebook that pays hogs for a loin depth of 3 and for their length by their belly's thickness.
func withPremiums(book *rules.Rulebook) *rules.Rulebook {
	premium := rules.Premium{
		GridLine: rules.GridLine{Species: rules.Swine, Part: rules.PremiumPart, Name: "deep loins", Adjust: grading.Exact("4")},
		Tests:    []rules.Requirement{{Species: rules.Swine, Measure: measure.LoinDepth, AtLeast: valid("3")}},
	}
	book.Premiums = append(book.Premiums[:len(book.Premiums):len(book.Premiums)], premium)
	cell := func(from, upTo decimal.NullDecimal, adjust string) rules.MatrixLine {
		return rules.MatrixLine{
			GridLine: rules.GridLine{
				Species: rules.Swine, Part: rules.MatrixPart, Name: "length of " + adjust, Adjust: grading.Exact(adjust),
				Band: rules.Band{From: from, FromIsIn: true, UpTo: upTo},
			},
			First: measure.CarcassLength, Second: measure.HotCarcassWeight,
		}
	}
	book.Matrix = append(book.Matrix[:len(book.Matrix):len(book.Matrix)], cell(decimal.NullDecimal{}, valid("31"), "0"), cell(valid("31"), decimal.NullDecimal{}, "2"))
	return book
}

// What a premium and a price matrix ask for is among the moves: an inch of length and half an inch of loin depth are told with what
// each pays.
func TestMeasuresOfPremiumsAreMoved(t *testing.T) {
	hog := map[measure.ID]string{
		measure.HotCarcassWeight: "200", measure.LastRibFat: ".8", measure.MusclingScore: "2", measure.TenthRibFat: ".7", measure.LoinMuscleArea: "7",
		measure.LoinDepth: "2.5", measure.CarcassLength: "30.5",
	}
	book := withPremiums(pricedBook())
	g := grading.Grade(carcassOf(t, rules.Swine, rules.OnTheRail, hog), book)
	found := map[measure.ID]Move{}
	for _, move := range Moves(g) {
		if move.Reached == measure.Price {
			found[move.Measure] = move
		}
	}
	for id, want := range map[measure.ID]struct{ to, line, price string }{
		measure.LoinDepth: {"3", "deep loins", "4"}, measure.CarcassLength: {"31", "length of 2", "2"},
	} {
		move, ok := found[id]
		if !ok || !move.To.Number.Equal(grading.Exact(want.to)) || move.Pays.Words != want.line || !move.Price.Decimal.Equal(grading.Exact(want.price)) {
			t.Errorf("%s: moved %v to %s by %q for %s, want to %s by %q for %s", id, ok, move.To.Number, move.Pays.Words, move.Price.Decimal, want.to, want.line, want.price)
		}
	}
}
