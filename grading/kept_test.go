package grading

import (
	"testing"

	"railbook/rules"
	"railbook/rules/address"
	"railbook/rules/measure"

	"pgregory.net/rapid"
)

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
