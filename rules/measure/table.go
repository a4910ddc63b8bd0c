package measure

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"maps"
	"slices"
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

	// Column is the place of its computed column among those of the results, from 1; 0 for a measure without one.
	Column      int
	RailHeading string // of that column for carcasses on the rail; empty where they have none
	ScanHeading string // of that column for live animals that were scanned; empty where they have none
	WhereKnown  bool   // the column is written only where some carcass has the figure

	number uint16 // its place in the table, from 1
	own    bool   // a rulebook declares it
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
	definitions []*Definition // those of an earlier table that this one was made from are shared with it
	list        []Definition  // the same, to be gone through
	byName      map[string]ID
}

//go:embed measures.csv
var measuresCSV string

// Standard gives the table of the standard measures.
var Standard = sync.OnceValue(func() *Table {
	table := &Table{byName: make(map[string]ID)}
	if err := table.add(mustReadDefinitions(measuresCSV), false); err != nil {
		panic(fmt.Sprintf("measure: measures.csv: %v", err))
	}
	return table
})

// With gives a table with more measures after those of this one, in their order. A name that is there already, or more
// measures than a Set holds, is an error.
func (t *Table) With(own ...Definition) (*Table, error) {
	t = t.orStandard()
	table := &Table{definitions: slices.Clone(t.definitions), list: slices.Clone(t.list), byName: maps.Clone(t.byName)}
	if err := table.add(own, true); err != nil {
		return nil, err
	}
	return table, nil
}

func (t *Table) orStandard() *Table {
	if t == nil {
		return Standard()
	}
	return t
}

// add puts definitions at the end of a table that nobody has been given yet.
func (t *Table) add(definitions []Definition, own bool) error {
	for _, definition := range definitions {
		if _, twice := t.byName[definition.Name]; twice {
			return fmt.Errorf("the measure %q is there twice", definition.Name)
		}
		if len(t.definitions) == Most {
			return fmt.Errorf("there are more than %d measures", Most)
		}
		definition.number, definition.own = uint16(len(t.definitions)+1), own
		kept := &definition
		kept.ID = ID{kept}
		t.definitions, t.list = append(t.definitions, kept), append(t.list, *kept)
		t.byName[definition.Name] = kept.ID
	}
	return nil
}

// ByName gives the measure of a name as the rulebook writes it, letter for letter; None for a name that is no measure.
func (t *Table) ByName(name string) ID { return t.orStandard().byName[name] }

// Like gives this table's measure of the name that one of any table has; None where it has none of that name.
func (t *Table) Like(id ID) ID {
	if id.standard() {
		return id
	}
	return t.ByName(id.String())
}

// Definitions gives every measure's definition in the order of the table. The list is shared, so nobody changes it.
func (t *Table) Definitions() []Definition { return t.orStandard().list }

// Own gives the definitions of the measures that a rulebook declares, in the order of the table.
func (t *Table) Own() []Definition { return t.Definitions()[len(Standard().definitions):] }

// Define gives a measure's definition, whatever its table; ok is false for None.
func Define(id ID) (definition Definition, ok bool) {
	if id.of == nil {
		return Definition{}, false
	}
	return *id.of, true
}

// CompareNames orders measures by their names.
func CompareNames(a, b ID) int { return strings.Compare(a.String(), b.String()) }

// mustReadDefinitions reads the embedded table; a fault in it is a fault of the program and is found by every test.
func mustReadDefinitions(text string) []Definition {
	reader := csv.NewReader(strings.NewReader(text))
	reader.FieldsPerRecord = -1 // a measure without a computed column ends with its meaning
	rows, err := reader.ReadAll()
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
		if len(row) > 8 {
			if definition.Column, err = strconv.Atoi(row[8]); err != nil {
				panic(fmt.Sprintf("measure: measures.csv: column of %s: %v", row[0], err))
			}
			definition.RailHeading, definition.ScanHeading, definition.WhereKnown = row[9], row[10], row[11] == "where known"
		}
		list = append(list, definition)
	}
	return list
}
