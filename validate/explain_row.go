package validate

import (
	"math"

	"github.com/shopspring/decimal"

	"railbook/rules"
	"railbook/rules/measure"
)

// modelKey names the animals that are fitted together: of one sheet, species and basis.
type modelKey struct {
	sheet   *Sheet
	species rules.Species
	basis   rules.Basis
}

// modelOf gives the model that a carcass is part of, and its place there.
func (s *checker) modelOf(r *row) (m *sheetModel, place int) {
	if r.model == nil {
		s.fitModels()
	}
	return r.model, r.inModel
}

func (s *checker) fitModels() {
	members := map[modelKey][]*row{}
	for _, row := range s.rows {
		key := modelKey{row.sheet, row.Species, row.Basis}
		row.inModel = len(members[key])
		members[key] = append(members[key], row)
	}
	for _, rows := range members {
		m := s.newSheetModel(rows)
		for _, row := range rows {
			row.model = m
		}
	}
}

// explanation is the likeliest slip of a row and how much likelier the row is with it than without.
type explanation struct {
	sort    slipSort
	measure measure.ID
	value   decimal.Decimal // what the cell would hold without it
	words   string          // "looks like tenths"
	gain    float64
}

// meant says what a cell looks like: "looks like tenths (0.4)".
func (e explanation) meant() string { return e.words + " (" + e.value.String() + ")" }

// likeliest gives the slip among the measures' cells that explains the carcass best; ok is false where none makes it any
// likelier. What a slip leads back to is possible.
func (s *checker) likeliest(r *row, ids ...measure.ID) (best explanation, ok bool) {
	for _, id := range ids {
		if explanation, found := s.likeliestWhere(r, id, func(decimal.Decimal) bool { return true }); found && explanation.gain > 0 && (!ok || explanation.gain > best.gain) {
			best, ok = explanation, true
		}
	}
	return best, ok
}

// likeliestWhere gives the slip in one cell that explains the carcass best among those that lead back to a fitting number.
func (s *checker) likeliestWhere(r *row, id measure.ID, fits func(decimal.Decimal) bool) (best explanation, ok bool) {
	m, i := s.modelOf(r)
	of := m.rows[i]
	j, has := m.place[id]
	if !has || math.IsNaN(of.x[j]) {
		return best, false
	}
	x := append([]float64(nil), of.x...)
	for _, reading := range m.readingsOf(j, of.x[j], nil) {
		x[j] = reading.value
		gain := m.gainOf(of, x, j) + reading.chance
		if (!ok || gain > best.gain) && m.fitting(of, j, reading.value) && fits(m.decimal(reading.value)) {
			best, ok = explanation{reading.sort, id, m.decimal(reading.value), reading.words, gain}, true
		}
	}
	return best, ok
}

// fitting reports whether a slip may lead back to a number: to a usual one where no class tells what is usual.
func (m *sheetModel) fitting(r *modelRow, j int, x float64) bool {
	level := m.columns[j].limit.judge(m.decimal(x))
	return level == "" || level == Look && r.group.size[j] >= enoughOfClass
}

// possible reports whether a number is within what its measure can be.
func (m *sheetModel) possible(j int, x float64) bool {
	limit := m.columns[j].limit
	return x > limit.from+hair && x < limit.upTo-hair || limit.judge(m.decimal(x)) != Hold
}

// decimal writes a number as exactly as sheets give numbers.
func (m *sheetModel) decimal(x float64) decimal.Decimal {
	return measure.Round(decimal.NewFromFloat(x), 4)
}
