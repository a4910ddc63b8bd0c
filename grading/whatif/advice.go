package whatif

import (
	"fmt"

	"railbook/grading"
	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"

	"github.com/shopspring/decimal"
)

// Advice is one to three sentences for the family, drawn from the figures of the carcass and the targets that its rulebook
// names: what came out as wanted, what lies furthest from its target, and the nearest change that would have paid.
// They speak of the carcass, never of people. moves are those of Moves.
func Advice(g *grading.Graded, moves []Move) []string {
	var sentences []string
	met, far := besideTargets(g)
	if len(met) > 0 {
		sentences = append(sentences, "On target: "+phrase.JoinAnd(met)+".")
	}
	switch {
	case far.measure != measure.None:
		sentences = append(sentences, far.sentence())
	case len(met) > 0:
		sentences = append(sentences, "No figure is on the wrong side of its target; more of the same is a good plan.")
	}
	if nearest, found := nearestMove(moves); found {
		sentences = append(sentences, "The nearest better step was "+nearest.Change()+": that reaches "+nearest.ReachedWords()+", "+nearest.WorthWords()+".")
	}
	if len(sentences) == 0 {
		return []string{"There are too few figures here to draw advice from; the judge can tell more of what was seen on the rail."}
	}
	return sentences
}

// offTarget is a figure that lies outside its target.
type offTarget struct {
	measure measure.ID
	value   decimal.Decimal
	bound   decimal.Decimal
	words   string // what the target is, as the rulebook says it
	above   bool
	share   decimal.Decimal // of the bound by which it lies outside
}

func (o offTarget) sentence() string {
	side, way := "below", "higher"
	if o.above {
		side, way = "above", "lower"
	}
	words := fmt.Sprintf("What to work on first with the next animal: the %s, %s here, is %s the target of %s", o.measure.String(),
		SayFigure(o.measure, o.value), side, SayFigure(o.measure, o.bound))
	if o.words != "" {
		words += " (" + o.words + ")"
	}
	return words + "; aim " + way + "."
}

// mostPraised is how many measures a sentence of what is on target names.
const mostPraised = 3

// besideTargets gives the measures that meet their targets, in the rulebook's order, and the one that lies furthest from
// its own for its size.
func besideTargets(g *grading.Graded) (met []string, far offTarget) {
	for _, target := range g.Book.Targets {
		value, ok := g.Figure(target.Measure)
		if target.Species != g.Species || !ok {
			continue
		}
		off, outside := outsideTarget(target, value.Number)
		switch {
		case outside && beyondGood(target.Measure, off.above):
		case !outside && len(met) < mostPraised:
			met = append(met, fmt.Sprintf("the %s (%s)", target.Measure.String(), SayFigure(target.Measure, value.Number)))
		case outside && (far.measure == measure.None || off.share.GreaterThan(far.share)):
			far = off
		}
	}
	return met, far
}

// beyondGood reports whether a figure outside its target lies on the side that only ever speaks for a carcass: more
// ribeye for its weight, or less fat. That is no thing to work on; what is too lean for a class its own limits say.
func beyondGood(id measure.ID, above bool) bool {
	_, highest := placing.SpokenHighest[id]
	_, lowest := placing.SpokenLowest[id]
	return above && highest && !lowest || !above && lowest && !highest
}

func outsideTarget(target rules.Target, value decimal.Decimal) (off offTarget, outside bool) {
	off = offTarget{measure: target.Measure, value: value, words: target.Words}
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

// nearestMove gives the nearest of the moves that are worth something; of equal ones the first.
func nearestMove(moves []Move) (nearest Move, found bool) {
	for _, move := range NearestFirst(moves) {
		if move.Worth.Valid && move.Worth.Decimal.IsPositive() {
			return move, true
		}
	}
	return Move{}, false
}
