package validate

import (
	"railbook/rules/measure"
)

// gainNeeded is how much better a row must fit without a slip before the slip is reported: about three spreads' worth.
const gainNeeded = 4.5

// explainedBy reports the rows that one kind of slip explains better than any other kind.
func (s *survey) explainedBy(kind slipKind, code string) []Finding {
	var findings []Finding
	for _, r := range s.rows {
		likely, ok := s.explained(r)
		if !ok || likely.kind != kind || !r.sound(likely.measure) || likely.gain < gainNeeded {
			continue
		}
		finding := s.about(Look, code, r, likely.measure)
		finding.Hint = likely.value.String()
		findings = append(findings, finding.say(s.explainedWords(r, likely)))
	}
	return findings
}

// explained gives the likeliest slip of a row nothing of which is doubted yet, worked out once.
func (s *survey) explained(r *row) (explanation, bool) {
	if r.asked {
		return r.likely, r.likely.gain > 0
	}
	r.asked = true
	if !r.sound(r.kind.measures...) || s.misfit(r) < gainNeeded {
		return explanation{}, false
	}
	var cells []measure.ID
	for _, cell := range r.kind.measures {
		if s.mostGain(r, cell) >= gainNeeded {
			cells = append(cells, cell)
		}
	}
	r.likely, _ = s.likeliest(r, cells...)
	return r.likely, r.likely.gain > 0
}

// explainedWords says what a slip would explain.
func (s *survey) explainedWords(r *row, likely explanation) string {
	reading := r.ReadingOf(likely.measure)
	mended := s.with(r, map[measure.ID]measure.Value{likely.measure: measure.NumberValue(likely.value)})
	words := called(likely.measure) + " " + reading.Value.Number.String() + " " + likely.meant() + ": "
	for i := range ownFigures {
		own := &ownFigures[i]
		if s.compareOwn(r, own) == disagrees && s.compareOwn(mended, own) == agrees {
			return words + "the sheet's own " + own.computed.String() + " " + r.ReadingOf(own.sheet).Value.Text + " would then agree." + correctIt
		}
	}
	before, hadBefore := r.number(measure.DressingPercent)
	after, hasAfter := mended.number(measure.DressingPercent)
	if hadBefore && hasAfter && !before.Equal(after) {
		return words + "dressing percent would be " + rounded(after, measure.DressingPercent) + " instead of " +
			rounded(before, measure.DressingPercent) + "." + correctIt
	}
	return words + "it would then be in line with what is usual." + correctIt
}
