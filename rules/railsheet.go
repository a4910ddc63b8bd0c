package rules

import (
	"encoding/csv"
	"fmt"
	"strings"
	"sync"

	"railbook/rules/measure"

	_ "embed"
)

// RailColumn is what a blank rail sheet asks of a carcass, and how the column is explained to whoever fills it in:
// one line of tables/rail_sheet.csv.
type RailColumn struct {
	Species Species // empty: every species
	Basis   Basis   // empty: either
	Measure measure.ID
	Asked   Asked
	Choices []string // the words of its drop-down
	From    int64    // for a scale of hundreds: its least and greatest score; both 0 for none
	UpTo    int64
	What    string // what to measure or mark
	How     string // where, and with what
	Example string
}

// Asked says how often a rail sheet asks for a measure.
type Asked string

// The ways of asking.
const (
	AskedEach   Asked = "each" // in a column
	AskedAsDots Asked = "dots" // in a column, with one before it in which the dots of a grid may be counted
	AskedOnce   Asked = "once" // once for the sheet, above its headings
	AskedNever  Asked = ""     // the line only explains a column that is there anyhow
)

//go:embed tables/rail_sheet.csv
var railSheetCSV string

var railColumns = sync.OnceValue(func() []RailColumn {
	rows, err := csv.NewReader(strings.NewReader(railSheetCSV)).ReadAll()
	if err != nil {
		panic(fmt.Sprintf("rules: tables/rail_sheet.csv: %v", err))
	}
	var columns []RailColumn
	for _, row := range rows[1:] {
		column := RailColumn{
			Species: Species(row[0]), Basis: Basis(row[1]), Measure: measure.Standard().ByName(row[2]), Asked: Asked(row[3]),
			What: row[5], How: row[6], Example: row[7],
		}
		if _, err := fmt.Sscanf(row[4], "%d to %d", &column.From, &column.UpTo); err != nil {
			column.Choices = splitList(row[4])
		}
		columns = append(columns, column)
	}
	return columns
})

// RailColumns gives what a rail sheet asks for a species and basis, in the order in which it is measured: the species'
// own lines, then those of every species.
func RailColumns(species Species, basis Basis) []RailColumn {
	var asked []RailColumn
	for _, column := range railColumns() {
		if column.Asked != AskedNever && column.isFor(species, basis) {
			asked = append(asked, column)
		}
	}
	return asked
}

// RailColumnOf gives the line that explains a measure: the species' own before that of every species.
func RailColumnOf(species Species, basis Basis, id measure.ID) (found RailColumn, ok bool) {
	for _, column := range railColumns() {
		if column.Measure == id && column.isFor(species, basis) && (!ok || found.Species == "") {
			found, ok = column, true
		}
	}
	return found, ok
}

func (c RailColumn) isFor(species Species, basis Basis) bool {
	return (c.Species == "" || c.Species == species) && (c.Basis == "" || c.Basis == basis)
}
