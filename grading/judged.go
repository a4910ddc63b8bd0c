package grading

import (
	"railbook/rules"
	"railbook/rules/measure"
)

// Judged gives the grade that the judge called for a carcass: it stands in place of the computed one, and no formula
// computes it. What a plant's own sheet says of a grade is another measure and gets here only where the rulebook lets it stand
// for a carcass without marbling.
func (g *Graded) Judged(id measure.ID) (Figure, bool) {
	definition, _ := measure.Define(id)
	call, found := g.readings.Get(id)
	if id == measure.QualityGrade && !found && g.QualityOfPlant() {
		stamped, _ := g.Value(measure.SheetQualityGrade)
		return Figure{Value: stamped, Assumed: "the plant's own quality grade, for no marbling is given"}, true
	}
	if !found || call.of.unreadable || definition.Kind != measure.KindGrade || !definition.Computed {
		return Figure{}, false
	}
	return Figure{Value: call.of.value, Assumed: id.String() + " as the judge called it"}, true
}

// QualityOfPlant reports whether the plant's own quality grade stands for the carcass: the rulebook lets it where no marbling
// is given, and the plant gave one.
func (g *Graded) QualityOfPlant() bool {
	if g.Book.Settings.WithoutMarbling != rules.QualityOfPlant || g.Species != rules.Beef || g.Basis != rules.OnTheRail {
		return false
	}
	_, stamped := g.Value(measure.SheetQualityGrade)
	return stamped && !g.HasWritten(measure.Marbling) && !g.HasWritten(measure.QualityGrade)
}

// Without reports whether a figure that the carcass can't be placed without is not there. Where the plant's grade stands, the
// marbling and the maturity that it rests on are not needed.
func (g *Graded) Without(id measure.ID) bool {
	if _, ok := g.Figure(id); ok {
		return false
	}
	return !g.QualityOfPlant() || id != measure.MarblingScore && id != measure.OverallMaturity
}
