package validate

import (
	"math"
	"slices"
	"strconv"

	"railbook/rules/measure"
)

// slipSort is a sort of slip.
type slipSort uint8

const (
	anyOther slipSort = iota
	movedPlaces
	inOtherUnit
	negated
	swappedTwo
	hundredAway
	oneAway
	wrongKeyStruck
	digitTwice
	digitLost
	oneSideOnly
	chilledOnly
	asAbove
	asOtherCell
	cellsExchanged
	rowsExchanged
	tagsExchanged
	ownMistaken
	slipSorts
)

// seldomAbove is the logarithm of how seldom a value is that of the row above by a slip, beside the other kinds.
const seldomAbove = -1.3

// littleHarm is the logarithm of how much less a slip in a percent judged by eye is looked for: it moves little.
const littleHarm = -1.0

// readings of a cell: what it may have been without a slip.
type reading struct {
	sort   slipSort
	value  float64
	chance float64 // the logarithm, of the slip's outcome among those it may have
	words  string
}

// workings is what one processor takes up again from row to row, so that nothing is asked of memory for each slip that is tried.
type workings struct {
	x, other []float64
	readings []reading
	clues    []clue
	// exchanged are those of cells that stand in each other's row.
	exchanged []clue
}

// readingsOf lists what a number may have been meant as, in place of an earlier list.
func (m *sheetModel) readingsOf(j int, x float64, list []reading) []reading {
	c := &m.columns[j]
	list = list[:0]
	add := func(sort slipSort, value, chance float64, words string) {
		if value > 0 && value != x {
			list = append(list, reading{sort, value, chance, words})
		}
	}
	if x <= 0 {
		add(negated, -x, 0, "is negative")
		return list
	}
	power := math.Pow(10, float64(c.decimals))
	round := func(value float64) float64 { return math.Round(value*power) / power }
	scaled := func(sort slipSort, value, factor, chance float64, words string) {
		width := math.Log(lastPlace(x) * factor)
		if c.step > 0 {
			width = math.Max(width, m.stepDensity(j, value))
		}
		add(sort, value, chance+width-m.stepDensity(j, value), words)
	}
	for _, factor := range []float64{10, 0.1, 100, 0.01} {
		chance := -0.7
		if factor > 1 {
			chance = 0
		} else if c.decimals == 0 && c.unit == "lb" {
			chance = -2.5
		}
		scaled(movedPlaces, math.Round(x*factor*1e4)/1e4, factor, chance, movedPointWords)
	}
	for _, slip := range unitSlips(suspect{c.measure, m.decimal(x), c.kind, c.unit}) {
		value, chance := floatOf(slip.value), 0.1
		factor := value / x
		switch slip.words {
		case depthWords, areaWords:
			chance = 4
		case "looks like centimetres":
			chance = -3
		default:
			step := math.Max(c.step, c.finest)
			if snapped := math.Round(value/step) * step; math.Abs(snapped/value-1) <= lastPlace(x)/2/x*1.01 {
				value = math.Round(snapped*1e4) / 1e4
			}
		}
		scaled(inOtherUnit, value, factor, chance, slip.words)
	}
	if whole := math.Round(x * power); math.Abs(x*power-whole) < 1e-6 && whole < mostDigits {
		var room [20]byte
		digits := strconv.AppendInt(room[:0], int64(whole), 10)
		for len(digits) <= int(c.decimals) {
			digits = slices.Insert(digits, 0, '0')
		}
		digitReadings(digits, c.decimals, power, add)
		if c.unit == "lb" || c.measure == measure.Marbling {
			add(hundredAway, x+100, -0.7, "looks a hundred too low")
			add(hundredAway, x-100, -0.7, "looks a hundred too high")
		}
		if c.unit == "sq in" {
			add(oneAway, round(x+1), -0.7, "looks one too low")
			add(oneAway, round(x-1), -0.7, "looks one too high")
		}
	}
	if c.under >= 0 && c.unit == "lb" {
		add(oneSideOnly, round(x*2), -0.5, "looks like one side")
		add(chilledOnly, round(x/0.975), -1, "looks chilled")
	}
	return list
}

// lastPlace is one of the last decimal that a number shows.
func lastPlace(x float64) float64 {
	unit := 1.0
	for unit > 0.0011 && !onStep(x, unit) {
		unit /= 10
	}
	return unit
}

// mostDigits bounds the numbers whose digits are taken apart: a float has 15 of them.
const mostDigits = 1e15

// digitReadings tries slips of the keyboard: a digit twice, two swapped, a neighbouring key, the first one lost.
func digitReadings(digits []byte, decimals int32, power float64, add func(slipSort, float64, float64, string)) {
	var room [24]byte
	number := func(parts ...[]byte) float64 {
		value := 0.0
		for _, part := range parts {
			for _, digit := range part {
				value = value*10 + float64(digit-'0')
			}
		}
		return value / power
	}
	for i := 0; i+1 < len(digits); i++ {
		if digits[i] == digits[i+1] {
			add(digitTwice, number(digits[:i], digits[i+1:]), -math.Log(float64(len(digits)-1)), "looks like a digit typed twice")
			continue
		}
		swapped := append(room[:0], digits...)
		swapped[i], swapped[i+1] = swapped[i+1], swapped[i]
		if swapped[0] == '0' && len(digits) > int(decimals)+1 {
			continue
		}
		add(swappedTwo, number(swapped), -math.Log(float64(len(digits)-1)), "looks like two digits swapped")
	}
	keys := 0
	for _, digit := range digits {
		keys += len(besideOnAPad[digit-'0'])
	}
	seldom := -math.Log(float64(keys))
	for i, digit := range digits {
		for _, key := range []byte(besideOnAPad[digit-'0']) {
			if i == 0 && key == '0' && digit != '0' {
				continue
			}
			add(wrongKeyStruck, number(digits[:i], []byte{key}, digits[i+1:]), seldom, "looks like a wrong key")
		}
	}
	if len(digits) <= 3 {
		for first := byte('1'); first <= '9'; first++ {
			add(digitLost, number([]byte{first}, digits), -1, "looks like a lost first digit")
			if len(digits) <= 2 {
				add(digitLost, number([]byte{first, '0'}, digits), -1, "looks like a lost first digit")
			}
		}
	}
}

// besideOnAPad are the keys that touch one another on a number pad.
var besideOnAPad = [10]string{"12", "024", "0135", "26", "157", "2468", "359", "48", "579", "68"}
