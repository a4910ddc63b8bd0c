package validate

import (
	"slices"
	"strconv"

	"railbook/rules"
	"railbook/rules/measure"
)

// ownFiguresThroughout says once for a sheet how its own figures go with the computed ones where they do not to their last
// decimal: they lie about them, as a camera's or those of unrounded measures do, or are worked out otherwise.
func ownFiguresThroughout(s *checker) []Finding {
	var findings []Finding
	for i := range s.Sheets {
		sheet := &s.Sheets[i]
		said := map[measure.ID]bool{}
		for _, r := range sheet.rows {
			m, _ := s.modelOf(r)
			for k, own := range m.own {
				at, has := sheet.Columns[own.of.sheet]
				if !has || said[own.of.sheet] || !m.compares(k) || own.exact || sheet.chilled {
					continue
				}
				said[own.of.sheet] = true
				findings = append(findings, own.throughout(at))
			}
		}
	}
	return findings
}

// compares reports whether any row of a model has one of the sheet's own figures and the computed one.
func (m *sheetModel) compares(k int) bool {
	return slices.ContainsFunc(m.rows, func(r *modelRow) bool { return r.own[k].has })
}

func (o *ownModel) throughout(at rules.Place) Finding {
	name := o.of.computed.String()
	if !o.otherwise() {
		finding := Finding{Level: Note, Code: "sheet's own " + name + " lies about the computed one", At: at, Measure: o.of.sheet}
		return finding.say("the sheet's own " + name + " lies about the computed one with a spread of " + strconv.FormatFloat(o.about.deviation, 'f', 2, 64) +
			", as one from a camera or from unrounded measures does. Single carcasses are held to that spread.")
	}
	finding := Finding{Level: Look, Code: "sheet's own " + name + " disagrees throughout", At: at, Measure: o.of.sheet}
	return finding.say("the sheet's own " + name +
		" disagrees with the computed one in more than a fifth of the carcasses, so it is worked out otherwise or a whole column is " +
		"wrong. Ask the plant how it is worked out; it is not used to check single carcasses.")
}

// ownFigureFinding has the judge look at a carcass whose own yield grade, cutability, dressing percent or quality grade, as the
// sheet has it, its measures do not give, where no slip in a measure explains it better.
func (s *checker) ownFigureFinding(r *row, own *ownFigure) Finding {
	written := r.ReadingOf(own.sheet).Value
	computed, _ := r.Figure(own.computed)
	code := "sheet's own " + own.computed.String() + " disagrees"
	words := "the sheet has " + own.computed.String() + " " + written.Text + ", but its measures give " + printed(computed, own.computed)
	if weight, ok := r.cellOf(measure.HotCarcassWeight); ok && s.weighs(r, own) && s.looksChilled(r) {
		return s.about(Look, code, r, weight).say(words +
			"; the two agree if the carcass weight is a few percent higher, so it may be the chilled weight." + correctIt)
	}
	return s.about(Look, code, r, own.sheet).say(words + ". One of the measures or the sheet's own figure is wrong." + correctIt)
}

// printed writes a figure as it is shown: grades in words, numbers to the measure's decimals.
func printed(value measure.Value, id measure.ID) string {
	if definition, _ := measure.Define(id); definition.Kind != measure.KindNumber {
		return value.Text
	}
	return rounded(value.Number, id)
}

// weighs reports whether the carcass weight is among what a figure is worked out from.
func (s *checker) weighs(r *row, own *ownFigure) bool {
	return slices.Contains(s.inputs(r, own.computed), measure.HotCarcassWeight)
}
