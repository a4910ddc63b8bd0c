package validate

import (
	"maps"
	"math"
	"slices"

	"railbook/rules"
)

// enoughPeers is how many carcasses a group needs before its own middle and spread are believed. With fewer, what is
// usual comes from the rulebook's limits alone.
const enoughPeers = 12

// enoughSteps is how many different values a measure must take before its spread is believed: what is judged in steps, as
// internal fat is to the half percent, piles up on a few values and one step aside looks odder than it is.
const enoughSteps = 8

// peerKey names a group of carcasses that are held beside one another.
type peerKey struct {
	species rules.Species
	basis   rules.Basis
	class   string // empty: all classes together
}

// peers is what is usual among carcasses of one kind: for each measure, on a logarithmic scale (so that ten times too
// much and a tenth are equally odd), the middle and the spread. These floats say only what looks odd; no grade, price or
// limit is decided by them.
type peers struct {
	count  int
	usual  map[rules.Measure]usual
	order  []rules.Measure // of usual
	ribeye line            // how ribeye area follows carcass weight
}

// usual is the middle and spread of the logarithms of a measure.
type usual struct {
	middle, spread float64
	ofPeers        bool // from this year's carcasses; otherwise from the rulebook's limits
}

// line is a straight line through logarithms with the spread about it.
type line struct {
	slope, start, spread float64
	ofPeers              bool
}

// peersOf gives the carcasses to hold one beside: its class where that is large enough, else all of its kind.
func (s *survey) peersOf(r *row) *peers {
	key := peerKey{r.Species, r.Basis, r.Class}
	own := s.group(key)
	if own.count >= enoughPeers {
		return own
	}
	key.class = ""
	return s.group(key)
}

func (s *survey) group(key peerKey) *peers {
	if known := s.peers[key]; known != nil {
		return known
	}
	members := s.members[key]
	group := &peers{count: len(members), usual: map[rules.Measure]usual{}}
	for measure, limit := range s.limits[key.species] {
		if from, ok := usualOfLimit(limit); ok {
			group.usual[measure] = group.narrowed(from, measure, members)
		}
	}
	group.order = slices.Sorted(maps.Keys(group.usual))
	group.ribeye = group.ribeyeLine(members)
	s.peers[key] = group
	return group
}

// usualOfLimit reads a middle and a spread out of a rulebook's limit: the look bounds are taken as three spreads out.
func usualOfLimit(limit rules.Limit) (usual, bool) {
	if !limit.LookBelow.Valid || !limit.LookAbove.Valid || limit.LookBelow.Decimal.Sign() <= 0 {
		return usual{}, false
	}
	low, high := math.Log(limit.LookBelow.Decimal.InexactFloat64()), math.Log(limit.LookAbove.Decimal.InexactFloat64())
	return usual{middle: (low + high) / 2, spread: (high - low) / 6}, true
}

// narrowed replaces what the rulebook holds usual by what is usual this year. The spread never falls below half of the
// rulebook's: an even class is no reason to doubt a carcass that differs a little.
func (p *peers) narrowed(from usual, measure rules.Measure, members []*row) usual {
	if len(members) < enoughPeers {
		return from
	}
	var seen []float64
	different := map[float64]bool{}
	for _, one := range members {
		if number, ok := one.logarithm(measure); ok {
			seen = append(seen, number)
			different[number] = true
		}
	}
	if len(seen) < enoughPeers || len(different) < enoughSteps {
		return from
	}
	middle := median(seen)
	return usual{middle: middle, spread: math.Max(spreadAbout(middle, seen), from.spread/2), ofPeers: true}
}

// The ribeye expected for a weight grows by about 1.2 sq in for each 100 lb from 11.0 at 600 lb (SDSU Extension 2022):
// between 600 and 900 lb that is the power 0.7 of weight. Individual carcasses scatter about it by some 9 %.
const (
	ribeyePower  = 0.7
	ribeyeSpread = 0.09
)

// ribeyeLine draws the line of ribeye area on carcass weight through the group's own carcasses.
func (p *peers) ribeyeLine(members []*row) line {
	var weights, areas []float64
	for _, one := range members {
		weight, hasWeight := one.logarithm(rules.HotCarcassWeight)
		area, hasArea := one.logarithm(rules.RibeyeArea)
		if hasWeight && hasArea {
			weights, areas = append(weights, weight), append(areas, area)
		}
	}
	if len(areas) < enoughPeers {
		return line{}
	}
	slope := math.Min(1, math.Max(0, medianSlope(weights, areas)))
	rest := make([]float64, len(areas))
	for i := range areas {
		rest[i] = areas[i] - slope*weights[i]
	}
	start := median(rest)
	return line{slope: slope, start: start, spread: math.Max(spreadAbout(start, rest), ribeyeSpread/2), ofPeers: true}
}

// logarithm gives the natural logarithm of a measure of the carcass; ok is false where there is none or it is not
// above zero.
func (r *row) logarithm(measure rules.Measure) (float64, bool) {
	number, ok := r.number(measure)
	if !ok || number.Sign() <= 0 {
		return 0, false
	}
	return math.Log(floatOf(number)), true
}
