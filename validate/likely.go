package validate

import (
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"railbook/rules"
)

// slip is one way in which a cell may have come to hold what it holds.
type slip struct {
	kind    slipKind
	measure rules.Measure // the cell
	value   rules.Value   // what it would hold without the slip
	words   string        // "tenths", "the decimal point moved", "two digits swapped"
	rarity  float64       // how much less to expect it than the likeliest, on the scale of misfit
}

// slipKind groups the slips by the check that reports them.
type slipKind uint8

const (
	movedPoint slipKind = iota
	otherUnit
	swappedDigits
	aHundredOff
)

// otherUnits are the units in which a measure is most often written by mistake, by the measure's own unit: the factor
// that brings the number back, what it is called, and to how many decimals the result is worth printing.
var otherUnits = map[string][]struct {
	factor   string
	words    string
	decimals int32
	rarity   float64
}{
	"lb":    {{"2.20462262", "kilograms", 0, 0}},
	"in":    {{"0.1", "tenths", 3, 0}, {"0.0393700787", "millimetres", 2, 0.5}, {"0.393700787", "centimetres", 2, 2}},
	"sq in": {{"0.15500031", "square centimetres", 1, 0.5}},
	"%":     {{"100", "a fraction", 1, 0.5}},
}

// likelySlips lists what a number in a cell may have been meant as: a decimal point moved, another unit, two
// neighbouring digits swapped, a hundred more or less. Decimals is how many decimals its column shows.
func likelySlips(measure rules.Measure, value rules.Value, decimals int32) []slip {
	definition, _ := rules.Define(measure)
	number := value.Number
	if number.Sign() <= 0 || definition.Kind != rules.KindNumber && definition.Kind != rules.KindMarbling {
		return nil
	}
	var list []slip
	add := func(kind slipKind, to decimal.Decimal, words string, rarity float64) {
		if to.Sign() > 0 && !to.Equal(number) {
			list = append(list, slip{kind, measure, rules.NumberValue(to), words, rarity})
		}
	}
	if definition.Kind == rules.KindNumber {
		for _, unit := range otherUnits[definition.Unit] {
			add(otherUnit, number.Mul(decimal.RequireFromString(unit.factor)).Round(unit.decimals), unit.words, unit.rarity)
		}
		for _, places := range []int32{-1, 1, -2, 2} {
			rarity := 0.5
			if places < -1 || places > 1 {
				rarity = 1.5
			}
			add(movedPoint, number.Shift(places), "the decimal point moved", rarity)
		}
	}
	for _, swapped := range swaps(number, decimals) {
		add(swappedDigits, swapped, "two digits swapped", 1)
	}
	if hundred := decimal.NewFromInt(100); number.GreaterThan(hundred) {
		add(aHundredOff, number.Sub(hundred), "a hundred too much", 1.5)
		add(aHundredOff, number.Add(hundred), "a hundred too little", 1.5)
	}
	return list
}

// swaps gives the numbers that two neighbouring digits exchanged would make of a number as its column shows it, the
// decimal point kept in its place.
func swaps(number decimal.Decimal, decimals int32) []decimal.Decimal {
	decimals = max(decimals, -number.Exponent(), 0)
	digits := []byte(strings.Replace(number.StringFixed(decimals), ".", "", 1))
	var list []decimal.Decimal
	for i := 0; i+1 < len(digits); i++ {
		if digits[i] == digits[i+1] {
			continue
		}
		swapped := slices.Clone(digits)
		swapped[i], swapped[i+1] = swapped[i+1], swapped[i]
		made, err := decimal.NewFromString(string(swapped))
		if err == nil {
			list = append(list, made.Shift(-decimals))
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
func (s *survey) likeliest(r *row, measures ...rules.Measure) (explanation, bool) {
	best, found := explanation{}, false
	before := s.misfit(r)
	for _, measure := range measures {
		reading, ok := r.Reading(measure)
		if !ok {
			continue
		}
		for _, one := range likelySlips(measure, reading.Value, s.decimalsOf(r, measure)) {
			if limit, ok := s.limit(r, measure); ok && judged(limit, one.value.Number) != "" {
				continue
			}
			mended := s.with(r, map[rules.Measure]rules.Value{measure: one.value})
			gain := before - s.misfit(mended) - one.rarity
			if gain > 0 && (!found || gain > best.gain) {
				best, found = explanation{one, gain}, true
			}
		}
	}
	return best, found
}

// meant says what a slip makes of a cell: "tenths (0.4)".
func (e explanation) meant() string {
	return e.words + " (" + e.value.Number.String() + ")"
}
