package whatif

import (
	"slices"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// Advice is what a family may do with the next animal, and how the figures lie beside the aims that the rulebook names.
type Advice struct {
	Moves  []Move        // the changes worth telling, as worthTelling orders them
	Met    []AimedFigure // what meets its aim, in the rulebook's order
	Past   []AimedFigure // what lies past its aim on the good side
	Missed *AimedFigure  // what lies furthest from its aim for its size; nil where no aim is missed
	AllMet bool          // every aim is met, or passed on the good side, and nothing is in doubt
}

// AimedFigure is a figure of a carcass for which the rulebook names an aim.
type AimedFigure struct {
	Measure measure.ID
	Number  decimal.Decimal
	Bound   decimal.Decimal // the end of the aim that the figure lies beyond; zero where it meets the aim
	Above   bool            // it lies above the aim

	share decimal.Decimal // of the bound by which it lies outside
}

// Advise finds what a family may do with the next animal. It follows the money, and the aims only where no money speaks.
// moves are those of Moves; nothing rests on a measure in doubt, and a figure that a move reaches rests on what is moved.
func Advise(g *grading.Graded, moves []Move, doubted ...measure.ID) Advice {
	sure := slices.DeleteFunc(slices.Clone(moves), func(move Move) bool {
		return g.RestsOn(move.Reached, doubted...) || !move.Earns() && leavesAim(g, move)
	})
	advice := besideAims(g, doubted)
	advice.Moves = worthTelling(sure)
	return advice
}

// leavesAim reports whether a move takes a measure past the aim that it meets.
func leavesAim(g *grading.Graded, move Move) bool {
	id, from := move.Measure, move.From.Number
	if adjusted, has := g.Figure(measure.AdjustedFat); has && id == measure.MeasuredFat {
		id, from = measure.AdjustedFat, adjusted.Number // which goes with it, inch for inch
	}
	aim, ok := Aim(g, id)
	if !ok {
		return false
	}
	_, before := outsideAim(aim, from)
	_, after := outsideAim(aim, from.Add(move.To.Number).Sub(move.From.Number))
	return !before && after
}

// besideAims holds the carcass's figures beside their aims. Those that rest on a doubted measure are left out.
func besideAims(g *grading.Graded, doubted []measure.ID) Advice {
	var advice Advice
	for _, target := range g.Book.Targets {
		value, ok := g.Figure(target.Measure)
		if target.Species != g.Species || !ok || g.RestsOn(target.Measure, doubted...) {
			continue
		}
		figure, outside := outsideAim(targetFor(g, target), value.Number)
		switch {
		case !outside:
			advice.Met = append(advice.Met, figure)
		case beyondGood(figure.Measure, figure.Above):
			advice.Past = append(advice.Past, figure)
		case advice.Missed == nil || figure.share.GreaterThan(advice.Missed.share):
			advice.Missed = &figure
		}
	}
	advice.AllMet = advice.Missed == nil && len(advice.Met) > 0 && len(doubted) == 0
	return advice
}

// Aim gives the rulebook's target for a measure of this carcass, its bounds grown with the carcass's weight; ok is false
// where there is none.
func Aim(g *grading.Graded, id measure.ID) (target rules.Target, ok bool) {
	for _, target := range g.Book.Targets {
		if target.Species == g.Species && target.Measure == id {
			return targetFor(g, target), true
		}
	}
	return rules.Target{}, false
}

// targetFor grows the ends of a target with the carcass's weight, as its line says.
func targetFor(g *grading.Graded, target rules.Target) rules.Target {
	weight, _ := g.Figure(measure.HotCarcassWeight)
	for _, bound := range []*rules.Bound{&target.From, &target.UpTo} {
		if bound.Valid {
			bound.Decimal = bound.Decimal.Add(bound.PerPound.Mul(weight.Number))
		}
	}
	return target
}

// higherIsBetter and lowerIsBetter are the measures that speak for a carcass however far they go.
var (
	higherIsBetter = []measure.ID{
		measure.QualityGrade, measure.MarblingScore, measure.IntramuscularFat, measure.RibeyePerHundredweight, measure.RibeyeArea, measure.Cutability,
		measure.DressingPercent, measure.Price, measure.CarcassValue, measure.Premium, measure.LeanPercent, measure.LoinMuscleArea, measure.LegScore,
		measure.LeanGainPerDay, measure.AverageDailyGain, measure.CarcassWeightPerDay, measure.RetailCutsPerDay, measure.ValuePerDayOnFeed,
	}
	lowerIsBetter = []measure.ID{measure.YieldGrade, measure.WholeYieldGrade, measure.AdjustedFat, measure.TenthRibFat, measure.LastRibFat}
)

// beyondGood reports whether a figure outside its target lies on the side that only ever speaks for a carcass: more
// ribeye for its weight, or less fat. That is no thing to work on; what is too lean for a class its own limits say.
func beyondGood(id measure.ID, above bool) bool {
	return above && slices.Contains(higherIsBetter, id) || !above && slices.Contains(lowerIsBetter, id)
}

// outsideAim holds a figure beside its aim; outside is false where it meets it.
func outsideAim(aim rules.Target, number decimal.Decimal) (figure AimedFigure, outside bool) {
	figure = AimedFigure{Measure: aim.Measure, Number: number}
	switch {
	case aim.From.Valid && number.LessThan(aim.From.Decimal):
		figure.Bound = aim.From.Decimal
	case aim.UpTo.Valid && number.GreaterThan(aim.UpTo.Decimal):
		figure.Bound, figure.Above = aim.UpTo.Decimal, true
	default:
		return figure, false
	}
	figure.share = number.Sub(figure.Bound).Abs()
	if figure.Bound.IsPositive() {
		figure.share = figure.share.DivRound(figure.Bound, grading.ComparedDecimals)
	}
	return figure, true
}
