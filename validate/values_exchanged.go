package validate

// valuesExchanged holds a carcass two of whose values stand in each other's columns: as they are one cannot be true, the other
// way round both are possible, and nothing in one cell alone explains as much.
func valuesExchanged(s *checker) []Finding {
	var findings []Finding
	for _, r := range s.rows {
		m, i := s.modelOf(r)
		of := m.rows[i]
		if !m.untouched(of) || !m.beyondPossible(of) {
			continue
		}
		top, _ := m.weighed(i)
		if top.sort != cellsExchanged || !m.possible(top.cell, of.x[top.other]) || !m.possible(top.other, of.x[top.cell]) {
			continue
		}
		findings = append(findings, s.exchangeFinding(Hold, r, m.columns[top.cell].measure, m.columns[top.other].measure, s.why(m, i, top)))
	}
	return findings
}

// beyondPossible reports whether a cell of a row cannot be true by itself, or the weights cannot be true together.
func (m *sheetModel) beyondPossible(r *modelRow) bool {
	for j := range m.columns {
		if has(r.x[j]) && !m.possible(j, r.x[j]) {
			return true
		}
		if c := &m.columns[j]; c.under >= 0 && c.unit == "lb" && has(r.x[j]) && has(r.x[c.under]) && r.x[j] >= r.x[c.under] {
			return true
		}
	}
	return false
}
