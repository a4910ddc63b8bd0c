package validate

import (
	"math"
	"slices"
	"strconv"

	"github.com/shopspring/decimal"

	"railbook/rules/measure"
)

// How far a lamb's score must lie from what its class, weight and fat suggest before it is asked about: in spreads, and in
// thirds of a grade. Within so many thirds of each other, leg and conformation bear each other out (this project's decisions).
const (
	spreadsForMuscling = 3.5
	thirdsForMuscling  = 3.0
	thirdsAlike        = 1.5
)

// musclingScore is one of the two scores of how thick a lamb is built, both on the scale of 1 to 15, with the cell it stands in.
type musclingScore struct {
	figure, cell measure.ID
}

var musclingScores = []musclingScore{{measure.LegScore, measure.LegScore}, {measure.ConformationScore, measure.Conformation}}

// of gives a lamb's score where a cell of its row gives it.
func (m musclingScore) of(r *row) (float64, bool) {
	if _, read := r.Value(m.cell); !read || !r.sound(m.cell) {
		return 0, false
	}
	score, ok := r.number(m.figure)
	return floatOf(score), ok
}

// musclingBesideClass has the judge look at a lamb whose leg score or conformation is far from those of its class, taking into
// account that heavier and fatter lambs are thicker, and that its other score does not bear out. A class of fewer than six tells
// nothing.
func musclingBesideClass(s *checker) []Finding {
	type classOf struct {
		modelKey
		class string
	}
	members, order := map[classOf][]*row{}, []classOf{}
	for _, r := range s.rows {
		key := classOf{modelKey{r.sheet, r.Species, r.Basis}, r.Class}
		if members[key] == nil {
			order = append(order, key)
		}
		members[key] = append(members[key], r)
	}
	var findings []Finding
	for _, key := range order {
		for _, score := range musclingScores {
			findings = append(findings, s.musclingOf(members[key], score)...)
		}
	}
	return findings
}

func (s *checker) musclingOf(class []*row, score musclingScore) []Finding {
	var rows []*row
	var scores []float64
	for _, r := range class {
		if written, ok := score.of(r); ok {
			rows, scores = append(rows, r), append(scores, written)
		}
	}
	if len(rows) < enoughOfClass {
		return nil
	}
	expected, apart, usual := musclingApart(rows, scores)
	var findings []Finding
	for i, r := range rows {
		away := apart[i] - usual.middle
		if math.Abs(away) < math.Max(thirdsForMuscling, spreadsForMuscling*usual.deviation) || borneOut(r, score, scores[i]) {
			continue
		}
		findings = append(findings, s.musclingFinding(r, score, away < 0, len(rows), func(meant float64) bool {
			return math.Abs(meant-expected[i]-usual.middle) < thirdsForMuscling
		}))
	}
	return findings
}

// musclingApart gives what weight and fat lead to expect of each lamb's score, how far it is from that, and what is usual in the class.
func musclingApart(rows []*row, scores []float64) (expected, apart []float64, usual bell) {
	expected = make([]float64, len(rows))
	for _, beside := range []measure.ID{measure.HotCarcassWeight, measure.AdjustedFat} {
		addSlope(expected, scores, rows, beside)
	}
	apart = make([]float64, len(rows))
	for i := range rows {
		apart[i] = scores[i] - expected[i]
	}
	return expected, apart, fitted(apart, newBell(median(apart), 1, 0))
}

// addSlope adds to what is expected how a score follows a measure: the median slope of the class about the measure's median, and
// shrunk toward none as if 20 more animals had none.
func addSlope(expected, scores []float64, rows []*row, beside measure.ID) {
	var at []int
	var measured, left []float64
	for i, r := range rows {
		if number, ok := r.number(beside); ok && r.sound(beside) && number.Sign() > 0 {
			at, measured, left = append(at, i), append(measured, floatOf(number)), append(left, scores[i]-expected[i])
		}
	}
	if len(at) < enoughOfClass {
		return
	}
	count := float64(len(at))
	slope, middle := medianSlope(measured, left)*count/(20+count), median(measured)
	for k, i := range at {
		expected[i] += slope * (measured[k] - middle)
	}
}

// borneOut reports whether the other of a lamb's two scores says the same.
func borneOut(r *row, score musclingScore, written float64) bool {
	return slices.ContainsFunc(musclingScores, func(other musclingScore) bool {
		says, ok := other.of(r)
		return other != score && ok && math.Abs(says-written) <= thirdsAlike
	})
}

func (s *checker) musclingFinding(r *row, score musclingScore, below bool, size int, usual func(float64) bool) Finding {
	direction := map[bool]string{true: "below", false: "above"}[below]
	reading := r.ReadingOf(score.cell)
	finding := s.about(Look, score.cell.String()+" out of line with the class", r, score.cell)
	words := score.cell.String() + " " + reading.Written
	var meant []slip
	if score.cell == measure.LegScore {
		meant = slipsOfScore(reading.Value.Number, usual)
	}
	why := "far " + direction + " what its class, weight and fat suggest, going by the " + strconv.Itoa(size) + " " + string(r.Species) + "s it is held beside."
	if len(meant) == 1 {
		finding.Hint = meant[0].value.String()
		return finding.say(words + " " + meant[0].meant() + ": it is " + why + correctIt)
	}
	return finding.say(words + " is " + why + lookAtIt)
}

// slipsOfScore lists the scores on the scale that a score may have been meant as and that are usual: with a first digit lost, with
// two digits swapped, or with a key struck beside the right one.
func slipsOfScore(score decimal.Decimal, usual func(float64) bool) []slip {
	var list []slip
	add := func(value decimal.Decimal, words string) {
		known := slices.ContainsFunc(list, func(slipped slip) bool { return slipped.value.Equal(value) })
		if !known && !value.Equal(score) && usual(floatOf(value)) {
			list = append(list, slip{value, words})
		}
	}
	if !score.IsInteger() || score.Sign() < 0 {
		return nil
	}
	if score.LessThan(decimal.NewFromInt(10)) {
		add(score.Add(decimal.NewFromInt(10)), "looks like a lost first digit")
		return list
	}
	for _, slip := range swapSlips(score) {
		add(slip.value, slip.words)
	}
	digits := []byte(score.String())
	for i, digit := range digits {
		for _, key := range []byte(besideOnAPad[digit-'0']) {
			struck := slices.Clone(digits)
			struck[i] = key
			if value, err := decimal.NewFromString(string(struck)); err == nil {
				add(value, "looks like a wrong key")
			}
		}
	}
	return list
}
