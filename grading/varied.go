package grading

import (
	"slices"

	"railbook/rules"
	"railbook/rules/measure"
)

// Varied is a graded carcass of which one measure is varied and all else stays. Only what may rest on that measure is
// computed anew for each of its numbers.
type Varied struct {
	of    *Graded
	by    measure.ID
	moved map[measure.ID]bool // the figures asked about so far: whether they may rest on the measure
	goes  map[measure.ID]bool // and whether they go one way as it rises
	again []int               // the definitions that are computed anew, in order

	paid         map[string][]*rules.GridLine // the lines that the carcass is paid by, by the number of the measure
	asked, bands []measure.ID                 // what the price asks about that rests on the measure, and of that what lies within bands
}

// Vary makes the carcass ready to have a measure varied that was read of it as a number.
func (g *Graded) Vary(id measure.ID) *Varied {
	v := &Varied{of: g, by: id, moved: make(map[measure.ID]bool), goes: make(map[measure.ID]bool), paid: make(map[string][]*rules.GridLine)}
	if g.Method != nil {
		for at := range g.Method.Definitions {
			if v.Moves(g.Method.Definitions[at].Measure) {
				v.again = append(v.again, at)
			}
		}
	}
	return v
}

// At grades the carcass with another value of the measure, as Grade would grade it.
func (v *Varied) At(value measure.Value) *Graded {
	carcass := v.of.Clone()
	carcass.SetReading(v.by, Reading{Value: value, Written: value.Text, Plain: true})
	if v.of.Method == nil || v.setsCondition() {
		return Grade(carcass, v.of.Book)
	}
	g := *v.of
	g.Carcass, g.figures, g.taken = carcass, v.of.figures.Clone(), slices.Clone(v.of.taken)
	for _, at := range v.again {
		g.figures.Delete(g.Method.Definitions[at].Measure)
	}
	withoutGain := g.withoutGain()
	for _, at := range v.again {
		if at >= withoutGain {
			break
		}
		g.define(at)
	}
	g.adjust()
	return &g
}

// setsCondition reports whether the measure is a sign of a condition, so that what is derived first of all changes with it.
func (v *Varied) setsCondition() bool {
	for _, id := range eachCondition {
		if v.Moves(id) {
			return true
		}
	}
	return false
}

// Moves reports whether a figure may rest on the measure, through whatever steps and by any way of computing it.
func (v *Varied) Moves(figure measure.ID) bool {
	if moves, known := v.moved[figure]; known {
		return moves
	}
	v.moved[figure] = figure == v.by // a figure that is its own reading by one of its ways asks for itself
	moves := v.movesAnew(figure)
	v.moved[figure] = moves
	return moves
}

func (v *Varied) movesAnew(figure measure.ID) bool {
	if figure == v.by {
		return true
	}
	if _, isIndex := v.of.Book.Index(figure); isIndex {
		return true // of its parts nothing is known here
	}
	if v.movesAny(alsoSetBy[figure]) {
		return true
	}
	for _, adjusted := range v.of.Book.Adjusted {
		if adjusted.Measure == figure && (v.Moves(adjusted.Of) || v.Moves(measure.LiveWeight)) {
			return true
		}
	}
	definition, _ := v.of.Method.Define(figure)
	if definition == nil {
		return false
	}
	if ways, ok := definition.Rule.(Arithmetic); ok {
		for at := range ways {
			if v.movesWay(&ways[at]) {
				return true
			}
		}
		return false
	}
	return v.movesAny(definition.Rule.under(v.of, notTaken))
}

func (v *Varied) movesAny(figures []measure.ID) bool {
	for _, figure := range figures {
		if v.Moves(figure) {
			return true
		}
	}
	return false
}

// movesWay reports whether a way of computing a figure, or whether it is taken, rests on the measure.
func (v *Varied) movesWay(way *way) bool { return v.movesAny(way.weighs) || v.movesOperands(way.needs) }

func (v *Varied) movesOperands(operands []Expression) bool {
	for _, operand := range operands {
		switch operand := operand.(type) {
		case reading:
			if measure.ID(operand) == v.by {
				return true
			}
		case ComputedFigure:
			if v.Moves(measure.ID(operand)) {
				return true
			}
		case considered:
			if v.Moves(measure.ID(operand)) {
				return true
			}
		}
	}
	return false
}

// OneWay reports whether a figure only ever rises, or only ever falls, or stays, while the measure rises and as long as
// there is a figure. False means that it is not known to.
func (v *Varied) OneWay(figure measure.ID) bool {
	oneWay, known := v.goes[figure]
	if !known {
		oneWay = v.oneWayAnew(figure)
		v.goes[figure] = oneWay
	}
	return oneWay
}

func (v *Varied) oneWayAnew(figure measure.ID) bool {
	if !v.Moves(figure) {
		return true
	}
	if v.of.Method == nil {
		return false
	}
	definition, at := v.of.Method.Define(figure)
	if definition == nil {
		return figure == v.by && len(alsoSetBy[figure]) == 0
	}
	if _, called := v.of.Judged(figure); called {
		return true
	}
	ways, ok := definition.Rule.(Arithmetic)
	taken := v.of.taken[at]
	if !ok || taken == notTaken {
		return false
	}
	for at := range taken {
		if v.movesWay(&ways[at]) {
			return false
		}
	}
	return !v.movesAny(ways[taken].weighs) && v.oneWay(ways[taken].Of)
}

