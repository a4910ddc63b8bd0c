package validate

import (
	"math"
	"slices"
	"sync"

	"railbook/rules/measure"
)

// fewestToFit is how many animals tell anything of what is usual among them: fewer would each be held beside themselves.
const fewestToFit = 3

// fitted draws a bell through figures, shrunk toward another by the number of animals.
func fitted(figures []float64, toward bell) bell {
	count := float64(len(figures))
	if count < fewestToFit {
		return newBell(toward.middle, toward.deviation*math.Sqrt2, 0)
	}
	middle := median(figures)
	deviation := spreadAbout(middle, figures)
	limit := 2.5 * math.Max(deviation, toward.deviation/2)
	sum := 0.0
	for _, figure := range figures {
		away := math.Min(math.Abs(figure-middle), limit)
		sum += away * away
	}
	square := (sum + animalsForSpread*toward.deviation*toward.deviation) / (count + animalsForSpread)
	share := animalsForMiddle / (count + animalsForMiddle)
	return newBell(middle*(1-share)+toward.middle*share, math.Sqrt(square*(1+share)), count)
}

var steps = []float64{10, 5, 1, 0.5, 0.1, 0.05}

// fitStep finds the coarsest step that nine in ten values keep, and what it is worth.
func (c *modelColumn) fitStep(values []float64) {
	c.often = map[float64]int{}
	for _, x := range values {
		c.often[x]++
	}
	c.findStep(values)
	c.off = math.Log(c.finest)
	if c.step > 0 {
		share := (1 - c.keeps) * c.finest
		c.off, c.on = math.Log(math.Max(share, 1e-12)), math.Log(math.Max(share+c.keeps*c.step, 1e-12))
		c.onto = math.Log(c.step/c.finest*c.keeps/(1-c.keeps)) + 1
	}
}

func (c *modelColumn) findStep(values []float64) {
	c.finest = math.Pow(10, -float64(c.decimals))
	for _, step := range steps {
		if step <= c.finest*1.001 {
			break
		}
		kept := 0
		for _, x := range values {
			if onStep(x, step) {
				kept++
			}
		}
		few := len(values) < fewestForStep/2 && kept == len(values)
		if share := float64(kept) / float64(len(values)); few || share >= 0.9 && len(c.often) > 3 && len(values) >= fewestForStep/2 {
			c.loose = len(values) < fewestForStep || (len(values)-kept)*offStepShare > len(values)
			c.step, c.keeps = step, math.Min(share, 1-0.3/float64(len(values)+1))
			return
		}
	}
}

// newSheetModel fits what is usual on one sheet.
func (s *checker) newSheetModel(rows []*row) *sheetModel {
	m := &sheetModel{checker: s, place: map[measure.ID]int{}, groups: map[string]*group{}, grades: &sync.Map{}}
	kind := rows[0].kind
	for at, id := range kind.measures {
		definition, _ := measure.Define(id)
		c := modelColumn{measure: id, kind: definition.Kind, unit: definition.Unit, under: -1, limit: kind.limits[at]}
		c.log = definition.Unit == "lb" || definition.Unit == "in" || definition.Unit == "sq in" || id == measure.IntramuscularFat
		middle, deviation, known := usualOfLimit(kind.limits[at], c.log)
		if !known || definition.Computed && id != measure.AdjustedFat || slices.Contains(noEvidence, id) ||
			!slices.ContainsFunc(rows, func(r *row) bool { return r.cells[at].read }) {
			continue
		}
		c.prior = newBell(middle, deviation, 0)
		m.place[id] = len(m.columns)
		m.compared.Add(id)
		m.columns = append(m.columns, c)
	}
	for _, id := range []measure.ID{measure.HotCarcassWeight, measure.LiveWeight, measure.AdjustedFat, measure.RibeyeArea} {
		for _, cell := range standIns(id) {
			m.compared.Add(cell)
		}
	}
	numbers := make([]float64, 2*len(m.columns)*len(rows))
	modelRows := make([]modelRow, len(rows))
	m.rows = make([]*modelRow, len(rows))
	for i, r := range rows {
		modelRows[i] = modelRow{row: r, x: numbers[:len(m.columns):len(m.columns)], as: numbers[len(m.columns) : 2*len(m.columns) : 2*len(m.columns)]}
		numbers = numbers[2*len(m.columns):]
		m.rows[i] = &modelRows[i]
	}
	m.fit(kind)
	return m
}

// fill puts the numbers of a column into the rows.
func (m *sheetModel) fill(j int) {
	c := &m.columns[j]
	for _, r := range m.rows {
		r.x[j] = math.NaN()
		if value, ok := r.Value(c.measure); ok {
			r.x[j] = floatOf(value.Number)
			c.decimals = max(c.decimals, min(2, -value.Number.Exponent()))
		}
		r.as[j] = c.figure(r.x[j])
	}
}

