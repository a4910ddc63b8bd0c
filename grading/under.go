package grading

import (
	"slices"

	"railbook/rules"
	"railbook/rules/measure"
)

// Under gives what a figure of the carcass was computed from, one step down: readings, other figures, and the marks and scores
// that it does without and that move it where they are there. Where the figure was computed by one way of several it is what
// that way uses; where it is missing, what any of them would. A measure that is only read has nothing under it, or itself.
func (g *Graded) Under(figure measure.ID) []measure.ID {
	if IsCondition(figure) {
		return alsoSetBy[figure]
	}
	if g.Method == nil {
		return nil
	}
	for _, adjusted := range g.Book.Adjusted {
		if adjusted.Measure == figure {
			return []measure.ID{adjusted.Of, measure.LiveWeight}
		}
	}
	if definition, at := g.Method.Define(figure); definition != nil {
		return definition.Rule.under(g, g.taken[at])
	}
	return nil
}

// RestsOn reports whether a figure of the carcass is one of the measures or was computed from one of them, through whatever
// steps.
func (g *Graded) RestsOn(figure measure.ID, measures ...measure.ID) bool {
	if len(measures) == 0 {
		return false
	}
	return slices.Contains(measures, figure) || slices.ContainsFunc(g.Under(figure), func(under measure.ID) bool {
		return under != figure && g.RestsOn(under, measures...)
	})
}

// alsoSetBy are the other measures by which a condition is set or spoken against, beside its own mark.
var alsoSetBy = map[measure.ID][]measure.ID{
	measure.DarkCutter:   {measure.DarkCutterLowering},
	measure.Over30Months: {measure.Under30Months},
	measure.Bullock:      {measure.Sex},
	measure.Bull:         {measure.Sex},
	measure.Cow:          {measure.Sex},
}

// under gives what the way that was taken uses, and what the ways before it were passed over for; where none was taken, what
// all of them use.
func (a Arithmetic) under(_ *Graded, taken int8) (all []measure.ID) {
	for at := range a {
		if taken != notTaken && at > int(taken) {
			break
		}
		all = append(all, a[at].weighs...)
		if taken != notTaken && at < int(taken) {
			continue
		}
		for _, operand := range a[at].needs {
			switch operand := operand.(type) {
			case reading:
				all = append(all, measure.ID(operand))
			case ComputedFigure:
				all = append(all, measure.ID(operand))
			case considered:
				all = append(all, measure.ID(operand))
			}
		}
	}
	return all
}

// under gives what the lines of the rulebook ask about a carcass of the species. The inspector's marks are among it, because
// what is not fit for food has no price that can be relied on.
func (p pricing) under(g *Graded, _ int8) []measure.ID {
	all := []measure.ID{measure.Condemned, measure.Retained}
	lines := p.lines(g)
	if lines.wantsQuality {
		all = append(all, p.quality)
		if p.lowering != measure.None {
			all = append(all, p.lowering)
		}
	}
	if lines.wantsYield {
		all = append(all, p.yield)
	}
	if lines.wantsWeight {
		all = append(all, p.weight)
	}
	for _, line := range g.Book.Grid {
		if line.Species == g.Species && line.Part == rules.ConditionPart {
			all = append(all, line.Mark)
		}
	}
	for _, line := range g.Book.Matrix {
		if line.Species == g.Species {
			all = append(all, line.First, line.Second)
		}
	}
	for _, premium := range g.Book.Premiums {
		if premium.Species != g.Species {
			continue
		}
		for _, test := range premium.Tests {
			all = append(all, test.Measure)
			if !test.PerPound.IsZero() {
				all = append(all, measure.HotCarcassWeight)
			}
		}
	}
	slices.SortFunc(all, measure.ID.Compare)
	return slices.Compact(all)
}

func (n equationName) under(*Graded, int8) []measure.ID { return []measure.ID{n.of} }
