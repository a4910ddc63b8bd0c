package validate

import (
	"math"
	"slices"
	"strconv"

	"railbook/rules/measure"
)

// modelsOf gives the models of a lot in the order of its rows.
func (s *checker) modelsOf() []*sheetModel {
	var list []*sheetModel
	for _, r := range s.rows {
		if m, _ := s.modelOf(r); !slices.Contains(list, m) {
			list = append(list, m)
		}
	}
	return list
}

// columnsExchanged holds the carcasses of a sheet two of whose columns stand under each other's headings: nearly every row is usual
// by the rulebook the other way round, and is not as it stands. No true sheet is named.
func columnsExchanged(s *checker) []Finding {
	var findings []Finding
	for _, m := range s.modelsOf() {
		for a := range m.columns {
			for b := a + 1; b < len(m.columns); b++ {
				if m.exchangedThroughout(a, b) {
					findings = append(findings, m.exchangedColumns(a, b))
				}
			}
		}
	}
	return findings
}

// How much likelier each row must be the other way round, in how large a part of the rows, and in how many.
const (
	gainOfExchange  = 3.0
	shareOfExchange = 0.8
	fewestExchanged = 3
)

func (m *sheetModel) exchangedThroughout(a, b int) bool {
	better, both, most := 0, 0, int((1-shareOfExchange)*float64(len(m.rows)))+1
	ca, cb := &m.columns[a], &m.columns[b]
	for _, r := range m.rows {
		if !has(r.x[a]) || !has(r.x[b]) || r.passed || !r.sound(ca.measure, cb.measure) {
			continue
		}
		both++
		likelier := m.weightsTurned(r, a, b)
		if !m.weights(a, b) {
			likelier = ca.prior.density(ca.figure(r.x[b]))+cb.prior.density(cb.figure(r.x[a]))-ca.prior.density(ca.figure(r.x[a]))-cb.prior.density(cb.figure(r.x[b])) >= gainOfExchange
		}
		if likelier && m.possible(a, r.x[b]) && m.possible(b, r.x[a]) {
			better++
		} else if both-better > most {
			return false
		}
	}
	return both >= fewestExchanged && float64(better) >= shareOfExchange*float64(both)
}

// weights reports whether two columns are the carcass weight and the live weight.
func (m *sheetModel) weights(a, b int) bool {
	ca, cb := &m.columns[a], &m.columns[b]
	return ca.unit == "lb" && cb.unit == "lb" && (ca.under == b || cb.under == a)
}

// weightsTurned reports whether a carcass weighs no less than its live animal, and the other way round has a dressing percent that is
// possible and not unusually high: kilograms beside pounds make one near 73.
func (m *sheetModel) weightsTurned(r *modelRow, a, b int) bool {
	carcass, live := a, b
	if m.columns[b].under == a {
		carcass, live = b, a
	}
	limit := r.kind.limit[measure.DressingPercent]
	if !m.weights(a, b) || limit == nil || r.x[live] <= 0 || r.x[carcass] < r.x[live] {
		return false
	}
	percent := m.decimal(100 * r.x[live] / r.x[carcass])
	level := limit.judge(percent)
	return level == "" || level == Look && percent.LessThan(limit.LookBelow.Decimal)
}

func (m *sheetModel) exchangedColumns(a, b int) Finding {
	ca, cb := &m.columns[a], &m.columns[b]
	finding := m.aboutColumn("columns exchanged", ca.measure, m.rows)
	if sheet := m.rows[0].sheet; sheet != nil {
		finding.At, finding.Exchange = sheet.Columns[ca.measure], sheet.Columns[cb.measure]
	}
	for _, r := range m.rows {
		r.doubt(ca.measure, cb.measure)
	}
	finding.Doubts = []measure.ID{cb.measure}
	return finding.say("the columns " + called(ca.measure) + " and " + called(cb.measure) + " look exchanged: what stands under each heading is usual under the " +
		"other in nearly every row. Exchange the two headings in a copy of the file and grade again; if the columns are right, accept it in the Judge review sheet.")
}