func (m *sheetModel) fit(kind *kind) {
	live, hasLive := m.place[measure.LiveWeight]
	carcass, hasCarcass := m.place[measure.HotCarcassWeight]
	sideBySide(len(m.columns), 1, func(j, _ int) {
		m.fill(j)
		m.columns[j].fitStep(m.values(j))
	})
	if hasLive && hasCarcass {
		if of, ok := kind.limit[measure.DressingPercent]; ok {
			if middle, deviation, ok := usualOfLimit(of, true); ok {
				c := &m.columns[carcass]
				c.under, c.slope, c.priorTo = live, 1, newBell(middle-math.Log(100), deviation, 0)
			}
		}
	}
	for _, id := range areas {
		if at, ok := m.place[id]; ok {
			m.fitArea(at, carcass, hasCarcass, live, hasLive)
		}
	}
	all := m.newGroup()
	all.rows = m.rows
	var classes []*group
	for _, r := range m.rows {
		if m.groups[r.Class] == nil {
			m.groups[r.Class] = m.newGroup()
			classes = append(classes, m.groups[r.Class])
		}
		r.group = m.groups[r.Class]
		r.group.rows = append(r.group.rows, r)
	}
	sideBySide(len(m.columns), 1, func(j, _ int) { m.fitColumn(all, nil, j) })
	sideBySide(len(classes), 1, func(at, _ int) {
		for j := range m.columns {
			m.fitColumn(classes[at], all, j)
		}
	})
	m.fitOwn()
	numbers := make([]float64, (2*len(m.columns)+len(m.own))*len(m.rows))
	take := func(count int) []float64 {
		taken := numbers[:count:count]
		numbers = numbers[count:]
		return taken
	}
	for j := range m.columns {
		if under := m.columns[j].under; under >= 0 {
			m.columns[under].above = append(m.columns[under].above, j)
		}
		for k := range m.own {
			if m.follows(k, j) {
				m.columns[j].figures = append(m.columns[j].figures, k)
			}
		}
	}
	for _, r := range m.rows {
		r.terms, r.gains, r.ownTerms = take(len(m.columns)), take(len(m.columns)), take(len(m.own))
	}
	sideBySide(len(m.rows), rowsAtOnce, func(from, upTo int) {
		for _, r := range m.rows[from:upTo] {
			for j := range m.columns {
				r.terms[j] = m.term(r, r.x, j)
			}
			m.weighAnew(r)
		}
	})
}

// fitArea takes an area in proportion to a weight: 0.6 % more for each percent unless the animals themselves tell.
func (m *sheetModel) fitArea(at, carcass int, hasCarcass bool, live int, hasLive bool) {
	under := carcass
	if !hasCarcass {
		if !hasLive {
			return
		}
		under = live
	}
	c, w := &m.columns[at], &m.columns[under]
	var weights, list []float64
	for _, r := range m.rows {
		if has(r.x[at]) && has(r.x[under]) && r.x[at] > 0 && r.x[under] > 0 {
			weights, list = append(weights, math.Log(r.x[under])), append(list, math.Log(r.x[at]))
		}
	}
	count := float64(len(list))
	slope := (20*0.6 + count*math.Max(0, math.Min(1, medianSlope(weights, list)))) / (20 + count)
	c.under, c.slope = under, slope
	c.priorTo = newBell(c.prior.middle-slope*w.prior.middle, 0.09, 0)
}

// tooFar is how many of the rulebook's spreads a proportion may lie from its middle and still count: beyond it, it is no animal's.
const tooFar = 9

func (m *sheetModel) newGroup() *group {
	return &group{size: make([]int, len(m.columns)), alone: make([]bell, len(m.columns)), to: make([]bell, len(m.columns))}
}

// fitColumn fits the bells of one column of a group; what cannot be true does not count.
func (m *sheetModel) fitColumn(g, toward *group, j int) {
	c := &m.columns[j]
	prior, priorTo := c.prior, c.priorTo
	if toward != nil {
		prior, priorTo = toward.alone[j], toward.to[j]
	}
	alone, to := make([]float64, 0, len(g.rows)), make([]float64, 0, len(g.rows))
	for _, r := range g.rows {
		if !has(r.x[j]) || !m.possible(j, r.x[j]) {
			continue
		}
		g.size[j]++
		alone = append(alone, r.as[j])
		if c.under >= 0 && has(r.x[c.under]) && m.possible(c.under, r.x[c.under]) {
			if figure := r.as[j] - c.slope*r.as[c.under]; math.Abs(figure-c.priorTo.middle) < tooFar*c.priorTo.deviation {
				to = append(to, figure)
			}
		}
	}
	g.alone[j] = fitted(alone, prior)
	if c.under >= 0 {
		g.to[j] = fitted(to, priorTo)
	}
}

// How far a group's own animals are believed before the rulebook: the middle of its range counts as so many animals, its
// spread as so many more.
const (
	animalsForMiddle = 2.0
	animalsForSpread = 6.0
)

// A number off the step of its column is named by that alone from so many values up, where at most one in so many is off.
const (
	fewestForStep = 20
	offStepShare  = 50
)

func (m *sheetModel) values(j int) []float64 {
	var list []float64
	for _, r := range m.rows {
		if has(r.x[j]) {
			list = append(list, r.x[j])
		}
	}
	return list
}

// weighAnew takes a row as it is by the sheet's own figures as they are fitted now.
func (m *sheetModel) weighAnew(r *modelRow) {
	for k := range m.own {
		r.ownTerms[k] = m.ownDensity(r, k, r.x)
	}
	for j := range r.gains {
		r.gains[j] = math.NaN()
		if has(r.x[j]) {
			r.gains[j] = m.mostGain(r, j)
		}
	}
	r.clean = m.density(r, r.x)
}
