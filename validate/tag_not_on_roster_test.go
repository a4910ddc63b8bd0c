package validate

import (
	"fmt"
	"testing"

	"railbook/rules"
)

func TestRoster(t *testing.T) {
	batch := drawLot(t, rules.Beef, trueRow(t), trueRow(t).but(t, "tag=0412; hot carcass weight=792; live weight=1271"))
	expect(t, "no roster", batch)
	batch.Entries = []Entry{{Tag: "101"}, {Tag: "0421"}, {Tag: "0512"}}
	expect(t, "two entries are as near: no hint", batch,
		"look tag not on the roster A6", "note entry without a carcass", "note entry without a carcass")

	numbered := drawLot(t, rules.Beef, trueRow(t), trueRow(t).but(t, "tag=; rail number=2; hot carcass weight=792; live weight=1271"))
	numbered.Carcasses[1].Carcass.Tag = "2" // known by its rail number alone
	numbered.Entries = []Entry{{Tag: "101"}}
	expect(t, "a rail number on no roster", numbered)
}

func TestOneApart(t *testing.T) {
	for pair, want := range map[[2]string]bool{
		{"0412", "0421"}: true, {"0412", "0413"}: true, {"0412", "0241"}: false, {"0412", "412"}: false, {"a", "a"}: false,
	} {
		if got := oneApart(pair[0], pair[1]); got != want {
			t.Errorf("%v: %v", pair, got)
		}
	}
}

// TestManyTagsNotOnTheRoster holds from when on they are one question: four that no entry is near to, on one sheet. One with an
// entry near to it keeps its hint.
func TestManyTagsNotOnTheRoster(t *testing.T) {
	for number, want := range map[int]string{3: "A6 1|A7 1|A8 1|", 4: "A6 4|"} {
		rows := []drawn{trueRow(t)}
		for i := range number {
			rows = append(rows, trueRow(t).but(t, fmt.Sprintf("tag=%d; hot carcass weight=%d; live weight=%d", 600+37*i, 782+2*i, 1253+3*i)))
		}
		rows = append(rows, trueRow(t).but(t, "tag=0412; hot carcass weight=792; live weight=1271"))
		batch := drawLot(t, rules.Beef, rows...)
		batch.Entries = []Entry{{Tag: "101"}, {Tag: "0421"}}
		got, hints := "", ""
		for _, finding := range Check(batch) {
			switch {
			case finding.Code == notOnRoster && finding.Hint != "":
				hints += finding.Tag + " " + finding.Hint
			case finding.Code == notOnRoster:
				got += fmt.Sprintf("%s %d|", finding.At.Cell, len(finding.Carcasses()))
			}
		}
		if got != want || hints != "0412 0421" {
			t.Errorf("%d tags: got %s and the hints %s, want %s", number, got, hints, want)
		}
	}
}
