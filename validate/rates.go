package validate

import (
	"maps"
	"slices"

	"railbook/rules/measure"
	"railbook/rules/phrase"
)

// impossibleRate holds a carcass with a computed figure that cannot be true, such as a gain of 30 lb a day: a date or a
// weight that it is worked out from is wrong, though each of them may be plausible by itself.
func impossibleRate(s *checker) []Finding { return s.rates(Hold) }

// unusualRate has the judge look at a computed figure that is possible but rare.
func unusualRate(s *checker) []Finding { return s.rates(Look) }

// ratesElsewhere are the limited figures that have a check of their own.
var ratesElsewhere = []measure.ID{measure.DressingPercent, measure.RibeyePerHundredweight, measure.ChillLoss}

// likelierWrong are the cells that a computed figure out of range likely comes of, the likeliest first: dates are typed
// by hand far from the cooler.
var likelierWrong = []measure.ID{
	measure.StartDate, measure.BirthDate, measure.StartWeight, measure.WeighInDate, measure.KillDate,
}

func (s *checker) rates(level Level) []Finding {
	var findings []Finding
	for _, r := range s.rows {
		for _, id := range r.kind.figures {
			figure, ok := r.number(id)
			if !ok || r.kind.limit[id].judge(figure) != level {
				continue
			}
			cells := s.readInputs(r, id)
			if len(cells) == 0 || !r.sound(cells...) {
				continue
			}
			limit := r.kind.limit[id]
			words := id.String() + " " + rounded(figure, id) + unitAfter(id)
			finding := s.about(level, id.String()+" out of range", r, cells[0])
			finding.Doubts = append([]measure.ID{id}, likeliestOf(cells)...)
			if level == Hold {
				words += " can't be true: possible is " + span(limit.HoldBelow, limit.HoldAbove) + ". Compare " + s.listCells(r, cells) + "." + correctIt
			} else {
				words += " is unusual" + s.notUsual(limit, figure) + ". Compare " + s.listCells(r, cells) + "." + lookAtIt
			}
			findings = append(findings, finding.say(words))
			r.doubt(cells...)
		}
	}
	return findings
}

// likeliestOf gives the cells that a figure out of range leaves in doubt: where dates and start weights are among them those,
// because a scale and a ruler have been held to the other measures already, else all of them.
func likeliestOf(cells []measure.ID) []measure.ID {
	likely := slices.DeleteFunc(slices.Clone(cells), func(id measure.ID) bool { return !slices.Contains(likelierWrong, id) })
	if len(likely) == 0 {
		return cells
	}
	return likely
}

// readInputs gives the cells of the row that a figure is worked out from, the likelier wrong first.
func (s *checker) readInputs(r *row, figure measure.ID) []measure.ID {
	var cells []measure.ID
	inputs := s.inputs(r, figure)
	for _, id := range slices.Concat(likelierWrong, inputs) {
		if _, read := r.Value(id); read && slices.Contains(inputs, id) && !slices.Contains(cells, id) {
			cells = append(cells, id)
		}
	}
	return cells
}

// listCells names the dates and weights that a figure rests on, with what stands in them.
func (s *checker) listCells(r *row, cells []measure.ID) string {
	var words []string
	for _, id := range cells {
		reading := r.ReadingOf(id)
		definition, _ := measure.Define(id)
		value := reading.Value.Text
		if definition.Kind == measure.KindNumber {
			value = withUnit(reading.Value.Number, id)
		}
		words = append(words, id.String()+" "+value)
	}
	return phrase.JoinAnd(words)
}

func unitAfter(id measure.ID) string {
	definition, _ := measure.Define(id)
	if definition.Unit == "" {
		return ""
	}
	return " " + definition.Unit
}

// computedFigures are the computed measures that have a limit and no check of their own, in a fixed order.
func computedFigures(limits map[measure.ID]*limit) []measure.ID {
	var list []measure.ID
	for _, id := range slices.SortedFunc(maps.Keys(limits), measure.CompareNames) {
		if definition, _ := measure.Define(id); definition.Computed && !slices.Contains(ratesElsewhere, id) {
			list = append(list, id)
		}
	}
	return list
}
