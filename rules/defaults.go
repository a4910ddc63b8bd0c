package rules

import (
	"embed"
	"encoding/csv"
	"fmt"
	"slices"
	"strings"
	"sync"

	"railbook/rules/address"
)

//go:embed tables/*.csv
var defaultFiles embed.FS

// DefaultTables gives the tables the default rulebook is made of, in the order of its sheets.
func DefaultTables() []Table {
	shipped := shippedTables()
	tables := make([]Table, len(shipped))
	for i, table := range shipped {
		tables[i] = table.clone()
	}
	return tables
}

func (t Table) clone() Table {
	own := Table{Name: t.Name, Rows: make([]Row, len(t.Rows))}
	for number, row := range t.Rows {
		own.Rows[number] = slices.Clone(row)
	}
	return own
}

// shippedTables are the tables as the program carries them. They are shared, so nobody changes them.
var shippedTables = sync.OnceValue(func() []Table {
	var tables []Table
	for _, layout := range Layouts() {
		name := "tables/" + strings.ReplaceAll(strings.ToLower(layout.Name), " ", "_") + ".csv"
		text, err := defaultFiles.ReadFile(name)
		if err != nil {
			panic(fmt.Sprintf("rules: %v", err))
		}
		records, err := csv.NewReader(strings.NewReader(string(text))).ReadAll()
		if err != nil {
			panic(fmt.Sprintf("rules: %s: %v", name, err))
		}
		tables = append(tables, MakeTable(layout.Name, records))
	}
	return tables
})

// MakeTable makes a table of plain records, the heading row first. Its places are those the cells would have on a sheet
// of that name, begun at A1.
func MakeTable(name string, records [][]string) Table {
	table := Table{Name: name}
	for number, record := range records {
		row := make(Row, len(record))
		for column, text := range record {
			row[column] = Cell{Text: text, Place: Place{Sheet: name, Cell: address.Cell(column+1, number+1)}}
		}
		table.Rows = append(table.Rows, row)
	}
	return table
}
