package validate

import (
	"math"
	"slices"

	"railbook/grading"
	"railbook/rules/measure"
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
	total := s.ownMisfit(r)
	for _, part := range s.oddities(r) {
		total += part.weight()
	}
	return total
}

// ownMisfit is the part of the misfit that comes of the sheet's own figures.
func (s *survey) ownMisfit(r *row) float64 {
	total := 0.0
	for i := range ownFigures {
		if s.compareOwn(r, &ownFigures[i]) == disagrees {
			total += ownDisagrees
		}
	}
	return total
}

// mostGain is the most by which changing one cell could better the fit: all of the oddities that rest on it, and all of
// the sheet's own figures.
func (s *survey) mostGain(r *row, cell measure.ID) float64 {
	total := s.ownMisfit(r)
	for _, part := range s.oddities(r) {
		if part.restsOn(cell) {
			total += part.weight()
		}
	}
	return total
}

// oddity is how far one measure of a carcass lies from what is usual, in spreads: positive is above.
type oddity struct {
	measure measure.ID   // the measure or figure that is odd
	of      []measure.ID // the measures it rests on, the likelier culprit first
	spreads float64
	ofPeers bool // from this year's carcasses
	byLine  bool // beside what its carcass weight suggests
}

// weight is what an oddity adds to the misfit.
func (o oddity) weight() float64 {
	weight := math.Min(o.spreads*o.spreads/2, mostOdd)
	if !o.ofPeers {
		weight *= noPeersWeight
	}
	return weight
}

// restsOn reports whether a cell has a part in the oddity.
func (o oddity) restsOn(cell measure.ID) bool {
	return slices.ContainsFunc(o.of, func(id measure.ID) bool { return slices.Contains(standIns(id), cell) })
}

// oddities measures a carcass against its peers, in a fixed order; worked out once.
func (s *survey) oddities(r *row) []oddity {
	if r.odd == nil {
		r.odd = s.peersOf(r).oddities(r)
	}
	return r.odd
}

func (p *peers) oddities(r *row) []oddity {
	list := make([]oddity, 0, len(p.order)+1)
	_, hasDressing := r.number(measure.DressingPercent)
	byWeight := false
	if spreads, ok := p.area.spreadsOf(r); ok {
		byWeight = true
		list = append(list, oddity{
			measure: p.area.measure, of: []measure.ID{p.area.measure, measure.HotCarcassWeight}, spreads: spreads, ofPeers: true, byLine: true,
		})
	}
	for i := range p.order {
		usual := &p.order[i]
		if usual.measure == measure.HotCarcassWeight && hasDressing || usual.measure == p.area.measure && byWeight ||
			usual.measure == measure.MeasuredFat && r.hasAdjustedFat() {
			continue
		}
		if number, ok := r.logarithm(usual.measure); ok {
			list = append(list, oddity{measure: usual.measure, of: usual.of, spreads: (number - usual.middle) / usual.spread, ofPeers: usual.ofPeers})
		}
	}
	return list
}

func (r *row) hasAdjustedFat() bool {
	_, ok := r.Figure(measure.AdjustedFat)
	return ok
}

// spreadsOf measures an area against the carcass weight, where the group has a line.
func (l *line) spreadsOf(r *row) (float64, bool) {
	weight, hasWeight := r.logarithm(measure.HotCarcassWeight)
	area, hasArea := r.logarithm(l.measure)
	if !hasWeight || !hasArea || l.spread == 0 {
		return 0, false
	}
	return (area - l.slope*weight - l.start) / l.spread, true
}

// with gives the carcass as it would be graded with other values in some of its cells.
func (s *survey) with(r *row, changes map[measure.ID]measure.Value) *row {
	changed := r.Carcass.Clone()
	for id, value := range changes {
		reading := changed.ReadingOf(id)
		reading.Value, reading.Unreadable = value, false
		changed.SetReading(id, reading)
	}
	return &row{Graded: grading.Grade(changed, s.Book), sheet: r.sheet, kind: r.kind}
}