// oneWay tells the same of an expression: each of these forms goes one way with any one of its operands, and so one of them
// alone may rest on the measure.
func (v *Varied) oneWay(of Expression) bool {
	if !v.movesOperands(of.operands()) {
		return true
	}
	switch of := of.(type) {
	case reading:
		return true
	case ComputedFigure:
		return v.OneWay(measure.ID(of))
	case Rounded:
		return v.oneWay(of.Of)
	case Whole:
		return v.oneWay(of.Of)
	case listed:
		return v.oneWay(of.of)
	case Linear:
		return v.oneAlone(of.operands()...)
	case sum:
		return v.oneAlone(of.left, of.right)
	case difference:
		return v.oneAlone(of.from, of.less)
	case product:
		return v.oneAlone(of.left, of.right)
	case Quotient:
		return v.oneAlone(of.Over, of.Under)
	case greatest:
		return v.oneAlone(of.left, of.right)
	case least:
		return v.oneAlone(of.left, of.right)
	case conditional:
		return !v.movesOperands(of.when.operands()) && v.oneWay(of.taken(v.of))
	case refused: // it refuses what is too low or too high, never what lies between two that it allows
		return !v.movesAny(of.weighs) && v.oneWay(of.Expression)
	case lookUp: // the lines of a group are in the order of their least scores and grades; not so the grades as they are lowered
		return v.oneWay(of.score) && of.column(v.of) == 0 && (of.within == nil || !v.movesOperands(of.within.operands())) &&
			(of.group == nil || !v.movesOperands(of.group.operands())) && (!of.lowered || !v.Moves(measure.DarkCutterLowering))
	}
	return false
}

// oneAlone reports whether one of the expressions at most rests on the measure, and goes one way with it.
func (v *Varied) oneAlone(parts ...Expression) bool {
	moving := 0
	for _, part := range parts {
		if v.movesOperands(part.operands()) {
			moving++
			if !v.oneWay(part) {
				return false
			}
		}
	}
	return moving <= 1
}

// AlikeBetween reports whether a figure is the same for every number of the measure between those of two carcasses that At
// gave. False means that it is not known to be.
func (v *Varied) AlikeBetween(a, b *Graded, figure measure.ID) bool {
	if !v.Moves(figure) {
		return true
	}
	if v.of.Method == nil {
		return false
	}
	definition, _ := v.of.Method.Define(figure)
	if definition == nil {
		return false
	}
	if rule, ok := definition.Rule.(pricing); ok {
		return v.pricedAlike(rule, a, b)
	}
	first, hasFirst := a.Figure(figure)
	second, hasSecond := b.Figure(figure)
	if hasFirst && hasSecond && first.Text == second.Text && first.Number.Equal(second.Number) && v.OneWay(figure) {
		return true
	}
	ways, ok := definition.Rule.(Arithmetic)
	if !ok {
		return false
	}
	for at := range ways {
		if v.movesAny(ways[at].weighs) || !v.operandsAlike(a, b, ways[at].needs) {
			return false
		}
	}
	return true
}

// operandsAlike reports whether all that is needed is alike between the two.
func (v *Varied) operandsAlike(a, b *Graded, operands []Expression) bool {
	for _, operand := range operands {
		if !v.movesOperands([]Expression{operand}) {
			continue
		}
		if figure, ok := operand.(ComputedFigure); !ok || !v.AlikeBetween(a, b, measure.ID(figure)) {
			return false
		}
	}
	return true
}

// pricedAlike reports whether every carcass between the two is paid by the very lines that both are paid by. A grade and a
// figure that bands hold lie between those of the two where they go one way; for all else that the price asks about they
// must be alike.
func (v *Varied) pricedAlike(rule pricing, a, b *Graded) bool {
	if lines := v.paidBy(rule, a); len(lines) == 0 || !slices.Equal(lines, v.paidBy(rule, b)) {
		return false
	}
	if v.asked == nil {
		v.asked = slices.DeleteFunc(rule.under(v.of, notTaken), func(id measure.ID) bool { return !v.Moves(id) })
		v.bands = slices.DeleteFunc(v.asksByBandsAlone(rule), func(id measure.ID) bool { return !v.OneWay(id) })
	}
	settings := &v.of.Book.Settings
	if settings.PriceByThirds && settings.DarkCutterTakes == rules.DarkCutterDiscount && v.Moves(rule.quality) {
		return false // the grade that is paid for is not the one that can be compared
	}
	for _, id := range v.asked {
		if !slices.Contains(v.bands, id) && !v.AlikeBetween(a, b, id) {
			return false
		}
	}
	return true
}

// paidBy gives the lines that the carcass is paid by with one of its numbers; none where it has no price.
func (v *Varied) paidBy(rule pricing, g *Graded) []*rules.GridLine {
	number := g.ReadingOf(v.by).Value.Number.String()
	lines, known := v.paid[number]
	if !known {
		if _, priced := g.Figure(measure.Price); priced {
			found := rule.lines(g)
			lines = found.paid(!g.Book.Settings.ConditionsAdd)
		}
		v.paid[number] = lines
	}
	return lines
}

// asksByBandsAlone gives the figures that the price asks about by bands alone: what lies between two figures of a band is in
// the band. A premium may ask otherwise.
func (v *Varied) asksByBandsAlone(rule pricing) []measure.ID {
	bands := []measure.ID{rule.yield, rule.weight}
	if !v.of.Book.Settings.PriceByThirds {
		bands = append(bands, rule.quality) // the thirds of a grade are paid by one line
	}
	for at := range v.of.Book.Matrix {
		if line := &v.of.Book.Matrix[at]; line.Species == v.of.Species {
			bands = append(bands, line.First, line.Second)
		}
	}
	for at := range v.of.Book.Premiums {
		premium := &v.of.Book.Premiums[at]
		for _, test := range premium.Tests {
			if premium.Species == v.of.Species {
				bands = slices.DeleteFunc(bands, func(id measure.ID) bool {
					return id == test.Measure || id == measure.HotCarcassWeight && !test.PerPound.IsZero()
				})
			}
		}
	}
	return bands
}
