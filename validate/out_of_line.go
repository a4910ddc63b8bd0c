package validate

import (
	"math"
	"strconv"

	"railbook/rules/measure"
)

// outOfLineSpreads is how far from the middle of its class, in robust spreads, a measure is named. Of normally distributed
// measures it is one in about 2,000; of true carcasses, whose measures have longer tails, a few in 1,000.
const outOfLineSpreads = 4.0

// outOfLine has the judge look at a measure that is far from those of its class, by the median and the median absolute
// deviation; carcass weight is held against live weight, ribeye against carcass weight. Only a class (or, where the class
// is small, all carcasses of its kind together) of twelve or more is used.
func outOfLine(s *survey) []Finding {
	var findings []Finding
	for _, r := range s.rows {
		if r.passed {
			continue
		}
		group := s.peersOf(r)
		for _, odd := range s.oddities(r) {
			if odd.ofPeers && math.Abs(odd.spreads) >= outOfLineSpreads {
				findings = append(findings, s.outOfLineFinding(r, odd, group)...)
			}
		}
	}
	return findings
}

func (s *survey) outOfLineFinding(r *row, odd oddity, group *peers) []Finding {
	cell, ok := r.cellOf(odd.of[0])
	if !ok || !r.sound(odd.of...) {
		return nil
	}
	direction := "above"
	if odd.spreads < 0 {
		direction = "below"
	}
	number, _ := r.number(odd.measure)
	what := withUnit(number, odd.measure)
	if odd.measure == measure.DressingPercent {
		what = rounded(number, odd.measure)
	}
	words := called(odd.measure) + " " + what + " is far " + direction
	if odd.byLine {
		words += " what the carcass weight suggests, going by"
	} else {
		words += " that of"
	}
	words += " the " + strconv.Itoa(group.count) + " carcasses it is held beside."
	return []Finding{s.about(Look, "out of line with the class", r, cell).say(words + lookAtIt)}
}
