package measure

import (
	"testing"

	"railbook/rules"
	"railbook/rules/address"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// A number that is kept is the very number that it was made of, with as many decimals, whether or not it is one of those that are kept
// once.
func TestKeptNumbersAreTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		coefficient := rapid.OneOf(rapid.Int64Range(-3, 3), rapid.Int64Range(fewNumbers-2, fewNumbers+2), rapid.Int64()).Draw(t, "coefficient")
		number := decimal.New(coefficient, rapid.Int32Range(-fewPlaces-1, 2).Draw(t, "exponent"))
		for range 2 {
			if kept := Compact(number); !kept.Equal(number) || kept.Exponent() != number.Exponent() {
				t.Fatalf("%v with exponent %d was kept as %v with %d", number, number.Exponent(), kept, kept.Exponent())
			}
		}
	})
	for _, row := range []struct {
		coefficient int64
		exponent    int32
		once        bool
	}{
		{0, 0, true},
		{-1, 0, false},
		{fewNumbers - 1, 0, true},
		{fewNumbers, 0, false},
		{287, 1 - fewPlaces, true},
		{287, -fewPlaces, false},
		{287, 1, false},
	} {
		number := decimal.New(row.coefficient, row.exponent)
		if once := testing.AllocsPerRun(10, func() { Compact(number) }) == 0; once != row.once {
			t.Errorf("%d with exponent %d is kept once: %v", row.coefficient, row.exponent, once)
		}
	}
}

// A reading that many cells have in common is, in each of them, what it would be if it were put in by itself.
func TestSharedReadingsAreTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		reading := Reading{
			Value: measure.Value{Text: rapid.String().Draw(t, "text")}, Written: rapid.String().Draw(t, "written"),
			Plain: rapid.Bool().Draw(t, "plain"), Factor: rapid.SampledFrom([]string{"", "100"}).Draw(t, "factor"),
			Unreadable: rapid.Bool().Draw(t, "unreadable"),
		}
		shared := Share(reading)
		file, sheet := rapid.SampledFrom([]string{"", "roster.xlsx"}).Draw(t, "file"), rapid.String().Draw(t, "sheet")
		for range 2 {
			column, row := rapid.IntRange(1, address.LastColumn).Draw(t, "column"), rapid.IntRange(1, address.LastRow).Draw(t, "row")
			reading.Place = rules.Place{File: file, Sheet: sheet, Cell: address.Cell(column, row)}
			carcass := &Carcass{}
			if carcass.HasWritten(measure.Marbling) || carcass.WordsOf(measure.Marbling) != "" {
				t.Fatal("an empty carcass has marbling")
			}
			carcass.SetShared(measure.Marbling, shared, ReadingsOf(file, sheet), column, row)
			if got := carcass.ReadingOf(measure.Marbling); got != reading || !carcass.HasWritten(measure.Marbling) || carcass.WordsOf(measure.Marbling) != reading.Written {
				t.Fatalf("kept is %+v; want %+v", got, reading)
			}
		}
	})
}
