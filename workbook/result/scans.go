package result

import (
	"slices"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/workbook/intake"
	"railbook/workbook/names"
)

// ScanPair is one animal that was scanned alive and measured on the rail.
type ScanPair struct{ Scan, Rail *grading.Graded }

// scanned are the measures that a scan estimates and the rail measures.
var scanned = []measure.ID{
	measure.HotCarcassWeight, measure.AdjustedFat, measure.RibeyeArea, measure.TenthRibFat, measure.LoinMuscleArea, measure.BodyWallThickness,
}

// ScanPairs pairs scans with carcasses by species and tag, where each stands once and no list doubts whose the animal is or
// names another child for one of them.
func ScanPairs(results *Results) (pairs []ScanPair) {
	type animal struct {
		species rules.Species
		tag     string
	}
	if !slices.ContainsFunc(results.Carcasses, func(carcass *Result) bool { return carcass.Basis == rules.LiveScan }) {
		return nil
	}
	found := map[animal]map[rules.Basis][]*grading.Graded{}
	for _, carcass := range results.Carcasses {
		graded := carcass.Graded
		key := animal{graded.Species, graded.Tag}
		if graded.Tag == "" || TextOf(graded, measure.Exhibitor) == intake.ToBeSettled {
			continue
		}
		if found[key] == nil {
			found[key] = map[rules.Basis][]*grading.Graded{}
		}
		found[key][graded.Basis] = append(found[key][graded.Basis], graded)
	}
	for _, carcass := range results.Carcasses {
		graded := carcass.Graded
		both := found[animal{graded.Species, graded.Tag}]
		if graded.Basis != rules.OnTheRail || len(both[rules.LiveScan]) != 1 || len(both[rules.OnTheRail]) != 1 || both[rules.OnTheRail][0] != graded {
			continue
		}
		scan := both[rules.LiveScan][0]
		own, other := TextOf(graded, measure.Exhibitor), TextOf(scan, measure.Exhibitor)
		if own == "" || other == "" || names.Same(own, other) {
			pairs = append(pairs, ScanPair{scan, graded})
		}
	}
	return pairs
}

// Measures gives the measures of a pair that both have.
func (p ScanPair) Measures() []measure.ID {
	return slices.DeleteFunc(slices.Clone(scanned), func(id measure.ID) bool {
		_, before := p.Scan.Figure(id)
		_, after := p.Rail.Figure(id)
		return !before || !after
	})
}

// Days gives the days from the scan to the kill; ok is false where a date is missing.
func (p ScanPair) Days() (days int64, ok bool) {
	scan, dated := p.Scan.Reading(measure.WeighInDate)
	kill, killed := p.Rail.Reading(measure.KillDate)
	if !dated || !killed {
		return 0, false
	}
	return kill.Value.Number.Sub(scan.Value.Number).IntPart(), true
}
