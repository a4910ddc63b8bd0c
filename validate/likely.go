package validate

import (
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// slip is one way in which a cell may have come to hold what it holds.
type slip struct {
	kind    slipKind
	measure measure.ID      // the cell
	value   decimal.Decimal // what it would hold without the slip
	words   string          // "looks like tenths"
	rarity  float64         // how much less to expect it than the likeliest, on the scale of misfit
}

// slipKind groups the slips by the check that reports them.
type slipKind uint8

const (
	pointMoved slipKind = iota
	unitMistaken
	digitsSwapped
	hundredOff
)

// suspect is the number in a cell that may be a slip.
type suspect struct {
	measure  measure.ID
	number   decimal.Decimal
	decimals int32 // how many its column shows
	kind     measure.Kind
	unit     string
}

// likelySlips lists what a number above zero in a cell may have been meant as. Decimals is how many its column shows.
func likelySlips(id measure.ID, value measure.Value, decimals int32) []slip {
	definition, _ := measure.Define(id)
	if value.Number.Sign() <= 0 || definition.Kind != measure.KindNumber && definition.Kind != measure.KindMarbling {
		return nil
	}
	cell := suspect{id, value.Number, decimals, definition.Kind, definition.Unit}
	var list []slip
	for _, slips := range []func(suspect) []slip{unitSlips, pointSlips, swapSlips, hundredSlips} {
		for _, one := range slips(cell) {
			if one.value.Sign() > 0 && !one.value.Equal(cell.number) {
				one.measure = id
				list = append(list, one)
			}
		}
	}
	return list
}

// explanation is the likeliest slip of a row and how much better the row fits without it.
type explanation struct {
	slip
	gain float64 // misfit as it stands, less misfit without the slip, less the slip's rarity
}

// likeliest gives the slip among the measures' cells without which the carcass fits best; ok is false where none makes
// it fit any better. A slip whose mending would still be outside the limits is no explanation.
func (s *survey) likeliest(r *row, measures ...measure.ID) (explanation, bool) {
	best, found := explanation{}, false
	before := s.misfit(r)
	for _, id := range measures {
		reading, ok := r.Reading(id)
		if !ok {
			continue
		}
		for _, one := range likelySlips(id, reading.Value, s.decimalsOf(r, id)) {
			if limit, ok := r.limit(id); ok && limit.judge(one.value) != "" {
				continue
			}
			mended := s.with(r, map[measure.ID]measure.Value{id: measure.NumberValue(one.value)})
			gain := before - s.misfit(mended) - one.rarity
			if gain > 0 && (!found || gain > best.gain) {
				best, found = explanation{one, gain}, true
			}
		}
	}
	return best, found
}

// meant says what a cell looks like: "looks like tenths (0.4)".
func (s slip) meant() string {
	return s.words + " (" + s.value.String() + ")"
}
