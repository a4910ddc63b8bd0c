package rules

import "slices"

// WithCell gives the tables with another cell in the place of one; the tables given are not changed.
func WithCell(tables []Table, place Place, cell Cell) []Table {
	changed := slices.Clone(tables)
	for t, table := range changed {
		for r, row := range table.Rows {
			for column := range row {
				if row[column].Place != place {
					continue
				}
				changed[t].Rows = slices.Clone(table.Rows)
				changed[t].Rows[r] = slices.Clone(row)
				changed[t].Rows[r][column] = cell
				return changed
			}
		}
	}
	return changed
}

// WithSetting gives the tables with another value of a setting; the tables given are not changed.
func WithSetting(tables []Table, name string, species Species, value Cell) []Table {
	for _, table := range tables {
		if table.Name != SettingsTable {
			continue
		}
		setting, whose, at := columnOf(table, "Setting"), columnOf(table, "Species"), columnOf(table, "Value")
		for _, row := range table.Rows {
			if setting < 0 || whose < 0 || at < 0 || len(row) <= max(setting, whose, at) {
				continue
			}
			if fold(row[setting].Text) == fold(name) && fold(row[whose].Text) == string(species) {
				return WithCell(tables, row[at].Place, value)
			}
		}
	}
	return tables
}
