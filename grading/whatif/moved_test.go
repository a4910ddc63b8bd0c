package whatif

import (
	"slices"
	"testing"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// Every reading of the table of measures is changed, one at a time, on a carcass of each species and basis, with and
// without the scores of pale and watery lean; a figure that then differs must list the reading among those that can move
// it, the price of a rulebook with a base price for every species too.
func TestEveryReadingThatMovesAFigureIsListed(t *testing.T) {
	book := pricedBook()
	moved := map[measure.ID]int{}
	for _, method := range grading.Methods {
		for _, full := range []map[measure.ID]string{movable[method.Species], withScores(movable[method.Species])} {
			carcass := carcassOf(t, method.Species, method.Basis, full)
			before := grading.Grade(carcass, book)
			for _, definition := range measure.Standard().Definitions() {
				if definition.Computed || definition.Kind == measure.KindText && definition.ID != measure.Sex {
					continue
				}
				for _, number := range []int64{0, 1, 2, 3, 115, 320, 550} {
					changed := carcass.Clone()
					value := measure.NumberValue(decimal.NewFromInt(number))
					if definition.ID == measure.Sex {
						value = measure.Value{Text: []string{"cow", "bull", "stag", "gilt"}[number%4]}
					}
					changed.SetReading(definition.ID, grading.Reading{Value: value, Written: value.Text})
					after := grading.Grade(changed, book)
					for id, figure := range after.Figures() {
						was, computed := before.Computed(id)
						if !computed || was.Value.Text == figure.Value.Text && was.Missing == figure.Missing || id == definition.ID {
							continue
						}
						moved[definition.ID]++
						if !slices.Contains(Under(after, id), definition.ID) {
							t.Errorf("%s, %s: %s of %d moves the %s and is not listed", method.Species, method.Basis, definition.Name, number, id)
						}
					}
				}
			}
		}
	}
	for _, id := range []measure.ID{measure.Firmness, measure.LeanColor, measure.Wetness, measure.DarkCutterLowering, measure.Under30Months, measure.Bullock, measure.Sex, measure.Skinned} {
		if moved[id] == 0 {
			t.Errorf("%s moved nothing: the check saw too little", id)
		}
	}
}

// movable are carcasses that have most figures.
var movable = map[rules.Species]map[measure.ID]string{
	rules.Beef: {
		measure.HotCarcassWeight: "800", measure.LiveWeight: "1300", measure.AdjustedFat: ".4", measure.RibeyeArea: "13", measure.InternalFat: "2",
		measure.Marbling: "450", measure.Maturity: "250",
	},
	rules.Swine: {
		measure.HotCarcassWeight: "200", measure.LiveWeight: "270", measure.LastRibFat: ".8", measure.MusclingScore: "2", measure.TenthRibFat: ".7",
		measure.LoinMuscleArea: "7", measure.Sex: "barrow",
	},
	rules.Lamb: {
		measure.HotCarcassWeight: "70", measure.LiveWeight: "130", measure.AdjustedFat: ".2", measure.RibeyeArea: "3", measure.BodyWallThickness: ".8",
		measure.FlankStreaking: "450", measure.LegScore: "12", measure.Maturity: "150",
	},
	rules.Goat: {
		measure.HotCarcassWeight: "40", measure.LiveWeight: "90", measure.RibeyeArea: "1.8", measure.BodyWallThickness: ".5",
	},
}

// withScores is the same carcass with the scores that pork is Utility by when two of them come together.
func withScores(values map[measure.ID]string) map[measure.ID]string {
	all := map[measure.ID]string{measure.LeanColor: "1", measure.Wetness: "1"}
	for id, value := range values {
		all[id] = value
	}
	return all
}
