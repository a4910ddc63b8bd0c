package validate

import (
	"maps"
	"math"

	"railbook/grading"
	"railbook/rules"
)

// Weights of the evidence, on the scale of half a squared number of spreads.
const (
	mostOdd      = 18 // what one measure can weigh at most: six spreads
	ownDisagrees = 8  // a figure of the sheet's own that the measures contradict: four spreads
	// noPeersWeight tones down what is known from the rulebook's limits alone.
	noPeersWeight = 0.7
)

// misfit says how badly the measures of a carcass go together and with its peers; 0 is perfectly. Live weight stands
// against the class, carcass weight against live weight, ribeye against carcass weight, the rest each against the class;
// then the sheet's own grades and percents against the computed ones.
func (s *survey) misfit(r *row) float64 {
	group := s.peersOf(r)
	total := 0.0
	for _, part := range s.oddities(r, group) {
		weight := math.Min(part.spreads*part.spreads/2, mostOdd)
		if !part.ofPeers {
			weight *= noPeersWeight
		}
		total += weight
	}
	for _, own := range ownFigures {
		if verdict := s.compareOwn(r, own); verdict == disagrees {
			total += ownDisagrees
		}
	}
	return total
}

// oddity is how far one measure of a carcass lies from what is usual, in spreads: positive is above.
type oddity struct {
	measure rules.Measure // the measure or figure that is odd
	spreads float64
	ofPeers bool
}

// oddities measures a carcass against its peers, in a fixed order.
func (s *survey) oddities(r *row, group *peers) []oddity {
	var list []oddity
	_, hasDressing := r.number(rules.DressingPercent)
	ribeyeByWeight := false
	if spreads, ok := group.ribeyeOddity(r); ok {
		ribeyeByWeight = true
		list = append(list, oddity{rules.RibeyePerHundredweight, spreads, group.ribeye.ofPeers})
	}
	for _, measure := range group.order {
		switch {
		case measure == rules.HotCarcassWeight && hasDressing,
			measure == rules.RibeyeArea && ribeyeByWeight,
			measure == rules.RibeyePerHundredweight,
			measure == rules.MeasuredFat && r.hasAdjustedFat():
			continue
		}
		number, ok := r.logarithm(measure)
		if !ok {
			continue
		}
		usual := group.usual[measure]
		list = append(list, oddity{measure, (number - usual.middle) / usual.spread, usual.ofPeers})
	}
	return list
}

func (r *row) hasAdjustedFat() bool {
	_, ok := r.Figure(rules.AdjustedFat)
	return ok
}

// ribeyeOddity measures the ribeye against the carcass weight: by the group's own line, else not at all.
func (p *peers) ribeyeOddity(r *row) (float64, bool) {
	weight, hasWeight := r.logarithm(rules.HotCarcassWeight)
	area, hasArea := r.logarithm(rules.RibeyeArea)
	if !hasWeight || !hasArea || p.ribeye.spread == 0 {
		return 0, false
	}
	return (area - p.ribeye.slope*weight - p.ribeye.start) / p.ribeye.spread, true
}

// with gives the carcass as it would be graded with other values in some of its cells.
func (s *survey) with(r *row, changes map[rules.Measure]rules.Value) *row {
	changed := *r.Carcass
	changed.Readings = maps.Clone(r.Readings)
	for measure, value := range changes {
		reading := changed.Readings[measure]
		reading.Value, reading.Unreadable = value, false
		changed.Readings[measure] = reading
	}
	return &row{Graded: grading.Grade(&changed, s.Book), sheet: r.sheet, doubted: map[rules.Measure]bool{}}
}
