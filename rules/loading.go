package rules

import (
	"fmt"
	"slices"
	"strings"

	"railbook/rules/phrase"
)

// loading is a rulebook on its way from tables to typed rules, with the faults found so far.
type loading struct {
	book   *Rulebook
	faults []Fault

	ownHeadings []Heading // of the columns that the board declares
	gone        []line    // every line that was gone through
}

func (l *loading) fault(place Place, format string, values ...any) {
	l.faults = append(l.faults, Fault{Place: place, Message: fmt.Sprintf(format, values...)})
}

func (l *loading) warn(place Place, format string, values ...any) {
	l.faults = append(l.faults, Fault{Place: place, Message: fmt.Sprintf(format, values...), Warning: true})
}

func (l *loading) faulty() bool {
	for _, fault := range l.faults {
		if !fault.Warning {
			return true
		}
	}
	return false
}

// complete puts the tables in the order of the layouts. A table that is not there is taken from the defaults.
func (l *loading) complete(tables []Table) []Table {
	given := make(map[string]Table)
	for _, table := range tables {
		layout, known := layoutFolded(table.Name)
		if !known {
			l.warn(Place{Sheet: table.Name}, "The sheet %q is none of a rulebook's sheets and was passed over.", table.Name)
			continue
		}
		if _, twice := given[layout.Name]; twice {
			l.fault(tablePlace(table), "The sheet %s is there twice. Keep one of the two.", layout.Name)
			continue
		}
		table.Name = layout.Name
		if table.Name == MeasuresTable {
			l.listedMeasures(table.Rows)
			table.Rows = ownMeasures(table.Rows)
		}
		given[layout.Name] = table
	}
	var all []Table
	for _, table := range shippedTables() {
		if own, found := given[table.Name]; found {
			all = append(all, own)
			continue
		}
		table = table.clone()
		if slices.Contains(addedTables, table.Name) {
			all = append(all, table)
			continue
		}
		l.warn(Place{Sheet: table.Name}, "There is no sheet %q, so the one that ships with the program is used.", table.Name)
		all = append(all, table)
	}
	return all
}

func layoutFolded(name string) (TableLayout, bool) {
	for _, layout := range Layouts() {
		if fold(layout.Name) == fold(name) {
			return layout, true
		}
	}
	return TableLayout{}, false
}

// tablePlace is a table as a whole: its first cell's sheet and file.
func tablePlace(table Table) Place {
	if len(table.Rows) > 0 && len(table.Rows[0]) > 0 {
		place := table.Rows[0][0].Place
		return Place{File: place.File, Sheet: place.Sheet}
	}
	return Place{Sheet: table.Name}
}

// lines finds the columns of a table by its heading row and gives its lines that are not blank.
func (l *loading) lines(name string) []line {
	table := l.table(name)
	layout, _ := LayoutOf(name)
	if len(table.Rows) == 0 || blank(table.Rows[0]) {
		l.fault(tablePlace(table), "The sheet %s has no heading row. Its columns are %s.", name, phrase.JoinAnd(headingsOf(layout)))
		return nil
	}
	columns := l.columns(layout, table)
	lines := make([]line, 0, len(table.Rows)-1)
	for _, row := range table.Rows[1:] {
		if blank(row) {
			continue
		}
		lines = append(lines, line{loading: l, first: row[0].Place, columns: columns, row: row, asked: make([]bool, len(row))})
	}
	l.gone = append(l.gone, lines...)
	return lines
}

// columns gives the column of each heading of the layout.
func (l *loading) columns(layout TableLayout, table Table) map[string]int {
	columns := make(map[string]int)
	known := headingsOf(layout)
	for column, cell := range table.Rows[0] {
		text := strings.TrimSpace(cell.Text)
		if text == "" {
			continue
		}
		heading, found := among(text, known)
		if !found {
			l.warn(cell.Place, "The sheet %s has no column %q, so it was passed over. Its columns are %s.", layout.Name, text, phrase.JoinAnd(known))
			continue
		}
		if _, twice := columns[heading]; twice {
			l.fault(cell.Place, "The column %q is there twice. Keep one of the two.", heading)
			continue
		}
		columns[heading] = column
	}
	for _, heading := range known {
		if _, found := columns[heading]; !found && heading == "Source" {
			l.warn(table.Rows[0][0].Place, "The sheet %s has no column %q, so nobody can see where its lines come from.", layout.Name, heading)
		} else if !found && !mayLack(layout.Name, heading) {
			l.fault(table.Rows[0][0].Place, "The sheet %s lacks the column %q. Put the heading back.", layout.Name, heading)
		}
	}
	return columns
}

// addedColumns are the columns that rulebooks of earlier years do not have. A sheet without one is as if it were blank.
var addedColumns = map[string][]string{
	EligibilityTable: {"From class mean", "Or", "One of"},
	GroupsTable:      {"Above", "Below", "Changes per lb", "Must not be", "Or", "One of"},
	GridTable:        {"% of base"},
	PointsTable:      {"Side", "From", "Up to", "Grade"},
}

// addedTables are the sheets that rulebooks of earlier years do not have. One that is not there is as if it had no lines.
var addedTables = []string{PremiumsTable, MatrixTable, MeasuresTable}

func mayLack(sheet, heading string) bool {
	return slices.Contains(addedColumns[sheet], heading)
}

func (l *loading) table(name string) Table {
	for _, table := range l.book.Tables {
		if table.Name == name {
			return table
		}
	}
	return Table{Name: name}
}

func headingsOf(layout TableLayout) []string {
	var headings []string
	for _, column := range layout.Columns {
		headings = append(headings, column.Heading)
	}
	return headings
}

func blank(row Row) bool {
	for _, cell := range row {
		if strings.TrimSpace(cell.Text) != "" {
			return false
		}
	}
	return true
}
