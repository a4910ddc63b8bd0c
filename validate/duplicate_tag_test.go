package validate

import (
	"testing"

	"railbook/rules"
)

// Tags are text: 012 is another animal than 12. A lamb may have a steer's number.
func TestTagsThatAreNotTheSame(t *testing.T) {
	batch := drawLot(t, rules.Beef, trueRow(t).but(t, "tag=012"), trueRow(t).but(t, "tag=12; hot carcass weight=792; live weight=1271"))
	expect(t, "leading zero", batch)
	lambs := drawLot(t, rules.Lamb, firstOf(t, rules.Lamb).but(t, "tag=012"))
	batch.Carcasses = append(batch.Carcasses, lambs.Carcasses...)
	expect(t, "another species", batch)
}

// Two carcasses of one tag are one question, which holds both; a third is one more.
func TestOneTagTwiceOrMoreOften(t *testing.T) {
	row, other, third := trueRow(t), trueRow(t).but(t, "hot carcass weight=792; live weight=1271"), trueRow(t).but(t, "hot carcass weight=771; live weight=1240")
	pair := drawLot(t, rules.Beef, row, other)
	expect(t, "two", pair, "hold duplicate tag A6")
	if lot := Check(pair)[0].Others; len(lot) != 1 || lot[0] != pair.Carcasses[0].Carcass {
		t.Errorf("the question about A6 is about %v as well, want the carcass of A5", lot)
	}
	expect(t, "three", drawLot(t, rules.Beef, row, other, third), "hold duplicate tag A6", "hold duplicate tag A7")
}

// The one entry of the roster that has no carcass and differs in one place is the likely tag; of two such entries neither is.
func TestTagTwiceWhereAnEntryIsFree(t *testing.T) {
	batch := drawLot(t, rules.Beef, trueRow(t), trueRow(t).but(t, "hot carcass weight=792; live weight=1271"))
	batch.Entries = []Entry{{Tag: "101"}, {Tag: "107"}}
	expect(t, "one free entry", batch, "hold duplicate tag A6 107", "note entry without a carcass")
	batch.Entries = append(batch.Entries, Entry{Tag: "103"})
	expect(t, "two of them", batch, "hold duplicate tag A6", "note entry without a carcass", "note entry without a carcass")
}
