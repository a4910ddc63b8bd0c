package validate

import (
	"slices"

	"railbook/rules/measure"
)

// ownFigureDisagrees has the judge look at a carcass whose own yield grade, cutability, dressing percent or quality grade,
// as the sheet has it, its measures do not give, with the slip in a measure that would bring them together. A true row
// with a rightly computed figure is never named.
func ownFigureDisagrees(s *survey) []Finding {
	var findings []Finding
	for i := range ownFigures {
		own := &ownFigures[i]
		for _, r := range s.rows {
			if s.compareOwn(r, own) == disagrees && !r.ownDoubted && r.sound(own.sheet) &&
				r.sound(s.inputs(r, own.computed)...) {
				findings = append(findings, s.ownFigure(r, own))
				r.ownDoubted = s.weighs(r, own)
			}
		}
	}
	return findings
}

func (s *survey) ownFigure(r *row, own *ownFigure) Finding {
	written := r.ReadingOf(own.sheet).Value
	computed, _ := r.Figure(own.computed)
	code := "sheet's own " + own.computed.String() + " disagrees"
	words := "the sheet has " + own.computed.String() + " " + written.Text + ", but its measures give " +
		printed(computed, own.computed)
	if likely, ok := s.reconciling(r, own); ok {
		finding := s.about(Look, code, r, likely.measure)
		finding.Hint = likely.value.String()
		return finding.say(words + "; the two agree if the " + called(likely.measure) + " is " + likely.value.String() +
			", since " + r.ReadingOf(likely.measure).Value.Number.String() + " " + likely.words + "." + correctIt)
	}
	if weight, ok := r.cellOf(measure.HotCarcassWeight); ok && s.weighs(r, own) && s.looksChilled(r) {
		return s.about(Look, code, r, weight).say(words +
			"; the two agree if the carcass weight is a few percent higher, so it may be the chilled weight." + correctIt)
	}
	return s.about(Look, code, r, own.sheet).say(words + ". One of the measures or the sheet's own figure is wrong." + correctIt)
}

// reconciling gives the likeliest slip that makes the sheet's own figure and the computed one agree.
func (s *survey) reconciling(r *row, own *ownFigure) (explanation, bool) {
	likely, ok := s.likeliest(r, s.inputs(r, own.computed)...)
	if !ok || likely.gain < gainNeeded {
		return explanation{}, false
	}
	mended := s.with(r, map[measure.ID]measure.Value{likely.measure: measure.NumberValue(likely.value)})
	return likely, s.compareOwn(mended, own) == agrees
}

// printed writes a figure as it is shown: grades in words, numbers to the measure's decimals.
func printed(value measure.Value, id measure.ID) string {
	if definition, _ := measure.Define(id); definition.Kind != measure.KindNumber {
		return value.Text
	}
	return rounded(value.Number, id)
}

// weighs reports whether the carcass weight is among what a figure is worked out from.
func (s *survey) weighs(r *row, own *ownFigure) bool {
	return slices.Contains(s.inputs(r, own.computed), measure.HotCarcassWeight)
}