// aboutColumn starts a finding about one column of some rows.
func (m *sheetModel) aboutColumn(code string, column measure.ID, rows []*modelRow) Finding {
	finding := Finding{Level: Hold, Code: code, At: rows[0].Place, Measure: column}
	if reading, ok := rows[0].Written(finding.Measure); ok {
		finding.At = reading.Place
	}
	for _, r := range rows {
		finding.Others = append(finding.Others, r.Carcass)
	}
	return finding
}

// columnARowOff holds the carcasses of a sheet from the row on from which one column is a row off: with the value of the row
// below, or above, nearly every one of them is likelier. Where it is the plant's own grade that is off, the measures stand, and the
// judge looks; where the two explain equally well, both are named. A true column is never named, since its rows do not go with
// their neighbours' values.
func columnARowOff(s *checker) []Finding {
	var findings []Finding
	for _, m := range s.modelsOf() {
		best, found := m.likeliestShift()
		var own []ownShift
		for k := range m.own {
			if shift, ok := m.likeliestOwnShift(k); ok && (!found || shift.gain >= asGoodAColumn*best.gain) {
				own = append(own, shift)
			}
		}
		if found && (len(own) == 0 || best.gain >= asGoodAColumn*own[0].gain) {
			findings = append(findings, m.shiftFinding(best, own))
			continue
		}
		for _, shift := range own {
			findings = append(findings, m.ownShiftFinding(shift))
		}
	}
	return findings
}

// shift is a column that is a row off from some row on.
type shift struct {
	column, first int
	earliest      int // the rows from one of which on it may be off, first being the likeliest
	latest        int
	from          int // 1 where each value stands a row too high and belongs to the row above it, -1 the other way about
	gain          float64
}

// How much likelier a sheet must be with a column moved back, how much one row may weigh in it, and over how many rows.
const (
	gainOfShift   = 10.0
	mostOfARow    = 6.0
	fewestShifted = 4
)

// asLikelyFirst is how much less likely than the likeliest a row may be the first one that is off and still be named with it. Of the
// rows no more than e to the third less likely one is the first in about 19 of 20 cases (common practice: a likelihood interval).
const asLikelyFirst = 3.0

// asGoodAColumn is how much of what one column gains another must gain to be named with it: a grade and the measure that it comes
// of gain the same but for what the measure's class says of it.
const asGoodAColumn = 0.8

// likeliestFirst finds the row from which on a column is likeliest off, given what each row gains with the value of a neighbour; ok
// is false for rows that cannot be held beside it.
func (m *sheetModel) likeliestFirst(from int, gainOf func(i, at int) (gain float64, ok bool)) shift {
	totals := make([]float64, len(m.rows)) // what is gained if the column is off from a row on
	best := shift{from: from}
	total, rows := 0.0, 0
	for i := len(m.rows) - 1; i >= 0; i-- {
		totals[i] = math.Inf(-1)
		at := i + from
		if at < 0 || at >= len(m.rows) || m.rows[i].passed {
			continue
		}
		gain, ok := gainOf(i, at)
		if !ok {
			continue
		}
		total += math.Max(-mostOfARow, math.Min(mostOfARow, gain))
		if rows++; rows < fewestShifted {
			continue
		}
		if totals[i] = total; total > best.gain {
			best.gain, best.first = total, i
		}
	}
	if best.gain <= gainOfShift {
		return shift{}
	}
	near := func(number float64) bool { return number >= best.gain-asLikelyFirst }
	best.earliest = slices.IndexFunc(totals, near)
	for best.latest = len(totals) - 1; !near(totals[best.latest]); best.latest-- {
	}
	return best
}

func (m *sheetModel) likeliestShift() (best shift, ok bool) {
	ways := []int{1, -1}
	shifts := make([]shift, len(ways)*len(m.columns))
	sideBySide(len(shifts), 1, func(at, _ int) {
		j := at / len(ways)
		shifts[at] = m.shiftOf(j, ways[at%len(ways)])
		shifts[at].column = j
	})
	for _, shift := range shifts {
		if shift.gain > best.gain {
			best, ok = shift, true
		}
	}
	return best, ok
}

