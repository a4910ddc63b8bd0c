package grading

import (
	"railbook/rules"
	"railbook/rules/measure"
)

// adjust computes the measures that the board adjusts to a common live weight: the measure, and for each pound of live weight
// below the common one what the board's line adds. No such line is published, so each is marked as the board's.
func (g *Graded) adjust() {
	for _, one := range g.Book.Adjusted {
		if definition, _ := measure.Define(one.Measure); definition.For(string(g.Species)) {
			g.SetFigure(one.Measure, g.adjusted(one))
		}
	}
}

func (g *Graded) adjusted(one rules.Adjusted) Figure {
	weight, lacksWeight := FigureFor(g, measure.LiveWeight, g.Book)
	value, lacksValue := FigureFor(g, one.Of, g.Book)
	figure := Figure{
		Missing:  join(lacksValue, lacksWeight),
		Equation: one.Of.String() + " at " + one.ToWeight.String() + " lb by the board's own line",
		Estimate: g.FigureOf(one.Of).Estimate,
	}
	if figure.Missing == "" {
		figure.Value = measure.NumberValue(value.Number.Add(one.ToWeight.Sub(weight.Number).Mul(one.PerPound)).Round(ComparedDecimals))
	}
	return figure
}
