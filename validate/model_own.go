package validate

import (
	"math"

	"github.com/shopspring/decimal"

	"railbook/grading"
	"railbook/rules/measure"
)

// ownModel is how a figure of the sheet's own goes with the computed one: within its last decimal, or about it with a spread
// of the sheet's own, as a camera's.
type ownModel struct {
	of       *ownFigure
	slopes   []float64 // how the figure follows each column; nil for a quality grade or a ratio
	decimals int32
	exact    bool
	agree    float64 // the share that agree, where exact
	agrees   float64 // what agreeing says of a row, and what disagreeing says, where exact
	differs  float64
	nothing  bool    // the figures tell nothing of a row
	from     float64 // how far apart it may be, where exact: rounded, or cut
	upTo     float64
	about    bell // of the difference otherwise
}

// ownReading is one of the sheet's own figures beside a carcass.
type ownReading struct {
	has      bool
	written  float64
	computed float64
	agrees   bool
}

// exactShare is the share of a sheet's own figures from which on those that do not agree are taken for slips.
const exactShare = 0.8

// fitOwn finds how the sheet's own figures go with the computed ones.
func (m *sheetModel) fitOwn() {
	m.own = make([]*ownModel, len(ownFigures))
	readings := make([]ownReading, len(ownFigures)*len(m.rows))
	for _, r := range m.rows {
		r.own, readings = readings[:len(ownFigures):len(ownFigures)], readings[len(ownFigures):]
	}
	sideBySide(len(ownFigures), 1, func(k, _ int) {
		own := &ownModel{of: &ownFigures[k]}
		m.own[k] = own
		found := false
		for _, r := range m.rows {
			figure, ok := r.Value(own.of.sheet)
			computed, has := r.Figure(own.of.computed)
			written := ownReading{}
			if ok && has && !r.doubted.Has(own.of.sheet) {
				written = ownReading{has: true, written: floatOf(figure.Number), computed: floatOf(computed.Number)}
				if own.of.computed == measure.QualityGrade {
					r.gradedBy = gradedBesides(r.row)
					written.agrees = sameGrade(figure, computed)
				}
				found = true
				own.decimals = max(own.decimals, min(2, -figure.Number.Exponent()))
			}
			r.own[k] = written
		}
		if found {
			own.slopes = m.slopesOf(own.of.computed)
			m.fitOwnFigure(k)
		}
	})
}

// fewestForSpread is from how many carcasses on a sheet tells how its own figures go with the computed ones; with fewer they are
// held to one unit of their last decimal either way.
const fewestForSpread = 6

// fitOwnFigure fits one of the sheet's own figures to all rows that have it.
func (m *sheetModel) fitOwnFigure(k int) {
	var list []*ownReading
	for _, r := range m.rows {
		if r.own[k].has {
			list = append(list, &r.own[k])
		}
	}
	m.own[k].fitTo(list)
}

// fitTo looks at the whole sheet and at each half of it, since a column that is a row off disagrees from some row on.
func (o *ownModel) fitTo(list []*ownReading) {
	rounded, cut := 0, 0
	for _, reading := range list {
		if apart := o.apart(reading.written, reading.computed); math.Abs(apart) <= o.unit()/2+1e-9 {
			rounded++
		} else if apart < 0 && apart >= -o.unit()-1e-9 {
			cut++
		}
	}
	o.from, o.upTo = -o.unit(), o.unit()
	if o.unit() == 1 {
		o.from, o.upTo = -0.5, 0.5
	} else if len(list) >= fewestForSpread {
		o.from, o.upTo = -o.unit()/2, o.unit()/2
		if 3*cut > rounded {
			o.from, o.upTo = -o.unit(), 0
		}
	}
	o.agree = agreeWhereExact
	if o.of.computed != measure.QualityGrade {
		for _, reading := range list {
			reading.agrees = o.within(reading.written, reading.computed)
		}
	}
	o.exact, o.about = o.fit(list)
	if len(list) >= 2*fewestForSpread {
		for _, part := range [][]*ownReading{list[:len(list)/2], list[len(list)/2:]} {
			exact, about := o.fit(part)
			o.exact = o.exact || exact
			if about.deviation < o.about.deviation {
				o.about = about
			}
		}
	}
	o.nothing = o.otherwise()
	o.agrees, o.differs = math.Log(o.agree/(o.upTo-o.from)), math.Log(1-o.agree)-math.Log(4)
	if o.of.computed == measure.QualityGrade {
		o.agrees, o.differs = math.Log(o.agree), math.Log(1-o.agree)-1
	}
}