// shiftOf finds from which row on a column is likeliest off one way.
func (m *sheetModel) shiftOf(j, from int) shift {
	x := make([]float64, len(m.columns))
	moved, refitted := *m, false
	moved.own, refitted = m.ownIfMoved(m.own, j, from)
	return m.likeliestFirst(from, func(i, at int) (float64, bool) {
		r, other := m.rows[i], m.rows[at].x[j]
		if !has(r.x[j]) || !has(other) {
			return 0, false
		}
		if other == r.x[j] {
			return 0, true
		}
		copy(x, r.x)
		x[j] = other
		if refitted {
			return moved.density(r, x) - moved.density(r, r.x), true
		}
		return m.gainOf(r, x, j), true
	})
}

// ownIfMoved fits the sheet's own figures to the measures as they would be with a column moved back, and takes those that go more
// nearly with them so.
func (m *sheetModel) ownIfMoved(standing []*ownModel, j, from int) (list []*ownModel, refitted bool) {
	list = slices.Clone(standing)
	x := make([]float64, len(m.columns))
	for k, own := range standing {
		if own.exact || !m.follows(k, j) || !m.compares(k) {
			continue
		}
		moved := make([]ownReading, len(m.rows))
		for i, r := range m.rows {
			at := i + from
			if at < 0 || at >= len(m.rows) || !r.own[k].has || !has(m.rows[at].x[j]) {
				continue
			}
			moved[i] = r.own[k]
			copy(x, r.x)
			x[j] = m.rows[at].x[j]
			if own.of.computed == measure.QualityGrade {
				moved[i].agrees = m.gradeAgrees(r, &r.own[k], x)
			} else {
				moved[i].computed = m.ownComputed(r, k, x)
			}
		}
		if back := m.fitMoved(k, moved); back.closerThan(own) {
			list[k], refitted = back, true
		}
	}
	return list, refitted
}

// shiftFinding names a measure's column, and those of the plant's own that may be the ones that are off instead.
func (m *sheetModel) shiftFinding(slid shift, instead []ownShift) Finding {
	finding := m.aboutColumn("column a row off", m.columns[slid.column].measure, m.rows[slid.first:])
	for _, r := range m.rows[slid.earliest:] {
		r.doubt(finding.Measure)
	}
	words := m.shiftWords(slid, "the column "+called(finding.Measure)) + "their other measures"
	if m.compares(yieldGradeAt()) && !m.rows[slid.first].own[yieldGradeAt()].agrees {
		words += " and with the sheet's own yield grade"
	}
	for k := range m.own {
		if m.follows(k, slid.column) && m.compares(k) {
			m.passOver(ownShift{slid, k})
		}
	}
	words += m.mayBegin(slid, finding.Measure) + ". "
	for _, other := range instead {
		figure := m.own[other.of].of
		words += "Or the sheet's own " + figure.computed.String() + " is what stands a row " + other.too() + " from cell " +
			m.rows[other.first].ReadingOf(figure.sheet).Place.Cell + " on: compare both with the card. "
		m.passOver(other)
	}
	return finding.say(words + "Move the column in a copy of the file and grade again; if it is right, accept it in the Judge review sheet.")
}

// too says which way a column is off, and way how it is moved back.
func (s shift) too() string {
	if s.from < 0 {
		return "too high"
	}
	return "too low"
}

func (s shift) way() string {
	if s.from < 0 {
		return "down"
	}
	return "up"
}

// shiftWords says what is off, and that the carcasses moved back go with what is to follow.
func (m *sheetModel) shiftWords(slid shift, column string) string {
	return column + " looks a row off from here on: each value stands a row " + slid.too() + ", and moved one row " + slid.way() + " the " +
		strconv.Itoa(len(m.rows)-slid.first) + " carcasses go with "
}

// mayBegin names the cells in which a shift may begin, where there is more than one.
func (m *sheetModel) mayBegin(slid shift, column measure.ID) string {
	from, upTo := m.rows[slid.earliest].ReadingOf(column).Place.Cell, m.rows[slid.latest].ReadingOf(column).Place.Cell
	if from == upTo {
		return ""
	}
	return ". It may begin in any of the cells " + from + " to " + upTo + ": compare those with the card"
}

// yieldGradeAt is the place of the yield grade among a sheet's own figures.
func yieldGradeAt() int {
	for k := range ownFigures {
		if ownFigures[k].computed == measure.YieldGrade {
			return k
		}
	}
	return 0
}
