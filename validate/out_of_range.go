package validate

import (
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// impossibleValue holds a cell whose value the rulebook says cannot be true, with what it was likely meant as.
func impossibleValue(s *checker) []Finding { return s.outOfRange(Hold) }

// unusualValue has the judge look at values beyond the rulebook's look bounds: a small class one by one, a group once. A class
// with enough animals tells by itself what is usual in it.
func unusualValue(s *checker) []Finding {
	var findings []Finding
	seen := map[measure.ID]bool{}
	for _, r := range s.rows {
		for _, id := range r.kind.measures {
			if seen[id] {
				continue
			}
			seen[id] = true
			findings = append(findings, s.unusual(id, func(r *row) (decimal.Decimal, Level, bool) {
				place, limited := r.kind.place[id]
				if !limited || !r.cells[place].has {
					return decimal.Decimal{}, "", false
				}
				value, _, _ := r.limited(place)
				return value, r.cells[place].level(), true
			}, func(r *row) (Finding, bool) { return s.rangeFinding(r, r.kind.place[id]) })...)
		}
	}
	return findings
}

// outOfRange names the cells outside the limits at one level.
func (s *checker) outOfRange(level Level) []Finding {
	var findings []Finding
	for _, r := range s.rows {
		for i := range r.cells {
			if r.cells[i].level() != level {
				continue
			}
			if finding, ok := s.rangeFinding(r, i); ok {
				findings = append(findings, finding)
				r.doubt(finding.Measure)
			}
		}
	}
	return findings
}

// gainForHint is how much likelier a possible, if unusual, row must be with a slip before that is given as a hint.
const gainForHint = 2.5

// worthAHint reports whether a slip explains a row well enough to be shown as a hint.
func (s *checker) worthAHint(r *row, level Level, likely explanation) bool {
	if level == Hold {
		return true
	}
	return likely.gain >= gainForHint
}

// rangeFinding names the cell that a value outside its limit comes of.
func (s *checker) rangeFinding(r *row, place int) (Finding, bool) {
	id, limit, level := r.kind.measures[place], r.kind.limits[place], r.cells[place].level()
	value, _, _ := r.limited(place)
	cells := []measure.ID{id}
	if !r.cells[place].read {
		cells = r.cellsOf(id)
	}
	if len(cells) == 0 || !r.sound(cells...) {
		return Finding{}, false
	}
	name := called(id)
	finding := s.about(level, name+" out of range", r, cells[0])
	likely, explained := s.likeliest(r, cells...)
	if explained && s.worthAHint(r, level, likely) {
		words := explainedRange(name, id, value, level)
		if len(cells) > 1 {
			words = called(likely.measure) + " " + r.ReadingOf(likely.measure).Value.Number.String() + " makes " + id.String() + " " +
				withUnit(value, id) + ", which " + map[Level]string{Hold: "can't be true", Look: "is unusual"}[level]
		}
		if level == Look {
			words += s.notUsual(limit, value)
		}
		finding = s.about(level, finding.Code, r, likely.measure)
		finding.Hint = likely.value.String()
		return finding.say(words + "; it " + likely.meant() + "." + correctIt), true
	}
	if len(cells) > 1 {
		name = id.String() + " worked out from here,"
	}
	if level == Hold {
		return finding.say(name + " " + withUnit(value, id) + " can't be true: possible is " +
			span(limit.HoldBelow, limit.HoldAbove) + "." + correctIt), true
	}
	return finding.say(name + " " + withUnit(value, id) + " is unusual" + s.notUsual(limit, value) + "." + lookAtIt), true
}

// explainedRange says what is wrong with a value for which there is an explanation.
func explainedRange(name string, id measure.ID, value decimal.Decimal, level Level) string {
	if level == Look {
		return name + " " + withUnit(value, id) + " is unusual"
	}
	definition, _ := measure.Define(id)
	if unit := unitWords[definition.Unit]; unit != "" {
		return name + " " + value.String() + " can't be " + unit
	}
	return name + " " + value.String() + " can't be right"
}
