package whatif

import (
	"maps"
	"slices"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// Move is the smallest change of one measure that lifts a carcass a step: to the next whole yield grade, the next grade or
// third of a grade, or the next better price of the grid.
type Move struct {
	Measure measure.ID          // what would have had to be different, as a plant reads it
	From    measure.Value       // as it is
	To      measure.Value       // as it would have had to be, in whole steps of measuringStep from From
	Reached measure.ID          // the whole yield grade, a grade, or the price
	Was     measure.Value       // of Reached
	Becomes measure.Value       // of Reached
	Pays    grading.PriceStep   // the part of the price that pays the better one; without a line but for Reached the price
	Price   decimal.NullDecimal // what the price would have gained, $/cwt; invalid where there is no price
	Worth   decimal.NullDecimal // what this carcass's value would have gained, $; invalid where there is no price

	share decimal.Decimal // the change as a share of how far the measure usually ranges
}

// measuringStep is the least by which a measure is told apart when a carcass is measured, in the measure's own unit.
// Fat is read to the hundredth of an inch and ribeye to the tenth of a square inch, internal fat to the half percent
// (common practice); scores, marbling and pounds go in whole numbers.
func measuringStep(id measure.ID) decimal.Decimal {
	switch grading.DefinitionOf(id).Unit {
	case "in":
		return decimal.New(1, -2)
	case "sq in":
		return decimal.New(1, -1)
	case "%":
		return decimal.New(5, -1)
	}
	return grading.One
}

// Moves gives for each step that a carcass could have reached the smallest change of each single measure that reaches it;
// those that reach a grade come first, in the order in which the species computes its figures. Each was found by grading
// the changed carcass, so one measuring step less does not reach it. A change past what the rulebook's limits call usual
// is not given, nor one of the weight but for a line of the prices that asks for a weight and where it brings more money in all.
func Moves(g *grading.Graded) []Move {
	if g.Method == nil {
		return nil
	}
	var all []Move
	varied := make(map[measure.ID]*variedMeasure)
	for _, step := range steps(g) {
		for _, id := range restsOn(g, step) {
			if varied[id] == nil {
				varied[id] = vary(g, id)
			}
			if move, found := varied[id].move(step); found && !doneBy(all, move) {
				all = append(all, move)
			}
		}
	}
	return all
}

// doneBy reports whether a change of the same measure, no greater, was found for an earlier step.
func doneBy(all []Move, move Move) bool {
	return slices.ContainsFunc(all, func(other Move) bool {
		return other.Measure == move.Measure && other.Worth.Valid && other.Worth.Decimal.IsPositive() &&
			other.change().Cmp(move.change()) <= 0
	})
}

func (m Move) change() decimal.Decimal { return m.To.Number.Sub(m.From.Number).Abs() }

// mostShare is the largest change that is offered to a feeder, as a share of the usual range of its measure: a quarter, as
// 0.28 in of fat or 2.2 sq in of ribeye (this project's decision). What is further away is another animal.
var mostShare = decimal.New(25, -2)

// leastOfBest is the share of the best move's worth under which a move is not worth telling: a twentieth.
var leastOfBest = decimal.New(5, -2)

// worthTelling gives the moves worth telling a family: first the one worth most, then the others from the nearest on. A change
// that no feeder can make is left out, and so is one worth less than a twentieth of the best; where some are worth money,
// those that are worth none are left out too.
func worthTelling(moves []Move) []Move {
	ordered := slices.DeleteFunc(slices.Clone(moves), func(move Move) bool {
		return move.share.GreaterThan(mostShare) || move.Worth.Valid && move.Worth.Decimal.IsNegative()
	})
	slices.SortStableFunc(ordered, func(a, b Move) int { return a.share.Cmp(b.share) })
	best := -1
	for at, move := range ordered {
		if move.Earns() && (best < 0 || move.Worth.Decimal.GreaterThan(ordered[best].Worth.Decimal)) {
			best = at
		}
	}
	if best < 0 {
		return ordered
	}
	most := ordered[best]
	ordered = slices.Delete(ordered, best, best+1)
	least := most.Worth.Decimal.Mul(leastOfBest)
	ordered = slices.DeleteFunc(ordered, func(move Move) bool { return !move.Earns() || move.Worth.Decimal.LessThan(least) })
	return append([]Move{most}, ordered...)
}

// Earns reports whether a move is worth money.
func (m Move) Earns() bool { return m.Worth.Valid && m.Worth.Decimal.IsPositive() }

// Under gives every measure that can move a figure of this carcass, through whatever steps, in the order of the rulebook's
// measures.
func Under(g *grading.Graded, figure measure.ID) []measure.ID {
	found := map[measure.ID]bool{}
	var gather func(measure.ID)
	gather = func(id measure.ID) {
		for _, under := range g.Under(id) {
			if under != figure && !found[under] {
				found[under] = true
				gather(under)
			}
		}
	}
	gather(figure)
	return slices.SortedFunc(maps.Keys(found), measure.ID.Compare)
}

// steps gives the figures of the carcass that go in steps.
func steps(g *grading.Graded) []measure.ID {
	var steps []measure.ID
	for _, definition := range g.Method.Definitions {
		id := definition.Measure
		_, has := g.Figure(id)
		if has && (id == measure.WholeYieldGrade || id == measure.Price || grading.DefinitionOf(id).Kind == measure.KindGrade) {
			steps = append(steps, id)
		}
	}
	return steps
}

// better says whether a figure that goes in steps is a step better: of the yield grade less is better.
func better(step measure.ID, is, was decimal.Decimal) bool {
	if step == measure.WholeYieldGrade {
		return is.LessThan(was)
	}
	return is.GreaterThan(was)
}

// restsOn gives the measures that a figure of this carcass is computed from and that were measured one by one, in the
// order of the rulebook's measures.
func restsOn(g *grading.Graded, id measure.ID) []measure.ID {
	found := make(map[measure.ID]bool)
	gather(g, id, found, make(map[measure.ID]bool))
	return slices.SortedFunc(maps.Keys(found), measure.ID.Compare)
}

// gather adds the measured ones among what a measure is computed from.
func gather(g *grading.Graded, id measure.ID, found, seen map[measure.ID]bool) {
	if seen[id] {
		return
	}
	seen[id] = true
	under := g.Under(id)
	if len(under) == 0 || slices.Contains(under, id) {
		if measuredReading(g, id) {
			found[id] = true
		}
		return
	}
	for _, id := range under {
		gather(g, id, found, seen)
	}
}

// measuredReading reports whether the carcass has the measure from its own sheet, as a number that could have been another.
func measuredReading(g *grading.Graded, id measure.ID) bool {
	kind := grading.DefinitionOf(id).Kind
	_, has := g.Figure(id)
	return has && g.FigureOf(id).Assumed == "" && (kind == measure.KindNumber || kind == measure.KindMarbling)
}

// twin is a carcass of the same readings, which may be changed.
func twin(g *grading.Graded) *grading.Carcass { return g.Carcass.Clone() }

// with grades the carcass with one measure changed.
func with(c *grading.Carcass, id measure.ID, number decimal.Decimal, book *rules.Rulebook) *grading.Graded {
	value := valueAt(id, number)
	c.SetReading(id, grading.Reading{Value: value, Written: value.Text, Plain: true})
	return grading.Grade(c, book)
}

// paidAlikeForWeight reports whether two carcasses are priced by the same line of the parts that can ask for a weight.
func paidAlikeForWeight(a, b *grading.Graded) bool {
	for _, part := range []rules.Part{rules.WeightPart, rules.MatrixPart, rules.PremiumPart} {
		if !slices.Equal(linesOf(a, part), linesOf(b, part)) {
			return false
		}
	}
	return true
}

// linesOf gives the lines of a part of the rulebook's prices that a carcass is paid by.
func linesOf(g *grading.Graded, part rules.Part) (lines []*rules.GridLine) {
	for _, step := range g.PriceSteps() {
		if step.Part == part {
			lines = append(lines, step.Line)
		}
	}
	return lines
}

// stepChanged gives the part of its price that a changed carcass is paid by another line for; it has no line where there is none.
func stepChanged(was, is *grading.Graded) grading.PriceStep {
	for _, step := range is.PriceSteps() {
		if step.Line != nil && !slices.Contains(linesOf(was, step.Part), step.Line) {
			return step
		}
	}
	return grading.PriceStep{}
}

// gained is what a figure gains from one carcass to the other.
func gained(from, to *grading.Graded, id measure.ID) decimal.NullDecimal {
	was, hasWas := from.Figure(id)
	is, hasIs := to.Figure(id)
	if !hasWas || !hasIs {
		return decimal.NullDecimal{}
	}
	return decimal.NewNullDecimal(is.Number.Sub(was.Number))
}
