package validate

import (
	"math"
	"strconv"

	"railbook/rules"
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
	of, about := []rules.Measure{odd.measure}, odd.measure
	switch odd.measure {
	case rules.DressingPercent:
		of, about = []rules.Measure{rules.HotCarcassWeight, rules.LiveWeight}, rules.HotCarcassWeight
	case rules.RibeyePerHundredweight:
		of, about = []rules.Measure{rules.RibeyeArea, rules.HotCarcassWeight}, rules.RibeyeArea
	}
	cell, ok := r.cellOf(about)
	if !ok || !r.sound(of...) {
		return nil
	}
	direction := "above"
	if odd.spreads < 0 {
		direction = "below"
	}
	finding := s.about(Look, "out of line with the class", r, cell)
	beside := " the " + strconv.Itoa(group.count) + " carcasses it is held beside."
	number, _ := r.number(odd.measure)
	switch odd.measure {
	case rules.RibeyePerHundredweight:
		area, _ := r.number(rules.RibeyeArea)
		return []Finding{finding.say("ribeye area " + withUnit(area, rules.RibeyeArea) + " is far " + direction +
			" what its carcass weight suggests, going by" + beside + lookAtIt)}
	case rules.DressingPercent:
		return []Finding{finding.say("dressing percent " + rounded(number, odd.measure) + " is far " + direction + " that of" + beside + lookAtIt)}
	}
	return []Finding{finding.say(called(odd.measure) + " " + withUnit(number, odd.measure) + " is far " + direction + " that of" + beside + lookAtIt)}
}
