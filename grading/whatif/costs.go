package whatif

import (
	"railbook/grading"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// Cost is what one thing about a carcass took off its value or its grade, found by grading the carcass without it.
type Cost struct {
	Measure measure.ID
	Read    measure.Value       // as it is
	Beside  decimal.Decimal     // the number that the carcass was graded with in its stead
	Worth   decimal.NullDecimal // $; invalid where there is no price
	Was     string              // the grade the carcass has, and the one it would have; empty where they are the same
	Becomes string
}

// Costs gives what maturity, marks, dark lean, internal fat past the customary figure and soft or watery lean took off the
// carcass, each alone and all else the same. What took off nothing is left out.
func Costs(g *grading.Graded) []Cost {
	if g.Method == nil {
		return nil
	}
	var costs []Cost
	try := func(id measure.ID, beside decimal.Decimal, worse func(decimal.Decimal) bool) {
		reading, has := g.Reading(id)
		if !has || !worse(reading.Value.Number) {
			return
		}
		other := with(twin(g), id, beside, g.Book)
		cost := Cost{Measure: id, Read: reading.Value, Beside: beside, Worth: gained(g, other, measure.CarcassValue)}
		for _, step := range steps(g) {
			was, _ := g.Figure(step)
			is, has := other.Figure(step)
			if has && grading.DefinitionOf(step).Kind == measure.KindGrade && better(step, is.Number, was.Number) {
				cost.Was, cost.Becomes = was.Text, is.Text
			}
		}
		if cost.Worth.Valid && cost.Worth.Decimal.IsPositive() || !cost.Worth.Valid && cost.Becomes != "" {
			costs = append(costs, cost)
		}
	}
	above := func(bound decimal.Decimal) func(decimal.Decimal) bool {
		return func(number decimal.Decimal) bool { return number.GreaterThan(bound) }
	}
	below := func(bound decimal.Decimal) func(decimal.Decimal) bool {
		return func(number decimal.Decimal) bool { return number.LessThan(bound) }
	}
	for _, id := range []measure.ID{measure.Maturity, measure.SkeletalMaturity, measure.LeanMaturity} {
		try(id, decimal.NewFromInt(100), above(decimal.NewFromInt(100)))
	}
	for _, definition := range g.Book.Measures.Definitions() {
		if definition.Kind == measure.KindMark && definition.For(string(g.Species)) && definition.ID != measure.Consent {
			try(definition.ID, decimal.Zero, decimal.Decimal.IsPositive)
		}
	}
	try(measure.DarkCutterLowering, decimal.Zero, decimal.Decimal.IsPositive)
	if customary := g.Book.Settings.CustomaryKPH; customary.Valid {
		try(measure.InternalFat, customary.Decimal, above(customary.Decimal))
	}
	for _, score := range []struct {
		id    measure.ID
		sound int64
	}{{measure.Firmness, 2}, {measure.LeanColor, 3}, {measure.Wetness, 3}} {
		try(score.id, decimal.NewFromInt(score.sound), below(decimal.NewFromInt(score.sound)))
	}
	return costs
}
