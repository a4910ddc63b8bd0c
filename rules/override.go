package rules

import (
	"slices"
	"strings"

	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// GivenWhenGrading is the source of a line that somebody asked for on the command line.
const GivenWhenGrading = "given when grading"

// WithBasePrice gives the tables with another base price for a species, in $/cwt of carcass, as somebody asked for it on
// the command line; the tables given are not changed.
func WithBasePrice(tables []Table, species Species, price decimal.Decimal) []Table {
	return withRow(tables, SettingsTable, map[string]string{"Setting": "base price", "Species": string(species)},
		map[string]string{"Value": price.String(), "Source": GivenWhenGrading})
}

// WithHeading gives the tables with one more accepted heading for a measure, which then means nothing else; the tables
// given are not changed.
func WithHeading(tables []Table, id measure.ID, heading string) []Table {
	tables = slices.Clone(tables)
	for t, table := range tables {
		if table.Name == HeadingsTable {
			tables[t].Rows = withoutHeading(table.Rows, heading)
		}
	}
	return withRow(tables, HeadingsTable, map[string]string{"Measure": id.String(), "Accepted headings": heading},
		map[string]string{"Source": GivenWhenGrading})
}

// withoutHeading takes a heading out of the lists of accepted headings.
func withoutHeading(rows []Row, heading string) []Row {
	rows = slices.Clone(rows)
	for r, row := range rows[1:] {
		for column, cell := range row {
			if column >= len(rows[0]) || rows[0][column].Text != "Accepted headings" {
				continue
			}
			accepted := slices.DeleteFunc(strings.Split(cell.Text, ";"), func(text string) bool { return foldHeading(text) == foldHeading(heading) })
			row = slices.Clone(row)
			row[column].Text = strings.TrimSpace(strings.Join(accepted, ";"))
			rows[r+1] = row
		}
	}
	return slices.DeleteFunc(rows, func(row Row) bool { return withoutList(rows[0], row) })
}

// withoutList reports whether a row's list of accepted headings has become empty.
func withoutList(headings, row Row) bool {
	for column, cell := range row {
		if column < len(headings) && headings[column].Text == "Accepted headings" {
			return cell.Text == ""
		}
	}
	return false
}

// WithSpecies gives the tables with the species of sheets that do not say theirs; the tables given are not changed.
func WithSpecies(tables []Table, species Species) []Table {
	return withRow(tables, SettingsTable, map[string]string{"Setting": "species of unmarked sheets", "Species": ""},
		map[string]string{"Value": string(species), "Source": GivenWhenGrading})
}

// withRow finds the row of a table whose cells say what key says and gives it the values, or adds such a row.
func withRow(tables []Table, name string, key, values map[string]string) []Table {
	changed := slices.Clone(tables)
	for t, table := range changed {
		if table.Name != name || len(table.Rows) == 0 {
			continue
		}
		rows := slices.Clone(table.Rows)
		headings := rows[0]
		at := slices.IndexFunc(rows[1:], func(row Row) bool { return rowSays(headings, row, key) }) + 1
		if at == 0 {
			at = len(rows)
			rows = append(rows, make(Row, len(headings)))
			for column := range headings {
				rows[at][column].Place = Place{Sheet: name}
			}
		}
		row := slices.Clone(rows[at])
		for column, heading := range headings {
			if text, given := values[heading.Text]; given {
				row[column].Text = text
			} else if text, given := key[heading.Text]; given {
				row[column].Text = text
			}
		}
		rows[at] = row
		changed[t].Rows = rows
	}
	return changed
}

func rowSays(headings, row Row, key map[string]string) bool {
	for column, heading := range headings {
		want, asked := key[heading.Text]
		if !asked {
			continue
		}
		said := ""
		if column < len(row) {
			said = row[column].Text
		}
		if !strings.EqualFold(strings.TrimSpace(said), want) {
			return false
		}
	}
	return true
}

// FindMeasure finds a measure by its name, or by any heading that the default rulebook accepts for it ("HCW").
func FindMeasure(name string) (measure.ID, bool) {
	for _, definition := range measure.Standard().Definitions() {
		if fold(definition.Name) == fold(name) {
			return definition.ID, true
		}
	}
	for _, heading := range Default().Headings {
		if foldHeading(heading.Text) == foldHeading(name) {
			return heading.Measure, true
		}
	}
	return measure.None, false
}
