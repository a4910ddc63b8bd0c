package validate

import (
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
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
		for i := range r.cells {
			if r.cells[i].level != level {
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

// rangeFinding names the cell that a value outside its limit comes of.
func (s *survey) rangeFinding(r *row, place int) (Finding, bool) {
	id, limit, level, value := r.kind.measures[place], r.kind.limits[place], r.cells[place].level, r.cells[place].value
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
	return finding.say(name + " " + withUnit(value, id) + " is unusual (" + span(limit.LookBelow, limit.LookAbove) + " is not)." + lookAtIt), true
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
