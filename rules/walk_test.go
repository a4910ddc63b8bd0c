package rules

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"railbook/rules/address"
)

// walkedLines are lines of every sheet in each of its forms, under the defaults: the filled cells by their columns.
var walkedLines = map[string][]string{
	EligibilityTable: {
		"Species=beef|Measure=yield grade|Below=4|Failing=not placed", "Species=beef|Measure=quality grade|Lowest grade=Low Choice|Failing=lowest group",
		"Species=beef|Measure=dark cutter|Must not be=yes|Failing=not placed", "Species=beef|Measure=adjusted fat|At most=0.1|From class mean=yes|Failing=lowest group",
		"Species=lamb|Measure=ribeye area|At least=1.4|Changes per lb=0.02|Failing=after those that pass|Or=x",
		"Species=lamb|Measure=cutability|At least=49|Failing=after those that pass|Or=x", "Species=beef|Measure=sex|One of=steer; heifer|Failing=not placed",
		"Species=beef|Measure=birth date|At least=2025-01-15|Failing=not placed", "Species=beef|Measure=yield grade|Below=3|Failing=loses the award|Award=best",
	},
	GroupsTable: {
		"Species=beef|Group=blue|Order=1|Measure=yield grade|Below=3", "Species=beef|Group=blue|Order=1|Measure=dark cutter|Must not be=yes",
		"Species=beef|Group=blue|Order=1|Measure=quality grade|Lowest grade=Low Choice", "Species=beef|Group=red|Order=2",
	},
	AwardsTable: {"Award=best|Species=beef|Ranking=beef carcass|How many=1"},
	PointsTable: {
		"Index=index|Weight=100", "Index=index|Measure=yield grade|Weight=-10|Target=2.5", "Index=index|Measure=yield grade|Weight=2|From=1|Up to=3",
		"Index=index|Measure=quality grade|Weight=5|Grade=Choice",
	},
	PremiumsTable: {"Species=beef|Premium=branded|Measure=marbling score|At least=500|$/cwt=6", "Species=beef|Premium=branded|Measure=dark cutter|Must not be=yes"},
	MatrixTable:   {"Species=beef|Measure=yield grade|Up to=3|Second measure=ribeye area|Second up to=14|$/cwt=1"},
	MeasuresTable: {
		"Measure=record book|Unit=points|Read or computed=own|Accepted headings=record|Hold below=0|Hold above=100",
		"Measure=fat at 250 lb|Species=swine|Decimals=2|Read or computed=own|Adjusts=tenth-rib fat|To weight=250|Changes per lb=.003",
	},
}

// cellsOf gives the cells of such a line as the columns of its sheet stand, with a bar between each two.
func cellsOf(table Table, line string) string {
	filled := map[string]string{}
	for _, cell := range strings.Split(line, "|") {
		heading, text, _ := strings.Cut(cell, "=")
		filled[fold(heading)] = text
	}
	var texts []string
	for _, heading := range table.Rows[0] {
		texts = append(texts, filled[fold(heading.Text)])
	}
	return strings.Join(texts, "|")
}

// walkedRows are the rows of the default sheets that stand for the forms of a line that each has; of the others the first.
var walkedRows = map[string][]int{
	SettingsTable: nil, // every one
	GridTable:     {2, 6, 8, 13, 15, 20},
	LimitsTable:   {2, 8}, ClassesTable: {2, 3}, RankingTable: {2, 3, 7}, HeadingsTable: {2, 4}, TargetsTable: {2, 5},
}

// alternativesOf are what is put into a cell by what its column holds: something of it must make a difference.
func alternativesOf(column Column, text string) []string {
	all := map[Holds][]string{
		HoldsText: {"Choice", "dark cutter", "steer", "x"}, HoldsNumber: {"7", "2.75"}, HoldsYesNo: {"yes", "no"}, HoldsChoice: column.Choices,
		HoldsSpecies: {"lamb", "goat"}, HoldsMeasure: {"hot carcass weight", "dark cutter", "birth date"}, HoldsAny: {"7", "yes", "2025-08-15", "x"},
	}[column.Holds]
	return slices.DeleteFunc(append([]string{""}, all...), func(name string) bool { return fold(name) == fold(text) })
}

// Each cell of each form of line of every sheet, the blank ones too, is changed in every way its column offers: either the rulebook is
// another, or a fault or a warning says what is wrong with it. No cell is taken and then ignored. The Source column and a usual range
// are for whoever reads the sheet.
func TestNoCellOfARulebookIsIgnored(t *testing.T) {
	tables := edited()
	for _, table := range tables {
		for _, line := range walkedLines[table.Name] {
			add(table.Name, cellsOf(table, line))(tables)
		}
	}
	was, wasFaults := loadedAs(tables)
	if was == "" {
		t.Fatalf("the lines that are walked have a fault: %v", wasFaults)
	}
	cells := 0
	for at := range tables {
		table := &tables[at]
		layout, _ := LayoutOf(table.Name)
		for number := range table.Rows[1:] {
			row := table.Rows[number+1]
			if rows, some := walkedRows[table.Name]; some && rows != nil && !slices.Contains(rows, number+2) {
				continue
			}
			for column := range layout.Columns {
				heading := fold(table.Rows[0][column].Text)
				if slices.Contains([]string{"source", "usual"}, heading) {
					continue
				}
				for len(row) <= column {
					row = append(row, Cell{Place: Place{Sheet: table.Name, Cell: address.Cell(len(row)+1, number+2)}})
				}
				table.Rows[number+1] = row
				cells++
				if !matters(tables, table.Rows[number+1], column, columnHeaded(layout, heading), was, wasFaults) {
					t.Errorf("%s: whatever stands under %q on the line %q, nothing comes of it and nothing is said", row[column].Place, heading, textsOf(row))
				}
			}
		}
	}
	if cells < 300 {
		t.Errorf("only %d cells were walked", cells)
	}
}

// matters reports whether something put into a cell makes another rulebook of it, or a fault.
func matters(tables []Table, row Row, at int, column Column, was, wasFaults string) bool {
	text := row[at].Text
	defer func() { row[at].Text = text }()
	return slices.ContainsFunc(alternativesOf(column, text), func(other string) bool {
		row[at].Text = other
		is, faults := loadedAs(tables)
		return is != was || faults != wasFaults
	})
}

func columnHeaded(layout TableLayout, heading string) Column {
	at := slices.IndexFunc(layout.Columns, func(column Column) bool { return fold(column.Heading) == heading })
	return layout.Columns[at]
}

// loadedAs writes down a rulebook's rules, without the tables they came from, and its faults; empty for one that can't be used.
func loadedAs(tables []Table) (text, faults string) {
	book, found := Load(tables)
	faults = fmt.Sprint(found)
	if book == nil {
		return "", faults
	}
	var own []string
	for _, definition := range book.Measures.Own() {
		own = append(own, fmt.Sprint(definition))
	}
	rules := *book
	rules.Tables, rules.SHA256, rules.Measures = nil, "", nil
	return fmt.Sprint(rules, own), faults
}

func textsOf(row Row) string {
	var texts []string
	for _, cell := range row {
		texts = append(texts, cell.Text)
	}
	return strings.Join(texts, "|")
}