// agreeWhereExact is how often a figure agrees with the true measures where the sheet's figures are exact.
const agreeWhereExact = 0.997

// fit reports whether the figures of some rows agree to their last decimal, slips apart, and how they lie about the computed ones.
func (o *ownModel) fit(list []*ownReading) (exact bool, about bell) {
	agreeing, near := 0, 0
	apart := make([]float64, 0, len(list))
	for _, reading := range list {
		away := o.apart(reading.written, reading.computed)
		apart = append(apart, away)
		switch {
		case reading.agrees:
			agreeing++
		case math.Abs(away) < 2*o.unit():
			near++
		}
	}
	if o.of.computed != measure.QualityGrade && len(list) >= fewestForSpread {
		least := math.Max(0.03, o.unit()/2)
		if o.of.computed == measure.DressingPercent {
			least *= 5
		}
		about = fitted(apart, newBell(0, 2*least, 0))
	}
	disagreeing := len(list) - agreeing
	if len(list) < fewestForSpread {
		return disagreeing < 3 || disagreeing*3 <= len(list), about
	}
	few := near < 2 || near*25 < len(list)
	return float64(agreeing) >= exactShare*float64(len(list)) && (few || o.of.computed == measure.QualityGrade), about
}

// otherwise reports whether the sheet's figures are worked out so otherwise than ours that they tell nothing of a row.
func (o *ownModel) otherwise() bool {
	if o.exact {
		return false
	}
	most := mostApart[o.of.computed]
	return o.about.deviation == 0 || o.about.deviation > most || math.Abs(o.about.middle) > most
}

// mostApart is how far, and with what spread, a plant's own figure may lie from the computed one and still be of the same
// thing: a camera's yield grade is about a fifth of a grade apart (this project's decision).
var mostApart = map[measure.ID]float64{measure.YieldGrade: 0.45, measure.Cutability: 0.8, measure.DressingPercent: 2}

// within reports whether a figure as written is the computed one, as the sheet rounds or cuts.
func (o *ownModel) within(written, computed float64) bool {
	apart := o.apart(written, computed)
	return apart >= o.from-1e-9 && apart <= o.upTo+1e-9
}

// unit is one of the last decimal.
func (o *ownModel) unit() float64 { return math.Pow(10, -float64(o.decimals)) }

// apart is how far a figure as written is from the computed one; a whole yield grade stands for the middle of its whole.
func (o *ownModel) apart(written, computed float64) float64 {
	if o.decimals == 0 && o.of.computed == measure.YieldGrade {
		computed = math.Max(1.0001, math.Min(5.9999, computed))
		return written + 0.5 - computed
	}
	return written - computed
}

// ownDensity is what one of the sheet's own figures says of a row with other numbers in its cells.
func (m *sheetModel) ownDensity(r *modelRow, k int, x []float64) float64 {
	own, reading := m.own[k], &r.own[k]
	if !reading.has {
		return 0
	}
	if own.of.computed == measure.QualityGrade {
		if !own.exact {
			return 0
		}
		return own.density(m.gradeAgrees(r, reading, x), 0)
	}
	computed := m.ownComputed(r, k, x)
	return own.density(own.within(reading.written, computed), own.apart(reading.written, computed))
}

// ownComputed is a figure as it is worked out of other numbers in a row's cells.
func (m *sheetModel) ownComputed(r *modelRow, k int, x []float64) float64 {
	computed := r.own[k].computed
	if m.own[k].of.computed == measure.DressingPercent {
		live, hasLive := m.place[measure.LiveWeight]
		carcass, hasCarcass := m.place[measure.HotCarcassWeight]
		if hasLive && hasCarcass && has(x[live]) && has(x[carcass]) {
			computed = 100 * x[carcass] / x[live]
		}
		return computed
	}
	for j, slope := range m.own[k].slopes {
		if slope != 0 && !same(x[j], r.x[j]) {
			computed += slope * (x[j] - r.x[j])
		}
	}
	return computed
}

