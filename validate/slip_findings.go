package validate

import (
	"math"
	"strconv"

	"railbook/grading"

	"railbook/rules/measure"
)

// enoughToSpeak is the score from which on a row is named: the logarithm of how much likelier it is with one of the slips,
// taken together, than without. On planted sheets other than the judged ones about one true row in forty reaches it.
const enoughToSpeak = -0.4

// The checks that a row's likeliest slip is reported by.
const (
	tagsSwappedCheck   = "tags swapped"
	rowsExchangedCheck = "values of two rows exchanged"
	rowAboveCheck      = "value of the row above"
	ownFigureCheck     = "sheet's own figure disagrees"
	outOfLineCheck     = "out of line with the class"
)

// checkOf names the check that reports a sort of slip; its name is the code of the finding too.
var checkOf = map[slipSort]string{
	movedPlaces: "decimal point moved", inOtherUnit: "another unit", negated: "wrong digit", swappedTwo: "digits swapped",
	hundredAway: "a hundred off", oneAway: "wrong digit", wrongKeyStruck: "wrong digit", digitTwice: "wrong digit", digitLost: "wrong digit",
	oneSideOnly: outOfLineCheck, chilledOnly: ownFigureCheck, asAbove: rowAboveCheck, asOtherCell: outOfLineCheck,
	cellsExchanged: "values look exchanged", rowsExchanged: rowsExchangedCheck, tagsExchanged: tagsSwappedCheck, anyOther: outOfLineCheck,
	ownMistaken: ownFigureCheck,
}

// slipsBy gives the findings of one of those checks. All rows are scored at once, each named by its likeliest slip alone.
func slipsBy(check string) func(*checker) []Finding {
	return func(s *checker) []Finding {
		if s.slips == nil {
			s.slips = map[string][]Finding{}
			for _, m := range s.modelsOf() {
				m.scoreRows()
			}
			for _, r := range s.rows {
				s.nameSlip(r)
			}
		}
		return s.slips[check]
	}
}

// untouched reports whether nothing is doubted yet of what the model compares in a row.
func (m *sheetModel) untouched(r *modelRow) bool {
	return !r.passed && !r.copied && !r.shifted && !r.doubted.Meets(&m.compared)
}

// nameSlip names the likeliest slip of a row for which enough speaks.
func (s *checker) nameSlip(r *row) {
	m, i := s.modelOf(r)
	of := m.rows[i]
	if of.score < enoughToSpeak || !m.untouched(of) {
		return
	}
	m.scoreRow(i, &m.work) // anew, and not higher, since a row that it was held beside may have been named
	if of.score < enoughToSpeak {
		return
	}
	top, second := m.weighed(i)
	if k, disagrees := m.disagreeing(of); disagrees && (top.value <= 0 && top.other < 0 || top.gain < of.score+math.Log(kindsOfSlip*sureOfOrigin)) {
		top = suspected{clue: clue{sort: ownMistaken, cell: -1, other: k}}
	}
	finding := s.slipFinding(m, i, top, second)
	s.slips[checkOf[top.sort]] = append(s.slips[checkOf[top.sort]], finding)
	r.doubt(finding.Measure)
	if top.cell >= 0 {
		r.doubt(m.columns[top.cell].measure)
	}
	if top.sort == rowsExchanged || top.sort == tagsExchanged {
		m.rows[top.other].doubt(m.columns[top.cell].measure)
	}
}

// disagreeing gives the figure of the sheet's own that a row's measures contradict, where the sheet's figures are exact.
func (m *sheetModel) disagreeing(r *modelRow) (k int, disagrees bool) {
	for k, own := range m.own {
		if own.exact && r.own[k].has && !r.own[k].agrees {
			return k, true
		}
	}
	return 0, false
}

// suspected is what speaks for one cell, pair of cells or pair of rows together.
type suspected struct {
	clue         // the likeliest
	sum  float64 // of all that speak for it
}

