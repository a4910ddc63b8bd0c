package validate

import (
	"maps"
	"slices"

	"github.com/shopspring/decimal"

	"railbook/rules"
)

// impossibleValue holds a cell whose value the rulebook says cannot be true, with what it was likely meant as.
func impossibleValue(s *survey) []Finding { return s.outOfRange(Hold) }

// unusualValue has the judge look at a cell whose value is possible but rare. About one true carcass in a hundred is
// named by it, since real carcasses pass the look limits now and then.
func unusualValue(s *survey) []Finding { return s.outOfRange(Look) }

// outOfRange names the cells outside the limits at one level.
func (s *survey) outOfRange(level Level) []Finding {
	var findings []Finding
	for _, r := range s.rows {
		for _, measure := range s.limited(r.Species) {
			if finding, ok := s.rangeFinding(r, measure, level); ok {
				findings = append(findings, finding)
				r.doubt(finding.Measure)
			}
		}
	}
	return findings
}

// limited gives the read measures for which the rulebook has limits, in a fixed order.
func (s *survey) limited(species rules.Species) []rules.Measure {
	var list []rules.Measure
	for _, of := range []rules.Species{species, ""} {
		for _, measure := range slices.Sorted(maps.Keys(s.limits[of])) {
			if definition, _ := rules.Define(measure); !definition.Computed && !slices.Contains(list, measure) {
				list = append(list, measure)
			}
		}
	}
	return list
}

// How much better a possible, if unusual, row must fit before it is given a hint: more where no class tells what fits.
const (
	gainForHint        = 1.5
	gainForHintUnaided = 2.5
)

// worthAHint reports whether a slip explains a row well enough to be shown as a hint.
func (s *survey) worthAHint(r *row, level Level, likely explanation) bool {
	if level == Hold {
		return true
	}
	if s.peersOf(r).count < enoughPeers {
		return likely.gain >= gainForHintUnaided
	}
	return likely.gain >= gainForHint
}

func (s *survey) rangeFinding(r *row, measure rules.Measure, level Level) (Finding, bool) {
	limit, _ := s.limit(r, measure)
	reading, read := r.Reading(measure)
	cell, value := measure, reading.Value.Number
	if !read {
		var ok bool
		if value, ok = r.number(measure); !ok {
			return Finding{}, false
		}
		if cell, ok = r.cellOf(measure); !ok {
			return Finding{}, false
		}
	}
	if !r.sound(cell) || judged(limit, value) != level {
		return Finding{}, false
	}
	finding := s.about(level, called(measure)+" out of range", r, cell)
	likely, explained := s.likeliest(r, cell)
	explained = explained && s.worthAHint(r, level, likely)
	if explained {
		finding.Hint = likely.value.String()
	}
	return finding.say(s.rangeWords(limit, value, likely, explained, level)), true
}

// rangeWords says what is wrong with a value and what it was likely meant as.
func (s *survey) rangeWords(limit rules.Limit, value decimal.Decimal, likely explanation, explained bool, level Level) string {
	definition, _ := rules.Define(limit.Measure)
	name := called(limit.Measure)
	if explained {
		words := name + " " + value.String() + " is unusual"
		if level == Hold {
			words = name + " " + value.String() + " can't be right"
			if unit := unitWords[definition.Unit]; unit != "" {
				words = name + " " + value.String() + " can't be " + unit
			}
		}
		return words + "; it " + likely.meant() + "." + correctIt
	}
	if level == Hold {
		return name + " " + withUnit(value, limit.Measure) + " can't be true: possible is " +
			span(limit.HoldBelow, limit.HoldAbove) + "." + correctIt
	}
	return name + " " + withUnit(value, limit.Measure) + " is unusual (" + span(limit.LookBelow, limit.LookAbove) + " is not)." + lookAtIt
}
