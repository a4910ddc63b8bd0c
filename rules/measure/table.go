package measure

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"
	"sync"
)

// Definition is all the program knows of a measure apart from how it is computed.
type Definition struct {
	ID       ID
	Name     string   // as the rulebook writes it: "hot carcass weight"
	Species  []string // the species that have it; empty for all
	Kind     Kind
	Unit     string // "lb", "in", "sq in", "%", "$/cwt", …; empty for none
	Decimals int    // how many decimals are printed; comparisons use the 6-decimal figure
	Computed bool   // computed by package grading; false for what is read from a sheet
	Heading  string // our own heading for it
	Meaning  string // a sentence for a family
}

// For reports whether a species has this measure.
func (d Definition) For(species string) bool {
	for _, name := range d.Species {
		if name == species {
			return true
		}
	}
	return len(d.Species) == 0
}

// Table is the measures that a rulebook knows: the standard ones and those of its own. It is read-only once
// made. A nil Table is the standard one.
type Table struct {
	definitions []Definition // the definition of ID 1 first
	byName      map[string]ID
}

//go:embed measures.csv
var measuresCSV string

// Standard gives the table of the standard measures.
var Standard = sync.OnceValue(func() *Table {
	table, err := numbered(mustReadDefinitions(measuresCSV))
	if err != nil {
		panic(fmt.Sprintf("measure: measures.csv: %v", err))
	}
	return table
})

// With gives a table with more measures after those of this one, numbered in their order. A name that is there already,
// or more measures than a Set holds, is an error.
func (t *Table) With(own ...Definition) (*Table, error) {
	if t == nil {
		t = Standard()
	}
	return numbered(append(t.definitions[:len(t.definitions):len(t.definitions)], own...))
}

// numbered makes a table of definitions, numbered from 1 in their order.
func numbered(definitions []Definition) (*Table, error) {
	table := &Table{byName: make(map[string]ID, len(definitions))}
	for _, definition := range definitions {
		if _, twice := table.byName[definition.Name]; twice {
			return nil, fmt.Errorf("the measure %q is there twice", definition.Name)
		}
		definition.ID = ID(len(table.definitions) + 1)
		if int(definition.ID) > Most {
			return nil, fmt.Errorf("there are more than %d measures", Most)
		}
		table.definitions = append(table.definitions, definition)
		table.byName[definition.Name] = definition.ID
	}
	return table, nil
}

// ByName gives the measure of a name as the rulebook writes it, letter for letter; None for a name that is no measure.
func (t *Table) ByName(name string) ID {
	if t == nil {
		t = Standard()
	}
	return t.byName[name]
}

// Name gives a measure's name; empty for None and for a number of no measure.
func (t *Table) Name(id ID) string {
	definition, _ := t.Define(id)
	return definition.Name
}

// Define gives a measure's definition; ok is false for None and for a number of no measure.
func (t *Table) Define(id ID) (definition Definition, ok bool) {
	if t == nil {
		t = Standard()
	}
	if id == None || int(id) > len(t.definitions) {
		return Definition{}, false
	}
	return t.definitions[id-1], true
}

// Definitions gives every measure's definition in the order of the table. The slice is the caller's own.
func (t *Table) Definitions() []Definition { return append([]Definition(nil), t.definitions...) }

// Define gives a standard measure's definition; ok is false for what is none.
func Define(id ID) (definition Definition, ok bool) { return Standard().Define(id) }

// Definitions gives the definitions of the standard measures in the order of the table.
func Definitions() []Definition { return Standard().Definitions() }

// CompareNames orders standard measures by their names.
func CompareNames(a, b ID) int { return strings.Compare(a.String(), b.String()) }

// mustReadDefinitions reads the embedded table; a fault in it is a fault of the program and is found by every test.
func mustReadDefinitions(text string) []Definition {
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		panic(fmt.Sprintf("measure: measures.csv: %v", err))
	}
	var list []Definition
	for _, row := range rows[1:] {
		definition := Definition{
			Name: row[0], Kind: Kind(row[2]), Unit: row[3],
			Computed: row[5] == "computed", Heading: row[6], Meaning: row[7],
		}
		if row[1] != "all" {
			definition.Species = strings.Split(row[1], "|")
		}
		if row[4] != "" {
			if definition.Decimals, err = strconv.Atoi(row[4]); err != nil {
				panic(fmt.Sprintf("measure: measures.csv: decimals of %s: %v", row[0], err))
			}
		}
		list = append(list, definition)
	}
	return list
}
