package whatif

import (
	"fmt"
	"slices"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"

	"github.com/shopspring/decimal"
)

// Advice is what a family may do with the next animal, in one to four sentences: the change that would have paid most, the
// nearest one, and how the figures lie beside the aims that the rulebook names. It follows the money, and the aims only
// where no money speaks. They speak of the carcass, never of people. moves are those of Moves; nothing is said that rests
// on a measure in doubt.
func Advice(g *grading.Graded, moves []Move, doubted ...measure.ID) []string {
	var sentences []string
	sure := slices.DeleteFunc(slices.Clone(moves), func(move Move) bool {
		return g.RestsOn(move.Measure, doubted...) || g.RestsOn(move.Reached, doubted...) || !move.earns() && leavesAim(g, move)
	})
	telling := Telling(sure)
	for at, move := range telling[:min(len(telling), mostAdvised)] {
		start := "Or: "
		switch {
		case at == 0 && move.earns():
			start = "The change worth most: "
		case at == 0 || at == 1 && telling[0].earns():
			start = "The nearest: "
		}
		sentences = append(sentences, start+move.Change()+". It reaches "+move.ReachedWords()+", "+move.WorthWords()+".")
	}
	met, beyond, far, missed := besideTargets(g, doubted)
	if len(met) > 0 {
		sentences = append(sentences, "Aims met: "+phrase.JoinAnd(met)+".")
	}
	switch {
	case missed > 0 && len(telling) == 0 && far.measure != measure.None:
		sentences = append(sentences, far.sentence())
	case missed == 0 && len(met) > 0 && len(telling) == 0 && len(doubted) == 0 && len(beyond) > 0:
		sentences = append(sentences, "Past its aim on the good side: "+phrase.JoinAnd(beyond)+". More of the same is a good plan.")
	case missed == 0 && len(met) > 0 && len(telling) == 0 && len(doubted) == 0:
		sentences = append(sentences, "Every aim is met. More of the same is a good plan.")
	}
	if len(sentences) == 0 {
		return []string{"There is too little here to draw advice from. Ask the judge what was seen on the rail."}
	}
	return sentences
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
	_, before := outsideTarget(aim, from)
	_, after := outsideTarget(aim, from.Add(move.To.Number).Sub(move.From.Number))
	return !before && after
}

// mostAdvised is how many changes are told.
const mostAdvised = 3

// offTarget is a figure that lies outside its target.
type offTarget struct {
	measure measure.ID
	value   decimal.Decimal
	bound   decimal.Decimal
	above   bool
	share   decimal.Decimal // of the bound by which it lies outside
}

func (o offTarget) sentence() string {
	way := "more"
	if o.above {
		way = "less"
	}
	return fmt.Sprintf("Aim for %s %s next time: %s here, and the aim is %s.", way, o.measure.String(), SayFigure(o.measure, o.value), SayFigure(o.measure, o.bound))
}

// mostPraised is how many measures a sentence of what is on target names.
const mostPraised = 3

// besideTargets gives the measures that meet their targets and those that lie past them on the good side, in the rulebook's
// order, the one that lies furthest from its own for its size, and how many miss theirs. Those that rest on a doubted measure
// are left out.
func besideTargets(g *grading.Graded, doubted []measure.ID) (met, beyond []string, far offTarget, missed int) {
	for _, target := range g.Book.Targets {
		value, ok := g.Figure(target.Measure)
		if target.Species != g.Species || !ok || g.RestsOn(target.Measure, doubted...) {
			continue
		}
		off, outside := outsideTarget(targetFor(g, target), value.Number)
		said := fmt.Sprintf("%s (%s)", target.Measure.String(), SayFigure(target.Measure, value.Number))
		switch {
		case outside && beyondGood(target.Measure, off.above):
			beyond = append(beyond, said)
		case !outside:
			if len(met) < mostPraised {
				met = append(met, said)
			}
		default:
			missed++
			if far.measure == measure.None || off.share.GreaterThan(far.share) {
				far = off
			}
		}
	}
	return met, beyond, far, missed
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

func outsideTarget(target rules.Target, value decimal.Decimal) (off offTarget, outside bool) {
	off = offTarget{measure: target.Measure, value: value}
	switch {
	case target.From.Valid && value.LessThan(target.From.Decimal):
		off.bound = target.From.Decimal
	case target.UpTo.Valid && value.GreaterThan(target.UpTo.Decimal):
		off.bound, off.above = target.UpTo.Decimal, true
	default:
		return off, false
	}
	off.share = value.Sub(off.bound).Abs()
	if off.bound.IsPositive() {
		off.share = off.share.DivRound(off.bound, grading.ComparedDecimals)
	}
	return off, true
}
