package validate

import (
	"math"

	"railbook/rules/measure"
)

// How much better two rows must fit when their tags are exchanged: less where they hung next to one another.
const (
	swapGainNear = 5.5
	swapGainFar  = 11
	nearby       = 3   // rows apart
	oddForSwap   = 1.0 // spreads by which each dressing percent must be off
	mostForSwaps = 300 // rows that are off, beyond which only neighbours are compared
)

// tagsSwapped has the judge look at two carcasses whose dressing percents are off in opposite directions and both right
// when their live weights are exchanged: their tags may have been swapped on the rail. Two true carcasses look so by
// chance now and then, the more the farther apart they hung, so neighbours need less to be named.
func tagsSwapped(s *survey) []Finding {
	groups := map[peerKey][]weighed{}
	var order []peerKey
	for i, r := range s.rows {
		one, ok := s.weighed(r)
		if !ok || math.Abs(one.spreads) < oddForSwap {
			continue
		}
		one.index = i
		key := peerKey{r.Species, r.Basis, ""}
		if _, known := groups[key]; !known {
			order = append(order, key)
		}
		groups[key] = append(groups[key], one)
	}
	var findings []Finding
	for _, key := range order {
		findings = append(findings, s.swapsAmong(groups[key])...)
	}
	return findings
}

// weighed is a carcass with both weights and how odd its dressing percent is.
type weighed struct {
	*row
	index              int
	live, carcass      float64 // logarithms
	spreads            float64
	middle, spreadUnit float64
}

func (s *survey) weighed(r *row) (weighed, bool) {
	live, hasLive := r.logarithm(measure.LiveWeight)
	carcass, hasCarcass := r.logarithm(measure.HotCarcassWeight)
	usual, known := s.peersOf(r).of(measure.DressingPercent)
	if !hasLive || !hasCarcass || !known || !usual.ofPeers || !r.sound(measure.LiveWeight, measure.HotCarcassWeight) {
		return weighed{}, false
	}
	one := weighed{row: r, live: live, carcass: carcass, middle: usual.middle, spreadUnit: usual.spread}
	one.spreads = one.oddWith(live)
	return one, true
}

// oddWith says how odd the dressing percent would be with another live weight.
func (w *weighed) oddWith(live float64) float64 {
	return (w.carcass - live + math.Log(100) - w.middle) / w.spreadUnit
}

// swapsAmong finds the pairs that fit better exchanged, the best pair first; no carcass is in two pairs.
func (s *survey) swapsAmong(odd []weighed) []Finding {
	var findings []Finding
	taken := map[*row]bool{}
	for i := range odd {
		best, bestGain := -1, 0.0
		from, upTo := 0, len(odd)
		if len(odd) > mostForSwaps {
			from, upTo = max(0, i-nearby), min(len(odd), i+nearby+1)
		}
		for j := from; j < upTo; j++ {
			gain := swapGain(&odd[i], &odd[j])
			if gain > bestGain {
				best, bestGain = j, gain
			}
		}
		if best < 0 || taken[odd[i].row] || taken[odd[best].row] {
			continue
		}
		taken[odd[i].row], taken[odd[best].row] = true, true
		findings = append(findings, s.swapFinding(odd[i].row, odd[best].row), s.swapFinding(odd[best].row, odd[i].row))
	}
	return findings
}

// swapGain gives how much better two carcasses fit exchanged, less what is needed; negative where they do not.
func swapGain(a, b *weighed) float64 {
	apart := a.index - b.index
	near := apart >= -nearby && apart <= nearby
	if a.spreads*b.spreads >= 0 || a.Tag == "" || b.Tag == "" {
		return -1
	}
	afterA, afterB := a.oddWith(b.live), b.oddWith(a.live)
	if math.Abs(afterA) > 2 || math.Abs(afterB) > 2 {
		return -1
	}
	gain := (a.spreads*a.spreads + b.spreads*b.spreads - afterA*afterA - afterB*afterB) / 2
	if near {
		return gain - swapGainNear
	}
	return gain - swapGainFar
}

func (s *survey) swapFinding(r, other *row) Finding {
	mended := s.with(r, map[measure.ID]measure.Value{measure.LiveWeight: other.ReadingOf(measure.LiveWeight).Value})
	before, _ := r.number(measure.DressingPercent)
	after, _ := mended.number(measure.DressingPercent)
	finding := s.about(Look, "tags swapped", r, measure.Tag)
	finding.Hint = other.Tag
	r.doubt(measure.LiveWeight, measure.HotCarcassWeight)
	return finding.say("tags " + r.Tag + " and " + other.Tag + " (" + other.Place.Cell + ") may be swapped: with the other's live weight the dressing " +
		"percent is " + rounded(after, measure.DressingPercent) + " instead of " + rounded(before, measure.DressingPercent) +
		", and the other's is mended too. Ask the plant before correcting both tags.")
}
