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
	book := pricedBook()
	rapid.Check(t, func(t *rapid.T) {
		carcass := someCarcass(t)
		if carcass.Species == rules.Swine {
			for _, id := range []measure.ID{measure.LeanColor, measure.Firmness, measure.Wetness} {
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
				if !RestsOn(was, figure, id) {
					t.Fatalf("%s of %s changes the %s from %s to %s and is not under it", id, carcass.Species, figure, before.Value.Text, after.Value.Text)
				}
			}
		}
	})
}

func numberReading(number int) grading.Reading {
	return grading.Reading{Value: measure.NumberValue(decimal.NewFromInt(int64(number))), Plain: true}
}