// weighed adds up what speaks for each cell or pair, and gives the two for which most does.
func (m *sheetModel) weighed(i int) (top, second suspected) {
	type target struct {
		sort        slipSort
		cell, other int
	}
	sums, order := map[target]*suspected{}, []target{}
	exchanged := m.exchangedWith(i, &m.work)
	for _, clue := range append(m.cluesAlone(i, &m.work), exchanged...) {
		key := target{cell: clue.cell, other: -1}
		switch clue.sort {
		case cellsExchanged, rowsExchanged, tagsExchanged:
			key = target{clue.sort, clue.cell, clue.other}
		case ownMistaken:
			key = target{ownMistaken, -1, clue.other}
		}
		if sums[key] == nil {
			sums[key] = &suspected{clue: clue}
			order = append(order, key)
		}
		sums[key].sum += math.Exp(math.Min(500, clue.gain))
		if clue.gain > sums[key].gain {
			sums[key].clue = clue
		}
	}
	for _, key := range order {
		switch suspected := *sums[key]; {
		case suspected.sum > top.sum:
			top, second = suspected, top
		case suspected.sum > second.sum:
			second = suspected
		}
	}
	return top, second
}

// A likely value is shown where so large a part of what speaks for the cell speaks for it; and a second cell is named where
// as much, or nearly, speaks for it.
const (
	sureOfValue  = 0.4
	equallyGood  = 0.6
	sureOfOrigin = 0.5
)

func (s *checker) slipFinding(m *sheetModel, i int, top, second suspected) Finding {
	of := m.rows[i]
	r := of.row
	if top.sort == ownMistaken {
		return s.ownFigureFinding(r, m.own[top.other].of)
	}
	c := &m.columns[top.cell]
	reading := r.ReadingOf(c.measure)
	what := called(c.measure) + " " + reading.Value.Number.String()
	switch top.sort {
	case tagsExchanged:
		return s.swapFinding(r, m.rows[top.other].row)
	case rowsExchanged:
		other := m.rows[top.other]
		place := other.ReadingOf(c.measure).Place
		finding := s.about(Look, rowsExchangedCheck, r, c.measure)
		finding.Hint, finding.Exchange = other.ReadingOf(c.measure).Value.Number.String(), place
		finding.Others = []*grading.Carcass{other.Carcass}
		return finding.say(what + " and the " + finding.Hint + " in cell " + place.Cell + " may stand in each other's row: " + s.why(m, i, top) + lookAtIt)
	case cellsExchanged:
		o := &m.columns[top.other]
		return s.exchangeFinding(Look, r, c.measure, o.measure, s.why(m, i, top))
	}
	finding := s.about(Look, checkOf[top.sort], r, c.measure)
	words := what
	switch {
	case top.sort == asAbove:
		words += " is that of the row above, and does not go with its own: " + s.why(m, i, top)
	case top.value > 0 && math.Exp(math.Min(500, top.gain))/top.sum >= sureOfValue:
		finding.Hint = m.decimal(top.value).String()
		words += " " + top.words + " (" + finding.Hint + "): " + s.why(m, i, top)
	default:
		finding.Code = outOfLineCheck
		top.value = 0
		words += " does not go with the rest: " + s.why(m, i, top)
	}
	if second.sum >= equallyGood*top.sum && second.cell >= 0 && second.sort != rowsExchanged && second.sort != tagsExchanged && second.sort != cellsExchanged {
		other := &m.columns[second.cell]
		words += " The " + called(other.measure) + " " + r.ReadingOf(other.measure).Value.Number.String() + " in cell " + r.ReadingOf(other.measure).Place.Cell + " may be the wrong one as well."
	}
	if finding.Hint != "" {
		return finding.say(words + correctIt)
	}
	return finding.say(words + lookAtIt)
}

