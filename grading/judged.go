package grading

import "railbook/rules"

// judged gives the grade that the judge called for a carcass: it stands in place of the computed one, and no formula
// computes it. What a plant's own sheet says of a grade is another measure and never gets here.
func (g *Graded) judged(measure rules.Measure) (Figure, bool) {
	definition, _ := rules.Define(measure)
	call, found := g.Readings[measure]
	if !found || call.Unreadable || definition.Kind != rules.KindGrade || !definition.Computed {
		return Figure{}, false
	}
	return Figure{Value: call.Value, Assumed: string(measure) + " as the judge called it"}, true
}
