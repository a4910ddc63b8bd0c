package validate

import (
	"testing"

	"railbook/rules"
)

// Tags are text: 012 is another animal than 12. A lamb may have a steer's number.
func TestTagsThatAreNotTheSame(t *testing.T) {
	lot := drawLot(t, rules.Beef, trueRow(t).but(t, "tag=012"), trueRow(t).but(t, "tag=12; hot carcass weight=792; live weight=1271"))
	expect(t, "leading zero", lot)
	lambs := drawLot(t, rules.Lamb, firstOf(t, rules.Lamb).but(t, "tag=012"))
	lot.Carcasses = append(lot.Carcasses, lambs.Carcasses...)
	expect(t, "another species", lot)
}

func TestThreeOfOneTag(t *testing.T) {
	row := trueRow(t)
	lot := drawLot(t, rules.Beef, row, row.but(t, "hot carcass weight=792; live weight=1271"), row.but(t, "hot carcass weight=771; live weight=1240"))
	expect(t, "three", lot, "hold duplicate tag A5", "hold duplicate tag A6", "hold duplicate tag A7")
}
