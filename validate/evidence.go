package validate

import (
	"math"

	"railbook/rules/measure"
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

// kindsOfSlip is over how many kinds of slip the chances are spread.
const kindsOfSlip = 40.0

// besidesTheStep is how much must speak for a slip besides that its number is off a step the column keeps loosely.
const besidesTheStep = 0.7

// enoughToTry is how much a row must gain at most before slips are tried on it.
const enoughToTry = 2.0

// scoreRow adds up what speaks for a slip in a row: in one cell, in two of its cells, or in it and another row.
func (m *sheetModel) scoreRow(i int, by *workings) {
	r := m.rows[i]
	m.scoreAlone(i, by)
	r.score = scoreOf(r.alone + chancesOf(m.exchangedWith(i, by)))
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
		r.aloneAsOther = math.Log1p(math.Exp(math.Min(500, scoreOf(r.alone))) / rowsToASlip)
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
	most := r.gains[j]
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

// scoreRows tries the slips that stay within a row on every row, and then holds each beside the others.
func (m *sheetModel) scoreRows() {
	each := func(score func(i int, by *workings)) {
		sideBySide(len(m.rows), rowsAtOnce, func(from, upTo int) {
			var by workings
			for i := from; i < upTo; i++ {
				if m.untouched(m.rows[i]) {
					score(i, &by)
				}
			}
		})
	}
	each(m.scoreAlone)
	m.oddLive() // before the rows ask for them side by side
	each(m.scoreRow)
}

// mostGain bounds what changing one cell may gain.
func (m *sheetModel) mostGain(r *modelRow, j int) float64 {
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
