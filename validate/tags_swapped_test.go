package validate

import (
	"testing"

	"railbook/rules"
)

func TestTagsSwapped(t *testing.T) {
	light := trueRow(t).but(t, "tag=101; live weight=1400; hot carcass weight=780")
	heavy := trueRow(t).but(t, "tag=102; live weight=1250; hot carcass weight=874; ribeye area=14.2; measured fat=0.5")
	rows := append([]drawn{light, heavy}, companions(t, "40")...)
	expect(t, "neighbours", drawLot(t, rules.Beef, rows...), "look tags swapped A5 102")

	apart := append([]drawn{light}, companions(t, "40")...)
	expect(t, "far apart, and as plain", drawLot(t, rules.Beef, append(apart, heavy)...), "look tags swapped A5 102")
}

// Two rows that are off the same way were not swapped: each has a slip of its own.
func TestRowsOffTheSameWayAreNoSwap(t *testing.T) {
	rows := append([]drawn{
		trueRow(t).but(t, "tag=101; live weight=1400"), trueRow(t).but(t, "tag=102; live weight=1420; hot carcass weight=786"),
	}, companions(t, "40")...)
	for _, finding := range Check(drawLot(t, rules.Beef, rows...)) {
		if finding.Code == "tags swapped" {
			t.Errorf("%s", finding.Message)
		}
	}
}
