package validate

import (
	"maps"
	"slices"

	"railbook/rules"
)

// impossibleRate holds a carcass with a computed figure that cannot be true, such as a gain of 30 lb a day: a date or a
// weight that it is worked out from is wrong, though each of them may be plausible by itself.
func impossibleRate(s *survey) []Finding { return s.rates(Hold) }

// unusualRate has the judge look at a computed figure that is possible but rare.
func unusualRate(s *survey) []Finding { return s.rates(Look) }

// ratesElsewhere are the limited figures that have a check of their own.
var ratesElsewhere = []rules.Measure{rules.DressingPercent, rules.RibeyePerHundredweight, chillLoss}

// likelierWrong are the cells that a computed figure out of range likely comes of, the likeliest first: dates are typed
// by hand far from the cooler.
var likelierWrong = []rules.Measure{
	rules.StartDate, rules.BirthDate, rules.StartWeight, rules.WeighInDate, rules.KillDate,
}

func (s *survey) rates(level Level) []Finding {
	var findings []Finding
	for _, r := range s.rows {
		for _, measure := range r.kind.figures {
			figure, ok := r.number(measure)
			if !ok || r.kind.limit[measure].judge(figure) != level {
				continue
			}
			cells := s.readInputs(r, measure)
			if len(cells) == 0 || !r.sound(cells...) {
				continue
			}
			limit := r.kind.limit[measure]
			words := string(measure) + " " + rounded(figure, measure) + unitAfter(measure)
			finding := s.about(level, string(measure)+" out of range", r, cells[0])
			if level == Hold {
				words += " can't be true: possible is " + span(limit.HoldBelow, limit.HoldAbove) + ". Compare " + s.listCells(r, cells) + "." + correctIt
			} else {
				words += " is unusual (" + span(limit.LookBelow, limit.LookAbove) + " is not). Compare " + s.listCells(r, cells) + "." + lookAtIt
			}
			findings = append(findings, finding.say(words))
			r.doubt(cells...)
		}
	}
	return findings
}

// readInputs gives the cells of the row that a figure is worked out from, the likelier wrong first.
func (s *survey) readInputs(r *row, figure rules.Measure) []rules.Measure {
	var cells []rules.Measure
	inputs := s.inputs(r, figure)
	for _, measure := range slices.Concat(likelierWrong, inputs) {
		if _, read := r.Reading(measure); read && slices.Contains(inputs, measure) && !slices.Contains(cells, measure) {
			cells = append(cells, measure)
		}
	}
	return cells
}

// listCells names the dates and weights that a figure rests on, with what stands in them.
func (s *survey) listCells(r *row, cells []rules.Measure) string {
	var words []string
	for _, measure := range cells {
		reading := r.Readings[measure]
		definition, _ := rules.Define(measure)
		value := reading.Value.Text
		if definition.Kind == rules.KindNumber {
			value = withUnit(reading.Value.Number, measure)
		}
		words = append(words, string(measure)+" "+value)
	}
	return listed(words)
}

func unitAfter(measure rules.Measure) string {
	definition, _ := rules.Define(measure)
	if definition.Unit == "" {
		return ""
	}
	return " " + definition.Unit
}

// computedFigures are the computed measures that have a limit and no check of their own, in a fixed order.
func computedFigures(limits map[rules.Measure]*limit) []rules.Measure {
	var list []rules.Measure
	for _, measure := range slices.Sorted(maps.Keys(limits)) {
		if definition, _ := rules.Define(measure); definition.Computed && !slices.Contains(ratesElsewhere, measure) {
			list = append(list, measure)
		}
	}
	return list
}
