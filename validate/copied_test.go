package validate

import (
	"testing"

	"railbook/rules"
)

func TestRowsAlikeInMostMeasuresAreNoCopy(t *testing.T) {
	expect(t, "one measure differs", drawLot(t, rules.Beef, trueRow(t), trueRow(t).but(t, "tag=102; marbling=430")))
}

// Internal fat judged to the half percent runs on for rows; a ribeye to the tenth does not.
func TestRuns(t *testing.T) {
	rows := companions(t, "40")
	expect(t, "internal fat, one value throughout", drawLot(t, rules.Beef, rows...))
	for i := 11; i < 15; i++ {
		rows[i] = rows[i].but(t, "ribeye area=13.9")
	}
	expect(t, "four ribeyes", drawLot(t, rules.Beef, rows...),
		"look copied-down value F17")
}
