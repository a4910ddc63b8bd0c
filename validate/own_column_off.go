package validate

import "railbook/rules/measure"

// ownShift is a column of the plant's own figures that is a row off from some row on.
type ownShift struct {
	shift
	of int // its place among the sheet's own figures
}

// fewestMended is how many rows must agree with a neighbour's figure and not with their own: where grades are few, two may by chance.
const fewestMended = 3

// likeliestOwnShift finds from which row on one of the plant's own figures goes with the measures of a neighbour. How nearly the
// plant's figures go with the computed ones is taken from the rows as they stand or as moved back, whichever go better.
func (m *sheetModel) likeliestOwnShift(k int) (best ownShift, ok bool) {
	if !m.compares(k) {
		return best, false
	}
	for _, from := range []int{1, -1} {
		moved := m.movedBack(k, from)
		by := m.own[k]
		if back := m.fitMoved(k, moved); back.closerThan(by) {
			by = back
		}
		if by.otherwise() {
			continue
		}
		mended := make([]bool, len(m.rows))
		shift := m.likeliestFirst(from, func(i, _ int) (float64, bool) {
			standing, back := &m.rows[i].own[k], &moved[i]
			if !standing.has || !back.has {
				return 0, false
			}
			gain := by.saysOf(back) - by.saysOf(standing)
			mended[i] = gain > 0
			return gain, true
		})
		count := 0
		for _, better := range mended[shift.first:] {
			if better {
				count++
			}
		}
		if shift.gain > best.gain && count >= fewestMended {
			best, ok = ownShift{shift, k}, true
		}
	}
	return best, ok
}

// movedBack gives each row the figure of the row beside it.
func (m *sheetModel) movedBack(k, from int) []ownReading {
	moved := make([]ownReading, len(m.rows))
	for i, r := range m.rows {
		at := i + from
		if at < 0 || at >= len(m.rows) || !r.own[k].has || !m.rows[at].own[k].has {
			continue
		}
		moved[i] = r.own[k]
		moved[i].written = m.rows[at].own[k].written
		if figure := m.own[k].of; figure.computed == measure.QualityGrade {
			computed, _ := r.Figure(figure.computed)
			moved[i].agrees = sameGrade(m.rows[at].ReadingOf(figure.sheet).Value, computed)
		}
	}
	return moved
}

// fitMoved fits a column as it would be moved back.
func (m *sheetModel) fitMoved(k int, moved []ownReading) *ownModel {
	own := *m.own[k]
	var list []*ownReading
	for i := range moved {
		if moved[i].has {
			list = append(list, &moved[i])
		}
	}
	own.fitTo(list)
	return &own
}

// closerThan reports whether figures go with the computed ones more nearly than others do.
func (o *ownModel) closerThan(other *ownModel) bool {
	if o.exact != other.exact {
		return o.exact
	}
	return !o.exact && !o.otherwise() && (other.otherwise() || o.about.deviation < other.about.deviation)
}

// saysOf is what a figure says of its row: the logarithm of its density.
func (o *ownModel) saysOf(reading *ownReading) float64 {
	if o.of.computed == measure.QualityGrade {
		if !o.exact {
			return 0
		}
		return o.density(reading.agrees, 0)
	}
	return o.density(o.within(reading.written, reading.computed), o.apart(reading.written, reading.computed))
}

// ownShiftFinding has the judge look at a column of the plant's own.
func (m *sheetModel) ownShiftFinding(shift ownShift) Finding {
	figure := m.own[shift.of].of
	finding := m.aboutColumn("column a row off", figure.sheet, m.rows[shift.first:])
	finding.Level = Look
	m.passOver(shift)
	return finding.say(m.shiftWords(shift.shift, "the sheet's own "+figure.computed.String()) + "the one that their measures give" +
		m.mayBegin(shift.shift, figure.sheet) + ". Move the column in a copy of the file and grade again; if it is right, accept it in the Judge review sheet.")
}

// passOver leaves the plant's figures out of what is compared in the rows that are off, and has nothing single said of those; how
// the figures go with the computed ones is taken from the other rows.
func (m *sheetModel) passOver(shift ownShift) {
	for _, r := range m.rows[shift.earliest:] {
		r.doubt(m.own[shift.of].of.sheet)
		r.shifted = true
		r.own[shift.of].has = false
	}
	m.fitOwnFigure(shift.of)
	for _, r := range m.rows {
		m.weighAnew(r)
	}
}
