package grading

import (
	"railbook/rules/measure"
)

// judged gives the grade that the judge called for a carcass: it stands in place of the computed one, and no formula
// computes it. What a plant's own sheet says of a grade is another measure and never gets here.
func (g *Graded) Judged(id measure.ID) (Figure, bool) {
	definition, _ := measure.Define(id)
	call, found := g.Written(id)
	if !found || call.Unreadable || definition.Kind != measure.KindGrade || !definition.Computed {
		return Figure{}, false
	}
	return Figure{Value: call.Value, Assumed: id.String() + " as the judge called it"}, true
}
