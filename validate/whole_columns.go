package validate

import (
	"math"
	"slices"
	"strconv"

	"railbook/rules/measure"
)

// modelsOf gives the models of a lot in the order of its rows.
func (s *survey) modelsOf() []*sheetModel {
	var list []*sheetModel
	seen := map[*sheetModel]bool{}
	for _, r := range s.rows {
		if m, _ := s.modelOf(r); !seen[m] {
			seen[m] = true
			list = append(list, m)
		}
	}
	return list
}

// columnsExchanged holds the carcasses of a sheet two of whose columns stand under each other's headings: nearly every row is usual
// by the rulebook the other way round, and is not as it stands. No true sheet is named.
func columnsExchanged(s *survey) []Finding {
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
		gain := ca.prior.density(ca.figure(r.x[b])) + cb.prior.density(cb.figure(r.x[a])) - ca.prior.density(ca.figure(r.x[a])) - cb.prior.density(cb.figure(r.x[b]))
		if gain >= gainOfExchange && m.possible(a, r.x[b]) && m.possible(b, r.x[a]) {
			better++
		} else if both-better > most {
			return false
		}
	}
	return both >= fewestExchanged && float64(better) >= shareOfExchange*float64(both)
}

func (m *sheetModel) exchangedColumns(a, b int) Finding {
	ca, cb := &m.columns[a], &m.columns[b]
	finding := m.aboutColumn("columns exchanged", a, m.rows)
	if sheet := m.rows[0].sheet; sheet != nil {
		finding.At, finding.Exchange = sheet.Columns[ca.measure], sheet.Columns[cb.measure]
	}
	for _, r := range m.rows {
		r.doubt(ca.measure, cb.measure)
	}
	return finding.say("the columns " + called(ca.measure) + " and " + called(cb.measure) + " look exchanged: what stands under each heading is usual under the " +
		"other in nearly every row. Exchange the two headings in a copy of the file and grade again; if the columns are right, accept it in the Judge review sheet.")
}

// aboutColumn starts a finding about one column of some rows.
func (m *sheetModel) aboutColumn(code string, j int, rows []*modelRow) Finding {
	finding := Finding{Level: Hold, Code: code, At: rows[0].Place, Measure: m.columns[j].measure}
	if reading, ok := rows[0].Written(finding.Measure); ok {
		finding.At = reading.Place
	}
	for _, r := range rows {
		finding.Lot = append(finding.Lot, r.Carcass)
	}
	return finding
}

// columnARowOff holds the carcasses of a sheet from the row on from which one column is a row off: with the value of the row
// below, or above, nearly every one of them is likelier. A true column is never named, since its rows do not go with their
// neighbours' values.
func columnARowOff(s *survey) []Finding {
	var findings []Finding
	for _, m := range s.modelsOf() {
		if one, ok := m.likeliestShift(); ok {
			findings = append(findings, m.shiftFinding(one))
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

func (m *sheetModel) likeliestShift() (best shift, ok bool) {
	totals := make([]float64, len(m.rows)) // what is gained if the column is off from a row on
	for j := range m.columns {
		for _, from := range []int{1, -1} {
			total, most, first, rows := 0.0, 0.0, 0, 0
			for i := len(m.rows) - 1; i >= 0; i-- {
				totals[i] = math.Inf(-1)
				at := i + from
				r := m.rows[i]
				if at < 0 || at >= len(m.rows) || !has(r.x[j]) || !has(m.rows[at].x[j]) || r.passed {
					continue
				}
				was := r.x[j]
				x := append([]float64(nil), r.x...)
				x[j] = m.rows[at].x[j]
				if x[j] != was {
					total += math.Max(-mostOfARow, math.Min(mostOfARow, m.density(r, x)-r.clean))
				}
				if rows++; rows < fewestShifted {
					continue
				}
				if totals[i] = total; total > most {
					most, first = total, i
				}
			}
			if most > gainOfShift && most > best.gain {
				best, ok = shift{column: j, first: first, from: from, gain: most}, true
				best.earliest = slices.IndexFunc(totals, func(one float64) bool { return one >= most-asLikelyFirst })
				for best.latest = len(totals) - 1; totals[best.latest] < most-asLikelyFirst; best.latest-- {
				}
			}
		}
	}
	return best, ok
}

func (m *sheetModel) shiftFinding(one shift) Finding {
	c := &m.columns[one.column]
	rows := m.rows[one.first:]
	finding := m.aboutColumn("column a row off", one.column, rows)
	for _, r := range m.rows[one.earliest:] {
		r.doubt(c.measure)
	}
	too, way := "low", "up"
	if one.from < 0 {
		too, way = "high", "down"
	}
	words := "the column " + called(c.measure) + " looks a row off from here on: each value stands a row too " + too + ", and moved one row " + way + " the " +
		strconv.Itoa(len(rows)) + " carcasses go with their other measures"
	if m.compares(yieldGradeAt()) && !m.rows[one.first].own[yieldGradeAt()].agrees {
		words += " and with the sheet's own yield grade"
	}
	if from, upTo := m.rows[one.earliest].ReadingOf(c.measure).Place.Cell, m.rows[one.latest].ReadingOf(c.measure).Place.Cell; from != upTo {
		words += ". It may begin in any of the cells " + from + " to " + upTo + ": compare those with the card"
	}
	return finding.say(words + ". Move the column in a copy of the file and grade again; if it is right, accept it in the Judge review sheet.")
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
