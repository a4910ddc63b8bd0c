package validate

import (
	"math"

	"railbook/rules/measure"
)

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

// How much must be gained at most by another live weight for a row to be compared with those far from it, and with how many.
const (
	oddForSwap  = 2.0
	mostForSwap = 60
)