// why says what speaks most for a slip in a cell: the sheet's own figure, the dressing percent, the weight, the class or the
// column's step.
func (s *checker) why(m *sheetModel, i int, top suspected) string {
	of := m.rows[i]
	x := append([]float64(nil), of.x...)
	mended := false
	if top.value > 0 {
		x[top.cell], mended = top.value, true
	}
	if top.sort == cellsExchanged {
		x[top.cell], x[top.other], mended = of.x[top.other], of.x[top.cell], true
	}
	best, words := 1.0, ""
	for k, own := range m.own {
		if !of.own[k].has {
			continue
		}
		gain := -m.ownDensity(of, k, of.x)
		if mended {
			gain += m.ownDensity(of, k, x)
		} else if own.slopes != nil && own.slopes[top.cell] == 0 {
			continue
		} else if !own.exact {
			gain += own.about.peak
		}
		if gain > best {
			computed, _ := of.Figure(own.of.computed)
			best = gain
			words = "the sheet has " + own.of.computed.String() + " " + of.ReadingOf(own.of.sheet).Value.Text + ", but its measures give " + printed(computed, own.of.computed) + "."
			if mended {
				words = "the sheet's own " + own.of.computed.String() + " " + of.ReadingOf(own.of.sheet).Value.Text + " would then agree."
			}
		}
	}
	for j := range m.columns {
		c := &m.columns[j]
		if j != top.cell && c.under != top.cell && !(top.sort == cellsExchanged && j == top.other) || !has(of.x[j]) {
			continue
		}
		gain := m.oddness(of, of.x, j)
		if mended {
			gain -= m.oddness(of, x, j)
		}
		if gain > best {
			best, words = gain, s.oddWords(m, of, x, j, mended)
		}
	}
	if words != "" {
		return words
	}
	if c := &m.columns[top.cell]; c.step > 0 && !onStep(of.x[top.cell], c.step) {
		return "nearly all of the column is in steps of " + strconv.FormatFloat(c.step, 'f', -1, 64) + "."
	}
	return "it would then be in line with what is usual."
}

// oddness is how much less likely a figure is than the likeliest.
func (m *sheetModel) oddness(r *modelRow, x []float64, j int) float64 {
	c := &m.columns[j]
	if !has(x[j]) {
		return 0
	}
	if c.under >= 0 && has(x[c.under]) && x[c.under] > 0 {
		return r.group.to[j].peak - r.group.to[j].density(m.proportion(j, x[j], x[c.under]))
	}
	return r.group.alone[j].peak - r.group.alone[j].density(c.figure(x[j]))
}

func (s *checker) oddWords(m *sheetModel, r *modelRow, x []float64, j int, mended bool) string {
	c := &m.columns[j]
	beside := " of the " + strconv.Itoa(r.group.size[j]) + " carcasses it is held beside."
	if r.group.size[j] < 2 {
		beside = " what the rulebook holds usual."
	}
	direction := func(away bool) string {
		if away {
			return "above"
		}
		return "below"
	}
	if c.under >= 0 && has(r.x[c.under]) && r.x[c.under] > 0 {
		under := &m.columns[c.under]
		above := m.proportion(j, r.x[j], r.x[c.under]) > r.group.to[j].middle
		if c.measure == measure.HotCarcassWeight {
			before, _ := r.number(measure.DressingPercent)
			if mended {
				return "dressing percent would be " + strconv.FormatFloat(100*x[j]/x[c.under], 'f', 2, 64) + " instead of " + rounded(before, measure.DressingPercent) + "."
			}
			return "dressing percent " + rounded(before, measure.DressingPercent) + " is far " + direction(above) + " that" + beside
		}
		words := called(c.measure) + " " + withUnit(r.ReadingOf(c.measure).Value.Number, c.measure) + " is far " + direction(above) + " what the " + called(under.measure) + " suggests, going by"
		if r.group.size[j] < 2 {
			return words + beside
		}
		return words + beside[len(" of"):]
	}
	above := c.figure(r.x[j]) > r.group.alone[j].middle
	words := "it is far " + direction(above)
	if r.group.size[j] < 2 {
		return words + beside
	}
	return words + " those" + beside
}

// exchangeFinding names two cells of a row that look exchanged, at the first of them.
func (s *checker) exchangeFinding(level Level, r *row, a, b measure.ID, why string) Finding {
	first, second := r.ReadingOf(a), r.ReadingOf(b)
	code := checkOf[cellsExchanged]
	if level == Hold {
		code = "values exchanged"
	}
	finding := s.about(level, code, r, a)
	finding.Hint, finding.Exchange = second.Value.Number.String(), second.Place
	r.doubt(b)
	return finding.say("the " + called(a) + " " + first.Value.Number.String() + " and the " + called(b) + " " + second.Value.Number.String() +
		" in cell " + second.Place.Cell + " look exchanged: " + why + " Correct both cells or mark it in the Judge review sheet.")
}
