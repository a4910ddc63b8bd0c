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
func (s *checker) kindOf(species rules.Species) *kind {
	if known := s.kinds[species]; known != nil {
		return known
	}
	made := &kind{place: map[measure.ID]int{}, limit: map[measure.ID]*limit{}}
	for _, limit := range s.Book.Limits {
		if limit.Species == species || limit.Species == "" && made.limit[limit.Measure] == nil {
			made.limit[limit.Measure] = newLimit(limit)
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
	float   float64 // of the value; only to find odd and equal values by
	outside uint8   // the number of the level at which the value is outside its limit
	has     bool    // there is a value, read or worked out from other cells
	read    bool    // it was read as such
}

// levelNumbers are the levels by which cells are marked; none comes first.
var levelNumbers = [...]Level{"", Note, Look, Hold}

// level is that at which the value is outside its limit; empty where it is within.
func (c cell) level() Level { return levelNumbers[c.outside] }

// limited gives the value of a limited measure by its place; ok is false where there is none.
func (r *row) limited(place int) (value decimal.Decimal, read, ok bool) {
	id := r.kind.measures[place]
	if value, ok := r.Value(id); ok {
		return value.Number, true, true
	}
	value, ok = r.number(id)
	return value, false, ok
}

// cellsFor works out the limited measures of a carcass.
func (k *kind) cellsFor(r *row) []cell {
	cells := make([]cell, len(k.measures))
	for i := range k.measures {
		value, read, has := r.limited(i)
		cells[i].read, cells[i].has = read, has
		if has {
			cells[i].outside = uint8(slices.Index(levelNumbers[:], k.limits[i].judge(value)))
			cells[i].float = floatOf(value)
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
func (s *checker) measuresIn(rows []*row) []measure.ID {
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
