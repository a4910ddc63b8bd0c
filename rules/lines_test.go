package rules

import (
	"strings"
	"testing"
)

// faultIn loads the default tables with lines added to a sheet, and gives which of some words a fault has.
func faultIn(sheet string, lines []string, words ...string) string {
	var edits []sheetEdit
	for _, line := range lines {
		edits = append(edits, add(sheet, line))
	}
	_, faults := Load(edited(edits...))
	for _, fault := range faults {
		for _, some := range words {
			if strings.Contains(fault.Message, some) {
				return some
			}
		}
	}
	return ""
}

// A name stands once for one kind of carcass: an award's for a species, a class's for a species and a basis. The line for every other
// class goes by no other name.
func TestANameStandsOnceForOneKindOfCarcass(t *testing.T) {
	const twice, otherNames = "is there twice", "so it has no other names"
	for _, test := range []struct {
		sheet string
		lines []string
		fault string
	}{
		{AwardsTable, []string{"Champion||beef|beef carcass|1|the board", "champion||beef|beef carcass|1|the board"}, twice},
		{AwardsTable, []string{"Champion||beef|beef carcass|1|the board", "Champion||swine|swine carcass|1|the board"}, ""},
		{ClassesTable, []string{"Steers|beef|carcass||beef carcass||the board", "Steers|beef|carcass||beef carcass||the board"}, twice},
		{ClassesTable, []string{"Steers|beef|carcass||beef carcass||the board", "Steers|beef|ultrasound||beef ultrasound||the board"}, ""},
		{ClassesTable, []string{"Steers|beef|carcass|Herefords|beef carcass||the board", "Herefords|beef|carcass||beef carcass||the board"}, twice},
		{ClassesTable, []string{"every other class||carcass|the rest|beef carcass||the board"}, otherNames},
	} {
		if found := faultIn(test.sheet, test.lines, twice, otherNames); found != test.fault {
			t.Errorf("%q: %q, want %q", test.lines, found, test.fault)
		}
	}
}

// Bounds that meet leave a figure only where both are in; each of the four bounds alone is a test; and a line is there twice only where
// all its bounds are the same.
func TestBoundsOfALineOfEligibility(t *testing.T) {
	const crossed, nothing, twice, grade = "No figure passes this line", "This line tests nothing", "is there twice", "is a grade, which no number bounds"
	line := func(bounds string) string { return "|beef|adjusted fat|" + bounds + "||||not placed||the board" }
	for _, test := range []struct {
		lines []string
		fault string
	}{
		{[]string{line("0.5|0.5||")}, ""},
		{[]string{line("0.51|0.5||")}, crossed},
		{[]string{line("0.5|||0.5")}, crossed},
		{[]string{line("|0.5|0.5|")}, crossed},
		{[]string{line("||0.5|0.5")}, crossed},
		{[]string{line("||0.5|0.6")}, ""},
		{[]string{line("0.5|||")}, ""},
		{[]string{line("|0.5||")}, ""},
		{[]string{line("||0.5|")}, ""},
		{[]string{line("|||0.5")}, ""},
		{[]string{line("|||")}, nothing},
		{[]string{"|beef|quality grade||||10||||not placed||the board"}, grade},
		{[]string{line("|||0.5"), line("|||0.5")}, twice},
		{[]string{line("|||0.5"), line("|||0.6")}, ""},
		{[]string{line("||0.5|"), line("||0.6|")}, ""},
		{[]string{line("0.5|||"), line("0.6|||")}, ""},
		{[]string{line("|0.5||"), line("|0.6||")}, ""},
	} {
		if found := faultIn(EligibilityTable, test.lines, crossed, nothing, twice, grade); found != test.fault {
			t.Errorf("%q: %q, want %q", test.lines, found, test.fault)
		}
	}
}

// A band that ends where it begins holds the one figure where both ends count, and nothing otherwise; a mark is priced once for a
// species.
func TestBandsAndMarksOfThePriceTables(t *testing.T) {
	const empty, twice = "so nothing is in it", "is priced twice"
	for _, test := range []struct {
		sheet string
		lines []string
		fault string
	}{
		{GridTable, []string{"beef|weight||400|yes|400|yes|-1|the board"}, ""},
		{GridTable, []string{"beef|weight||400|yes|400|no|-1|the board"}, empty},
		{GridTable, []string{"beef|weight||400|no|400|yes|-1|the board"}, empty},
		{GridTable, []string{"beef|weight||401|yes|400|yes|-1|the board"}, empty},
		{GridTable, []string{"beef|condition|blood splash|||||-1|the board", "beef|condition|blood splash|||||-2|the board"}, twice},
		{GridTable, []string{"beef|condition|blood splash|||||-1|the board", "swine|condition|blood splash|||||-2|the board"}, ""},
		{MatrixTable, []string{"beef|measured fat|.2|.2|ribeye area|10|12|2||the board"}, empty},
		{MatrixTable, []string{"beef|measured fat|.2|.21|ribeye area|10|12|2||the board"}, ""},
		{MatrixTable, []string{"beef|measured fat|.2|.4|ribeye area|12|12|2||the board"}, empty},
	} {
		if found := faultIn(test.sheet, test.lines, empty, twice); found != test.fault {
			t.Errorf("%q: %q, want %q", test.lines, found, test.fault)
		}
	}
}
