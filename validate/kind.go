package validate

import (
	"maps"
	"math"
	"slices"

	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// kind is what the rulebook holds plausible for one species: the measures that are read and limited, in a fixed order.
type kind struct {
	measures []measure.ID
	limits   []*limit
	place    map[measure.ID]int
	limit    map[measure.ID]*limit // of computed figures too
	figures  []measure.ID          // the computed measures with a limit and no check of their own
}

// kindOf gives a species' kind, worked out once.
func (s *survey) kindOf(species rules.Species) *kind {
	if known := s.kinds[species]; known != nil {
		return known
	}
	made := &kind{place: map[measure.ID]int{}, limit: map[measure.ID]*limit{}}
	for _, one := range s.Book.Limits {
		if one.Species == species || one.Species == "" && made.limit[one.Measure] == nil {
			made.limit[one.Measure] = newLimit(one)
		}
	}
	for _, id := range slices.SortedFunc(maps.Keys(made.limit), measure.CompareNames) {
		if definition, _ := measure.Define(id); definition.Computed {
			continue
		}
		made.place[id] = len(made.measures)
		made.measures, made.limits = append(made.measures, id), append(made.limits, made.limit[id])
	}
	made.figures = computedFigures(made.limit)
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
	for i, id := range k.measures {
		one := &cells[i]
		if reading, ok := r.Reading(id); ok {
			one.value, one.has, one.read = reading.Value.Number, true, true
		} else {
			one.value, one.has = r.number(id)
		}
		if one.has {
			one.level, one.float = k.limits[i].judge(one.value), floatOf(one.value)
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
func (s *survey) measuresIn(rows []*row) []measure.ID {
	var list []measure.ID
	seen := map[rules.Species]bool{}
	for _, r := range rows {
		if seen[r.Species] {
			continue
		}
		seen[r.Species] = true
		for _, id := range r.kind.measures {
			if !slices.Contains(list, id) {
				list = append(list, id)
			}
		}
	}
	return list
}
