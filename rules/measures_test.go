package rules

import (
	"slices"
	"testing"

	"railbook/rules/measure"
)

// Lines that only list what the program knows are no part of the rulebook: its digest is that of a rulebook without them.
func TestLinesThatListMeasuresAreNoRules(t *testing.T) {
	tables := DefaultTables()
	for at := range tables {
		if tables[at].Name == MeasuresTable {
			heading := tables[at].Rows[0]
			row := make(Row, len(heading))
			row[0].Text, row[slices.IndexFunc(heading, func(c Cell) bool { return c.Text == RoleColumn })].Text = "ribeye area", "Read"
			tables[at].Rows = append(tables[at].Rows, row)
		}
	}
	book, faults := Load(tables)
	if book == nil || len(faults) > 0 || book.SHA256 != Default().SHA256 {
		t.Fatalf("%v", faults)
	}
}

// A measure of the board's own is named on any other sheet by its name or its headings, is read from a column and limited.
func TestOwnMeasureIsOneEverywhere(t *testing.T) {
	book, faults := Load(edited(
		add("Measures", "record book|lamb|points|1|own|As the committee scored it.|book score|0|||100||||the board"),
		add("Targets", "lamb|book score|80||a full book|the board"),
		add("Points", "merit|Record Book|1||the board"),
	))
	if book == nil {
		t.Fatal(faults)
	}
	id := book.Measures.ByName("record book")
	definition, _ := measure.Define(id)
	if definition.Unit != "points" || definition.Decimals != 1 || definition.Heading != "Record book" || definition.Computed || definition.For("beef") {
		t.Errorf("declared as %+v", definition)
	}
	if book.Targets[len(book.Targets)-1].Measure != id || book.Points[0].Measure != id {
		t.Error("another sheet does not know it")
	}
	for _, text := range []string{"record book", "book score"} {
		if !slices.ContainsFunc(book.Headings, func(h Heading) bool { return h.Text == text && h.Measure == id && h.Species == Lamb }) {
			t.Errorf("no sheet's heading %q stands for it", text)
		}
	}
	if !slices.ContainsFunc(book.Limits, func(l Limit) bool { return l.Measure == id && l.Species == Lamb && l.HoldAbove.Valid }) {
		t.Error("it is not limited")
	}
}
