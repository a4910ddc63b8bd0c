package validate

import (
	"maps"
	"math"
	"slices"

	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
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
	count int
	order []usual // in the order of measures
	area  line    // how ribeye or loin area follows carcass weight
}

// usual is the middle and spread of the logarithms of a measure.
type usual struct {
	measure        measure.ID
	of             []measure.ID // what it rests on
	middle, spread float64
	ofPeers        bool // from this year's carcasses; otherwise from the rulebook's limits
}

// line is a straight line of an area on carcass weight, both as logarithms, with the spread about it.
type line struct {
	measure              measure.ID
	slope, start, spread float64
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
	group := &peers{count: len(members)}
	kind := s.kindOf(key.species)
	for _, id := range slices.SortedFunc(maps.Keys(kind.limit), measure.CompareNames) {
		from, ok := usualOfLimit(kind.limit[id])
		if definition, _ := measure.Define(id); !ok || definition.Computed && id != measure.DressingPercent ||
			slices.Contains(noEvidence, id) {
			continue
		}
		group.order = append(group.order, group.narrowed(from, members))
	}
	for _, area := range areas {
		if group.area.spread == 0 {
			group.area = areaLine(area, members)
		}
	}
	s.peers[key] = group
	return group
}

// noEvidence are the limited measures that say nothing of a row: they only repeat another measure of it, or the sheet's
// own figures, which are held beside the computed ones.
var noEvidence = []measure.ID{
	measure.FairWeight, measure.DotsOutlined, measure.LivePlacing, measure.SheetYieldGrade, measure.SheetCutability,
	measure.PreliminaryYieldGrade, measure.StartWeight, measure.LeftSideWeight, measure.RightSideWeight,
}

// areas are the measures that follow carcass weight: a heavier carcass has a larger muscle.
var areas = []measure.ID{measure.RibeyeArea, measure.LoinMuscleArea}

// of gives what is usual of a measure; ok is false where the rulebook has no limits for it.
func (p *peers) of(id measure.ID) (usual, bool) {
	for _, one := range p.order {
		if one.measure == id {
			return one, true
		}
	}
	return usual{}, false
}

// usualOfLimit reads a middle and a spread out of a rulebook's limit: the look bounds are taken as three spreads out.
func usualOfLimit(limit *limit) (usual, bool) {
	if !limit.LookBelow.Valid || !limit.LookAbove.Valid || limit.LookBelow.Decimal.Sign() <= 0 {
		return usual{}, false
	}
	low, high := math.Log(floatOf(limit.LookBelow.Decimal)), math.Log(floatOf(limit.LookAbove.Decimal))
	of := []measure.ID{limit.Measure}
	if limit.Measure == measure.DressingPercent {
		of = []measure.ID{measure.HotCarcassWeight, measure.LiveWeight}
	}
	return usual{measure: limit.Measure, of: of, middle: (low + high) / 2, spread: (high - low) / 6}, true
}

// leastSpread is the least share of the rulebook's spread that is believed of a group: an even class is no reason to doubt
// a carcass that differs a little, and the fewer there are the more the evenness is chance.
func leastSpread(count int) float64 {
	const few, many = 12, 48
	return math.Max(0.5, 1-0.5*float64(count-few)/(many-few))
}

// narrowed replaces what the rulebook holds usual by what is usual this year.
func (p *peers) narrowed(from usual, members []*row) usual {
	if len(members) < enoughPeers {
		return from
	}
	var seen []float64
	different := map[float64]bool{}
	for _, one := range members {
		if number, ok := one.logarithm(from.measure); ok {
			seen = append(seen, number)
			different[number] = true
		}
	}
	if len(seen) < enoughPeers || len(different) < enoughSteps {
		return from
	}
	from.middle = median(seen)
	from.spread = math.Max(spreadAbout(from.middle, seen), from.spread*leastSpread(len(seen)))
	from.ofPeers = true
	return from
}

// areaSpread is the usual spread of areas about their line, as a share: carcasses of one weight differ by some 9 %.
const areaSpread = 0.09

// areaLine draws the line of an area on carcass weight through the group's own carcasses.
func areaLine(id measure.ID, members []*row) line {
	var weights, areas []float64
	for _, one := range members {
		weight, hasWeight := one.logarithm(measure.HotCarcassWeight)
		area, hasArea := one.logarithm(id)
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
	return line{id, slope, start, math.Max(spreadAbout(start, rest), areaSpread*leastSpread(len(rest)))}
}

// logarithm gives the natural logarithm of a measure of the carcass; ok is false where there is none or it is not
// above zero.
func (r *row) logarithm(id measure.ID) (float64, bool) {
	if r.cells != nil {
		if place, limited := r.kind.place[id]; limited {
			return r.cells[place].log, r.cells[place].hasLog
		}
	}
	return logarithmOf(r.number(id))
}

func logarithmOf(number decimal.Decimal, ok bool) (float64, bool) {
	if !ok || number.Sign() <= 0 {
		return 0, false
	}
	return math.Log(floatOf(number)), true
}
