package rules

import "strconv"

// NextYear gives the tables for the year after: the same rules, the year moved on by one, and cleared what was true of
// one year only: the day the base price was taken and the day until which questions could be asked. The tables given
// stay as they are.
func NextYear(tables []Table) []Table {
	next := make([]Table, len(tables))
	for number, table := range tables {
		next[number] = table
		if table.Name == SettingsTable {
			next[number] = nextSettings(table)
		}
	}
	return next
}

func nextSettings(table Table) Table {
	next := Table{Name: table.Name, Rows: append([]Row(nil), table.Rows...)}
	setting, value := columnOf(table, "Setting"), columnOf(table, "Value")
	for number, row := range next.Rows {
		if number == 0 || setting < 0 || value < 0 || setting >= len(row) || value >= len(row) {
			continue
		}
		changed := append(Row(nil), row...)
		switch fold(row[setting].Text) {
		case "year":
			if year, err := strconv.Atoi(row[value].Text); err == nil {
				changed[value].Text = strconv.Itoa(year + 1)
			}
		case "base price date", "questions until", "date of the fair", "judge":
			changed[value].Text = ""
		}
		next.Rows[number] = changed
	}
	return next
}

// columnOf gives the column of a heading; -1 where the table has none.
func columnOf(table Table, heading string) int {
	if len(table.Rows) == 0 {
		return -1
	}
	for column, cell := range table.Rows[0] {
		if fold(cell.Text) == fold(heading) {
			return column
		}
	}
	return -1
}
