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
func (m *sheetModel) exchangedWith(i int, by *workings) []clue {
	by.exchanged = by.exchanged[:0]
	live, hasLive := m.place[measure.LiveWeight]
	for at := max(0, i-nearby); at <= i+nearby && at < len(m.rows); at++ {
		for j := range m.columns {
			m.exchange(i, at, j, nearby, by)
		}
	}
	if hasLive && has(m.rows[i].x[live]) && m.rows[i].gains[live] >= oddForSwap {
		for _, at := range m.oddLive() {
			if at < i-nearby || at > i+nearby {
				m.exchange(i, at, live, len(m.rows), by)
			}
		}
	}
	return by.exchanged
}

// oddLive gives the rows whose live weight is odd.
func (m *sheetModel) oddLive() []int {
	if live, hasLive := m.place[measure.LiveWeight]; hasLive && m.odd == nil {
		m.odd = []int{}
		for at, r := range m.rows {
			if has(r.x[live]) && len(m.odd) < mostForSwap && r.gains[live] >= oddForSwap {
				m.odd = append(m.odd, at)
			}
		}
	}
	return m.odd
}

// exchange holds two rows with one of their cells exchanged beside the two as they are, among so many it might have been.
func (m *sheetModel) exchange(i, at, j, among int, by *workings) {
	r, o := m.rows[i], m.rows[at]
	if at == i || !has(r.x[j]) || !has(o.x[j]) || r.x[j] == o.x[j] || r.gains[j]+o.gains[j] < 3 || !m.untouched(o) {
		return
	}
	m.scoreAlone(at, by)
	by.x, by.other = append(by.x[:0], r.x...), append(by.other[:0], o.x...)
	mine, its := by.x, by.other
	mine[j], its[j] = its[j], mine[j]
	gain := m.gainOf(r, mine, j) + m.gainOf(o, its, j) - math.Log(float64(among)) - o.aloneAsOther
	if m.columns[j].unit != "lb" {
		gain += seldomExchanged
	}
	sort := rowsExchanged
	if m.columns[j].measure == measure.LiveWeight {
		sort = tagsExchanged
	}
	by.exchanged = append(by.exchanged, clue{sort, j, at, mine[j], "", gain})
}

// How much must be gained at most by another live weight for a row to be compared with those far from it, and with how many.
const (
	oddForSwap  = 2.0
	mostForSwap = 60
)
