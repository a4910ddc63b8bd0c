package validate

import (
	"math"
	"sync"

	"railbook/rules/measure"
)

// bell is what is usual of a figure among one group of animals: a middle, a spread and how heavy the tails are. The fewer
// animals it comes of, the heavier.
type bell struct {
	middle, deviation, tail float64
	peak                    float64 // the logarithm of the density at the middle
}

func newBell(middle, deviation, animals float64) bell {
	tail := math.Min(5+animals/4, 20)
	high, _ := math.Lgamma((tail + 1) / 2)
	low, _ := math.Lgamma(tail / 2)
	return bell{middle, deviation, tail, high - low - math.Log(tail*math.Pi)/2 - math.Log(deviation)}
}

// density is the logarithm of Student's density.
func (b *bell) density(figure float64) float64 {
	away := (figure - b.middle) / b.deviation
	return b.peak - (b.tail+1)/2*math.Log(1+away*away/b.tail)
}

// modelColumn is one measure of a sheet in numbers.
type modelColumn struct {
	measure  measure.ID
	kind     measure.Kind
	unit     string
	log      bool // compared by its logarithm
	decimals int32
	finest   float64
	step     float64 // 0 for none
	keeps    float64 // the share of values that keep it
	on, off  float64 // the logarithms of the share of numbers about one that is written so, on the step and off it
	onto     float64 // the most that a number off the step may gain by one on it
	loose    bool    // too few values, or too many off the step, for one to be named by that alone
	under    int     // the column it is taken in proportion to; -1 for none
	above    []int   // those taken in proportion to it
	figures  []int   // the sheet's own figures that are worked out of it
	slope    float64
	prior    bell // by itself, from the rulebook
	priorTo  bell // in proportion
	limit    *limit
	often    map[float64]int // how often each value stands in it
}

// sheetModel is what is usual on one sheet among the animals of one kind.
type sheetModel struct {
	checker *checker
	columns []modelColumn
	place   map[measure.ID]int
	// compared are the measures that the model compares, with those that stand for them.
	compared measure.Set
	rows     []*modelRow
	groups   map[string]*group
	own      []*ownModel
	odd      []int     // the rows whose live weight is odd; found when first asked
	work     workings  // where one row after another is looked at
	grades   *sync.Map // by gradedAs: the quality grades worked out so far
}

// modelRow is a carcass in numbers.
type modelRow struct {
	*row
	x     []float64 // NaN where blank
	as    []float64 // the figures that they are compared as
	group *group
	own   []ownReading
	clean float64   // the logarithm of the density of the row as it is
	terms []float64 // what it is the sum of, column by column; nil until all is fitted
	// ownTerms are the same of the sheet's own figures.
	ownTerms []float64
	gains    []float64 // the most that changing each cell may gain
	score    float64
	alone    float64 // how much likelier it is with the slips that stay within it, taken together
	tried    bool
	// aloneAsOther is what is taken off for them where another row is held beside this one: they may explain it as well.
	aloneAsOther float64

	shifted  bool   // one of the plant's own figures is a row off here, which is said of its column
	gradedBy string // all but marbling that its quality grade comes of; only where the sheet has one of its own
}

// group is what is usual in one class.
type group struct {
	rows  []*modelRow
	size  []int  // how many have each column
	alone []bell // of each column by itself
	to    []bell // in proportion to its other column
}

func (c *modelColumn) figure(x float64) float64 {
	if !c.log {
		return x
	}
	if x <= 0 {
		return -20
	}
	return math.Log(x)
}

func (m *sheetModel) proportion(j int, x, under float64) float64 {
	c := &m.columns[j]
	return c.figure(x) - c.slope*m.columns[c.under].figure(under)
}

func has(x float64) bool { return !math.IsNaN(x) }

// term is the density of one cell given the others of its row.
func (m *sheetModel) term(r *modelRow, x []float64, j int) float64 {
	if !has(x[j]) {
		return 0
	}
	c := &m.columns[j]
	total, figure := m.stepDensity(j, x[j]), m.figureIn(r, x, j)
	switch {
	case c.log && x[j] > 1e-6:
		total -= figure
	case c.log:
		total -= math.Log(math.Max(math.Abs(x[j]), 1e-6))
	}
	if c.under >= 0 && has(x[c.under]) && x[c.under] > 0 {
		return total + r.group.to[j].density(figure-c.slope*m.figureIn(r, x, c.under))
	}
	return total + r.group.alone[j].density(figure)
}

// figureIn is what a number in a cell is compared as; of the row's own numbers it is known.
func (m *sheetModel) figureIn(r *modelRow, x []float64, j int) float64 {
	if x[j] == r.x[j] {
		return r.as[j]
	}
	return m.columns[j].figure(x[j])
}

// stepDensity is the logarithm of the share of numbers about one that are written so.
func (m *sheetModel) stepDensity(j int, x float64) float64 {
	if c := &m.columns[j]; c.step == 0 || !onStep(x, c.step) {
		return c.off
	}
	return m.columns[j].on
}

func onStep(x, step float64) bool {
	parts := x / step
	return math.Abs(parts-math.Round(parts)) < 1e-6
}

// density adds up the terms of a row and its own grades.
func (m *sheetModel) density(r *modelRow, x []float64) float64 {
	total := 0.0
	for j := range m.columns {
		if r.terms != nil && m.unchanged(r, x, j) {
			total += r.terms[j]
		} else {
			total += m.term(r, x, j)
		}
	}
	for k := range m.own {
		total += m.ownDensity(r, k, x)
	}
	return total
}

// gainOf is how much likelier a row is with another number in one of its cells, all others being as they are.
func (m *sheetModel) gainOf(r *modelRow, x []float64, j int) float64 {
	gain := m.term(r, x, j) - r.terms[j]
	for _, at := range m.columns[j].above {
		gain += m.term(r, x, at) - r.terms[at]
	}
	for _, k := range m.columns[j].figures {
		if r.own[k].has {
			gain += m.ownDensity(r, k, x) - r.ownTerms[k]
		}
	}
	return gain
}

// unchanged reports whether a cell, and the one it is taken in proportion to, are those of the row.
func (m *sheetModel) unchanged(r *modelRow, x []float64, j int) bool {
	under := m.columns[j].under
	return same(x[j], r.x[j]) && (under < 0 || same(x[under], r.x[under]))
}

// same reports whether two cells hold the same number, or both none.
func same(a, b float64) bool { return a == b || !has(a) && !has(b) }
