package validate

import (
	"slices"
	"testing"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// expect checks one lot of beef carcasses and compares what is said with what is wanted, each as "level code cell hint".
func expect(t *testing.T, name string, batch *Batch, want ...string) {
	t.Helper()
	if got := said(Check(batch)); !slices.Equal(got, want) {
		t.Errorf("%s:\n got %q\nwant %q", name, got, want)
	}
}

func TestMissingValues(t *testing.T) {
	other := trueRow(t).but(t, "tag=102; live weight=1271; hot carcass weight=792")
	expect(t, "two blanks", drawLot(t, rules.Beef, trueRow(t).but(t, "measured fat=; marbling="), other),
		"hold value missing E5", "hold value missing H5")
	expect(t, "a row with a tag and nothing else", drawLot(t, rules.Beef, drawn{measure.Tag: "101", measure.ClassName: "Steers"}, other), "hold nothing measured A5")
	expect(t, "adjusted fat stands in for measured fat",
		drawLot(t, rules.Beef, trueRow(t).but(t, "measured fat=; adjusted fat=0.4"), other.but(t, "adjusted fat=0.45")))
	expect(t, "sides stand in for the whole",
		drawLot(t, rules.Beef, trueRow(t).but(t, "hot carcass weight=; left side weight=391; right side weight=389"), other))
	expect(t, "a condemned carcass is asked nothing",
		drawLot(t, rules.Beef, trueRow(t).but(t, "condemned=yes; measured fat=; marbling="), other), "hold carcass condemned Y5")
}

// Without a customary value in the rulebook a blank internal fat is a missing value: it is never read as zero.
func TestNoCustomaryInternalFat(t *testing.T) {
	batch := drawLot(t, rules.Beef, trueRow(t).but(t, "kidney, pelvic and heart fat="), trueRow(t).but(t, "tag=102; hot carcass weight=792; live weight=1271"))
	book := *batch.Book
	book.Settings.CustomaryKPH = decimal.NullDecimal{}
	batch.Book = &book
	for i, graded := range batch.Carcasses {
		again := grading.Grade(graded.Carcass, &book)
		batch.Carcasses[i], batch.Sheets[0].Carcasses[i] = again, again
	}
	expect(t, "no customary value", batch, "hold value missing G5")
}
