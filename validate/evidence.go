package validate

import (
	"math"
	"runtime"
	"slices"
	"strconv"

	"railbook/rules/measure"

	"golang.org/x/sync/errgroup"
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

// clue is one slip that may have made a row what it is.
type clue struct {
	sort  slipSort
	cell  int     // the column
	other int     // the other column or row; -1 for none
	value float64 // what the cell would hold without it
	words string
	gain  float64 // the logarithm of how much likelier the row is with the slip
}

// seldomAbove is the logarithm of how seldom a value is that of the row above by a slip, beside the other kinds.
const seldomAbove = -1.3

// littleHarm is the logarithm of how much less a slip in a percent judged by eye is looked for: it moves little.
const littleHarm = -1.0

// kindsOfSlip is over how many kinds of slip the chances are spread.
const kindsOfSlip = 40.0

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

// besidesTheStep is how much must speak for a slip besides that its number is off a step the column keeps loosely.
const besidesTheStep = 0.7

// enoughToTry is how much a row must gain at most before slips are tried on it.
const enoughToTry = 2.0

// scoreRow adds up what speaks for a slip in a row: in one cell, in two of its cells, or in it and another row.
func (m *sheetModel) scoreRow(i int) {
	r := m.rows[i]
	m.scoreAlone(i, &m.work)
	r.score = scoreOf(r.alone + chancesOf(m.exchangedWith(i)))
}

// chancesOf adds up how much likelier a row is with each of some slips.
func chancesOf(clues []clue) float64 {
	total := 0.0
	for i := range clues {
		total += math.Exp(math.Min(500, clues[i].gain))
	}
	return total
}

// scoreOf is the logarithm of what all kinds of slip make of a row together.
func scoreOf(chances float64) float64 { return math.Log(math.Max(chances, 1e-9) / kindsOfSlip) }

// scoreAlone tries the slips that stay within a row. Of most rows nothing more is asked, so the clues are not kept.
func (m *sheetModel) scoreAlone(i int, by *workings) {
	r := m.rows[i]
	if !r.tried {
		r.tried, r.alone = true, chancesOf(m.cluesAlone(i, by))
	}
}

// cluesAlone gives them, in the workings' room.
func (m *sheetModel) cluesAlone(i int, by *workings) []clue {
	r := m.rows[i]
	by.clues = by.clues[:0]
	by.x = append(by.x[:0], r.x...)
	for j := range m.columns {
		if has(r.x[j]) {
			m.cluesOf(i, j, by)
		}
	}
	for at := range by.clues {
		if c := &m.columns[by.clues[at].cell]; c.unit == "%" && c.step > 0 {
			by.clues[at].gain += littleHarm
		}
	}
	by.clues = m.ownMistakes(by.clues, r)
	return by.clues
}

// cluesOf tries the slips of one cell. The workings hold the row as it is before and after.
func (m *sheetModel) cluesOf(i, j int, by *workings) {
	r, x := m.rows[i], by.x
	above := i > 0 && m.rows[i-1].x[j] == x[j]
	most := m.mostGain(r, j)
	if !above && most < enoughToTry {
		return
	}
	was := x[j]
	wasStep := m.stepDensity(j, was)
	by.readings = m.readingsOf(j, was, by.readings)
	for at := range by.readings {
		reading := &by.readings[at]
		x[j] = reading.value
		gain := m.gainOf(r, x, j) + reading.chance
		if m.columns[j].loose && gain-m.stepDensity(j, reading.value)+wasStep < besidesTheStep {
			gain = math.Min(gain, 0)
		}
		by.clues = append(by.clues, clue{reading.sort, j, -1, reading.value, reading.words, gain})
	}
	x[j] = was
	around := m.anyValue(r, x, j)
	by.clues = append(by.clues, clue{anyOther, j, -1, 0, "", around + m.garbage(j)})
	if above {
		gain := math.Min(around, m.rareAs(i, j)+most)
		by.clues = append(by.clues, clue{asAbove, j, i - 1, 0, "", gain + seldomAbove})
	}
	for other := range m.columns {
		if other == j || !has(x[other]) {
			continue
		}
		if x[other] == was {
			by.clues = append(by.clues, clue{asOtherCell, j, other, 0, "", around})
		}
		if other > j {
			x[j], x[other] = x[other], x[j]
			by.clues = append(by.clues, clue{cellsExchanged, j, other, x[j], "", m.density(r, x) - r.clean})
			x[j], x[other] = r.x[j], r.x[other]
		}
	}
}

// rareAs says how rare the value of a cell is in its column, the row above apart: what stands there often stands there by
// chance.
func (m *sheetModel) rareAs(i, j int) float64 {
	return -math.Log(float64(max(1, m.columns[j].often[m.rows[i].x[j]]-1)) / float64(len(m.rows)))
}

// rowsAtOnce is how many rows are scored by one processor before it takes the next.
const rowsAtOnce = 64

// scoreApart tries the slips that stay within a row on every row, before any is held beside another. The rows are independent, so
// all processors share the work.
func (m *sheetModel) scoreApart() {
	var group errgroup.Group
	group.SetLimit(runtime.NumCPU())
	for from := 0; from < len(m.rows); from += rowsAtOnce {
		group.Go(func() error {
			var by workings
			for i := from; i < min(from+rowsAtOnce, len(m.rows)); i++ {
				if m.untouched(m.rows[i]) {
					m.scoreAlone(i, &by)
				}
			}
			return nil
		})
	}
	_ = group.Wait() // scoring never fails
}

// mostGain bounds what changing one cell may gain.
func (m *sheetModel) mostGain(r *modelRow, j int) float64 {
	if !has(r.gains[j]) {
		r.gains[j] = m.mostGainOf(r, j)
	}
	return r.gains[j]
}

func (m *sheetModel) mostGainOf(r *modelRow, j int) float64 {
	total := 0.0
	for at := range m.columns {
		c := &m.columns[at]
		if (at == j || c.under == j) && has(r.x[at]) {
			var of *bell
			var figure float64
			if c.under >= 0 && has(r.x[c.under]) && r.x[c.under] > 0 {
				of, figure = &r.group.to[at], m.proportion(at, r.x[at], r.x[c.under])
			} else {
				of, figure = &r.group.alone[at], c.figure(r.x[at])
			}
			total += of.peak - of.density(figure)
		}
	}
	c := &m.columns[j]
	if c.step > 0 && !onStep(r.x[j], c.step) {
		total += c.onto
	}
	for k, own := range m.own {
		if !r.own[k].has {
			continue
		}
		if own.of.computed == measure.QualityGrade {
			if own.exact && !r.own[k].agrees && c.measure == measure.Marbling {
				total += 7
			}
			continue
		}
		if own.slopes != nil && own.slopes[j] == 0 {
			continue
		}
		if own.exact {
			if !r.own[k].agrees {
				total += 8
			}
		} else if !own.otherwise() {
			total += own.about.peak - own.about.density(own.apart(r.own[k].written, r.own[k].computed))
		}
	}
	return total
}

// garbage is the logarithm of the density of a number that nothing explains, and of how seldom that is.
func (m *sheetModel) garbage(j int) float64 {
	c := &m.columns[j]
	return math.Log(c.finest/math.Exp(c.prior.middle)) - 1
}

// anyValue is how much likelier a row is whose one cell tells nothing: over the values it may have had.
func (m *sheetModel) anyValue(r *modelRow, x []float64, j int) float64 {
	was := x[j]
	defer func() { x[j] = was }()
	c := &m.columns[j]
	of, under := &r.group.alone[j], 0.0
	if c.under >= 0 && has(x[c.under]) && x[c.under] > 0 {
		of, under = &r.group.to[j], c.slope*m.columns[c.under].figure(x[c.under])
	}
	step := math.Max(c.step, c.finest)
	low, high := of.middle+under-3.5*of.deviation, of.middle+under+3.5*of.deviation
	if c.log {
		low, high = math.Exp(low), math.Exp(high)
	}
	const most = 160
	stride := math.Max(1, math.Ceil((high-low)/step/most)) * step
	total, top := 0.0, math.Inf(-1)
	for x[j] = math.Ceil(low/step) * step; x[j] <= high; x[j] += stride {
		density := m.gainOf(r, x, j)
		if density > top {
			total = total*math.Exp(top-density) + 1
			top = density
		} else {
			total += math.Exp(density - top)
		}
	}
	if total == 0 {
		return -60 - r.clean
	}
	return top + math.Log(total*stride/step)
}

// seldomExchanged is the logarithm of how seldom other values than weights stand in each other's row: what is read off one
// carcass is written down at once.
const seldomExchanged = -2.5

// rowsToASlip is about how many rows there are to each slip.
const rowsToASlip = 20

// nearby is how many rows apart tags or values are exchanged as a rule.
const nearby = 3

// exchangedWith holds a row beside those near it with cells exchanged; and with live weights, which are exchanged where tags are,
// beside every row whose live weight is odd.
func (m *sheetModel) exchangedWith(i int) []clue {
	var clues []clue
	live, hasLive := m.place[measure.LiveWeight]
	for at := max(0, i-nearby); at <= i+nearby && at < len(m.rows); at++ {
		for j := range m.columns {
			clues = m.exchange(clues, i, at, j, nearby)
		}
	}
	if hasLive && has(m.rows[i].x[live]) && m.mostGain(m.rows[i], live) >= oddForSwap {
		for _, at := range m.oddLive(live) {
			if at < i-nearby || at > i+nearby {
				clues = m.exchange(clues, i, at, live, len(m.rows))
			}
		}
	}
	return clues
}

// How much must be gained at most by another live weight for a row to be compared with those far from it, and with how many.
const (
	oddForSwap  = 2.0
	mostForSwap = 60
)

// oddLive gives the rows whose live weight is odd.
func (m *sheetModel) oddLive(live int) []int {
	if m.odd == nil {
		m.odd = []int{}
		for at, r := range m.rows {
			if has(r.x[live]) && len(m.odd) < mostForSwap && m.mostGain(r, live) >= oddForSwap {
				m.odd = append(m.odd, at)
			}
		}
	}
	return m.odd
}

// exchange holds two rows with one of their cells exchanged beside the two as they are, among so many it might have been.
func (m *sheetModel) exchange(clues []clue, i, at, j, among int) []clue {
	r, o := m.rows[i], m.rows[at]
	if at == i || !has(r.x[j]) || !has(o.x[j]) || r.x[j] == o.x[j] || m.mostGain(r, j)+m.mostGain(o, j) < 3 || !m.untouched(o) {
		return clues
	}
	m.scoreAlone(at, &m.work)
	alone := math.Log1p(math.Exp(math.Min(500, scoreOf(o.alone))) / rowsToASlip)
	m.work.x, m.work.other = append(m.work.x[:0], r.x...), append(m.work.other[:0], o.x...)
	mine, its := m.work.x, m.work.other
	mine[j], its[j] = its[j], mine[j]
	gain := m.gainOf(r, mine, j) + m.gainOf(o, its, j) - math.Log(float64(among)) - alone
	if m.columns[j].unit != "lb" {
		gain += seldomExchanged
	}
	sort := rowsExchanged
	if m.columns[j].measure == measure.LiveWeight {
		sort = tagsExchanged
	}
	return append(clues, clue{sort, j, at, mine[j], "", gain})
}

// ownMistakes are the figures of the sheet's own that may be the wrong ones.
func (m *sheetModel) ownMistakes(clues []clue, r *modelRow) []clue {
	for k, own := range m.own {
		if !r.own[k].has || !own.exact && (own.of.computed == measure.QualityGrade || own.otherwise()) {
			continue
		}
		without := math.Log(0.25)
		if own.of.computed == measure.QualityGrade {
			without = math.Log(0.1)
		}
		clues = append(clues, clue{ownMistaken, -1, k, 0, "", without - r.ownTerms[k]})
	}
	return clues
}
