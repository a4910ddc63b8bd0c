package rules

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"railbook/rules/measure"
)

// A rulebook older than a limit gets it from the defaults; what the board wrote stands, a line without bounds too.
func TestLimitsThatTheBoardDoesNotWriteAreTheShippedOnes(t *testing.T) {
	limitOf := func(row string) (found []Limit) {
		tables := DefaultTables()
		for i := range tables {
			if tables[i].Name == LimitsTable {
				tables[i] = MakeTable(LimitsTable, [][]string{
					strings.Split("Species,Measure,Usual,Hold below,Look below,Look above,Hold above,Hold at that too,Source", ","),
					strings.Split(row, ","),
				})
			}
		}
		book, faults := Load(tables)
		if book == nil {
			t.Fatal(faults)
		}
		for _, limit := range book.Limits {
			if limit.Species == Beef && limit.Measure == measure.IntramuscularFat {
				found = append(found, limit)
			}
		}
		return found
	}
	for _, test := range []struct{ name, row, holdAbove string }{
		{"no line", "beef,live weight,,300,800,1700,3000,no,ours", "20"},
		{"a line of the board's", "beef,intramuscular fat,,0,1,12,15,no,ours", "15"},
		{"a line without bounds", "beef,intramuscular fat,,,,,,no,ours", ""},
	} {
		found := limitOf(test.row)
		if len(found) != 1 {
			t.Fatalf("%s: %d limits of intramuscular fat", test.name, len(found))
		}
		if test.holdAbove == "" {
			if found[0].HoldAbove.Valid {
				t.Errorf("%s: held above %s", test.name, found[0].HoldAbove.Decimal)
			}
			continue
		}
		if want := decimal.RequireFromString(test.holdAbove); !found[0].HoldAbove.Decimal.Equal(want) {
			t.Errorf("%s: held above %s, want %s", test.name, found[0].HoldAbove.Decimal, want)
		}
	}
}