// follows reports whether one of the sheet's own figures is worked out of a column.
func (m *sheetModel) follows(k, j int) bool {
	switch m.own[k].of.computed {
	case measure.QualityGrade:
		return m.columns[j].measure == measure.Marbling
	case measure.DressingPercent:
		return m.columns[j].measure == measure.LiveWeight || m.columns[j].measure == measure.HotCarcassWeight
	}
	return m.own[k].slopes != nil && m.own[k].slopes[j] != 0
}

// density is what a figure says of a row: whether it agrees where the sheet's figures are exact, how far apart it is otherwise.
func (o *ownModel) density(agrees bool, apart float64) float64 {
	switch {
	case o.exact && agrees:
		return o.agrees
	case o.exact:
		return o.differs
	case o.nothing:
		return 0
	}
	return o.about.density(apart)
}

// gradeAgrees grades a row with other numbers in its cells, where they bear on its quality.
func (m *sheetModel) gradeAgrees(r *modelRow, reading *ownReading, x []float64) bool {
	j, ok := m.place[measure.Marbling]
	if !ok || !has(x[j]) || x[j] == r.x[j] {
		return reading.agrees
	}
	if x[j] < 0 || x[j] > 999 {
		return false
	}
	graded, ok := m.gradeWith(r, x[j])
	return ok && sameGrade(r.ReadingOf(measure.SheetQualityGrade).Value, graded)
}

// gradeWith grades a row with another marbling. Carcasses that are alike in all else that the grade comes of have one grade, which
// is worked out once: it is asked of many marblings of every row.
func (m *sheetModel) gradeWith(r *modelRow, marbling float64) (graded measure.Value, ok bool) {
	type known struct {
		value measure.Value
		ok    bool
	}
	key := gradedAs{r.gradedBy, marbling}
	if figure, found := m.grades.Load(key); found {
		return figure.(known).value, figure.(known).ok
	}
	number := decimal.NewFromFloat(marbling)
	mended := m.checker.with(r.row, map[measure.ID]measure.Value{measure.Marbling: {Number: number, Text: grading.FormatMarbling(number)}})
	graded, ok = mended.Figure(measure.QualityGrade)
	m.grades.Store(key, known{graded, ok})
	return graded, ok
}

// gradedAs is all that a quality grade comes of.
type gradedAs struct {
	besides  string // everything but marbling, as gradedBesides writes it
	marbling float64
}

// gradedBesides writes out everything that a carcass's quality grade may come of but marbling: what is no measured number and no
// name, the sex, and how far the judge lowers a dark cutter.
func gradedBesides(r *row) string {
	text := string(r.Species) + string(r.Basis)
	for id, reading := range r.Readings() {
		definition, _ := measure.Define(id)
		switch {
		case id == measure.Marbling || id == measure.SheetQualityGrade:
		case id == measure.Sex, id == measure.DarkCutterLowering, definition.Kind != measure.KindNumber && definition.Kind != measure.KindText:
			text += "|" + id.String() + "=" + reading.Value.Number.String() + " " + reading.Value.Text
		}
	}
	return text
}

// slopesOf finds how a computed figure follows each column, from one carcass that has them all: yield grade and cutability
// are straight lines.
func (m *sheetModel) slopesOf(figure measure.ID) []float64 {
	if figure == measure.QualityGrade || figure == measure.DressingPercent {
		return nil
	}
	slopes := make([]float64, len(m.columns))
	for _, r := range m.rows {
		before, ok := r.number(figure)
		if !ok {
			continue
		}
		for j := range m.columns {
			if !has(r.x[j]) {
				continue
			}
			reading := r.ReadingOf(m.columns[j].measure)
			changed := m.checker.with(r.row, map[measure.ID]measure.Value{m.columns[j].measure: measure.NumberValue(reading.Value.Number.Add(decimal.New(1, -2)))})
			if after, ok := changed.number(figure); ok {
				slopes[j] = floatOf(after.Sub(before)) * 100
			}
		}
		return slopes
	}
	return slopes
}
