package grading

import (
	"railbook/rules"
	"railbook/rules/measure"
)

// adjust computes the measures that the board adjusts to a common live weight: the measure, and for each pound of live weight
// below the common one what the board's line adds. No such line is published, so each is marked as the board's.
func (g *Graded) adjust() {
	for _, adjusted := range g.Book.Adjusted {
		if definition, _ := measure.Define(adjusted.Measure); definition.For(string(g.Species)) {
			g.SetFigure(adjusted.Measure, g.adjusted(adjusted))
		}
	}
}

func (g *Graded) adjusted(adjustment rules.Adjusted) Figure {
	weight, lacksWeight := FigureFor(g, measure.LiveWeight, g.Book)
	value, lacksValue := FigureFor(g, adjustment.Of, g.Book)
	figure := Figure{
		Missing:  join(lacksValue, lacksWeight),
		Equation: adjustment.Of.String() + " at " + adjustment.ToWeight.String() + " lb by the board's own line",
		Estimate: g.FigureOf(adjustment.Of).Estimate,
	}
	if figure.Missing == "" {
		figure.Value = measure.NumberValue(value.Number.Add(adjustment.ToWeight.Sub(weight.Number).Mul(adjustment.PerPound)).Round(ComparedDecimals))
	}
	return figure
}
