package validate

import (
	"testing"

	"railbook/rules"
)

func TestRoster(t *testing.T) {
	lot := drawLot(t, rules.Beef, trueRow(t), trueRow(t).but(t, "tag=0412; hot carcass weight=792; live weight=1271"))
	expect(t, "no roster", lot)
	lot.Entries = []Entry{{Tag: "101"}, {Tag: "0421"}, {Tag: "0512"}}
	expect(t, "two entries are as near: no hint", lot,
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
