package rules

import "testing"

// Whatever stands in the cells, Load gives a rulebook or a fault that is no warning, and never both.
func FuzzLoad(f *testing.F) {
	for _, c := range faultCases {
		f.Add(uint8(0), uint16(1), uint8(1), c.message)
	}
	for _, text := range []string{"", "(", "1e9", "tie", "points x", "\x00½"} {
		for sheet := range uint8(11) {
			f.Add(sheet, uint16(1), uint8(2), text)
		}
	}
	f.Fuzz(func(t *testing.T, sheet uint8, row uint16, column uint8, text string) {
		tables := DefaultTables()
		table := &tables[int(sheet)%len(tables)]
		if int(row) >= len(table.Rows)+1 {
			row %= uint16(len(table.Rows))
		}
		if int(row) == len(table.Rows) {
			table.Rows = append(table.Rows, make(Row, len(table.Rows[0])))
		}
		table.Rows[row][int(column)%len(table.Rows[row])].Text = text
		book, faults := Load(tables)
		errors := 0
		for _, fault := range faults {
			if fault.Message == "" || fault.Place.Sheet == "" && int(row) < len(DefaultTables()[int(sheet)%len(tables)].Rows) {
				t.Errorf("a fault without words or place: %+v", fault)
			}
			if !fault.Warning {
				errors++
			}
		}
		if (book == nil) != (errors > 0) {
			t.Errorf("the rulebook is there: %v, with %d errors", book != nil, errors)
		}
	})
}

func TestLoadOfOddTables(t *testing.T) {
	for name, tables := range map[string][]Table{
		"nothing":         nil,
		"no name":         {{}},
		"no rows":         {{Name: SettingsTable}},
		"an empty row":    {{Name: SettingsTable, Rows: []Row{{}}}},
		"headings alone":  {MakeTable(SettingsTable, [][]string{{"Setting", "Species", "Value", "Source"}})},
		"a short row":     {MakeTable(GridTable, [][]string{{"Species", "Part"}, {"beef"}})},
		"the same twice":  {DefaultTables()[0], DefaultTables()[0]},
		"a row of blanks": {{Name: LimitsTable, Rows: []Row{{{Text: "Species"}}, {}}}},
	} {
		book, faults := Load(tables)
		if book == nil && len(faults) == 0 {
			t.Errorf("%s: neither a rulebook nor a fault", name)
		}
	}
}
