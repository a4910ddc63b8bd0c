package validate

import (
	"math"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"railbook/rules"
)

// kind is what the rulebook holds plausible for one species: the measures that are read and limited, in a fixed order.
type kind struct {
	measures []rules.Measure
	limits   []rules.Limit
	place    map[rules.Measure]int
}

// kindOf gives a species' kind, worked out once.
func (s *survey) kindOf(species rules.Species) *kind {
	if known := s.kinds[species]; known != nil {
		return known
	}
	made := &kind{place: map[rules.Measure]int{}}
	var limits []rules.Limit
	for measure, limit := range s.limits[species] {
		if definition, _ := rules.Define(measure); !definition.Computed {
			limits = append(limits, limit)
		}
	}
	slices.SortFunc(limits, func(a, b rules.Limit) int { return strings.Compare(string(a.Measure), string(b.Measure)) })
	for i, limit := range limits {
		made.measures, made.place[limit.Measure] = append(made.measures, limit.Measure), i
	}
	made.limits = limits
	s.kinds[species] = made
	return made
}

// cell is one limited measure of a carcass.
type cell struct {
	value decimal.Decimal
	level Level   // at which the value is outside its limit
	has   bool    // there is a value, read or worked out from other cells
	read  bool    // it was read as such
	float float64 // of the value; only to find odd and equal values by
}

// cellsFor works out the limited measures of a carcass.
func (k *kind) cellsFor(r *row) []cell {
	cells := make([]cell, len(k.measures))
	for i, measure := range k.measures {
		one := &cells[i]
		if reading, ok := r.Reading(measure); ok {
			one.value, one.has, one.read = reading.Value.Number, true, true
		} else {
			one.value, one.has = r.number(measure)
		}
		if one.has {
			one.level, one.float = judged(&k.limits[i], one.value), floatOf(one.value)
		}
	}
	return cells
}

// floatOf gives a decimal as a float, fast for numbers as people write them.
func floatOf(number decimal.Decimal) float64 {
	exponent := number.Exponent()
	if exponent > 0 || exponent < -15 || number.NumDigits() > 15 {
		return number.InexactFloat64()
	}
	return float64(number.CoefficientInt64()) / math.Pow10(int(-exponent))
}

// measuresIn gives the limited measures of every species in a sheet.
func (s *survey) measuresIn(rows []*row) []rules.Measure {
	var list []rules.Measure
	seen := map[rules.Species]bool{}
	for _, r := range rows {
		if seen[r.Species] {
			continue
		}
		seen[r.Species] = true
		for _, measure := range r.kind.measures {
			if !slices.Contains(list, measure) {
				list = append(list, measure)
			}
		}
	}
	return list
}
