package validate

import (
	"testing"

	"railbook/grading"
	"railbook/rules"
)

// A cell that is written but unreadable is told of by reading; the blank cells beside it that no place depends on
// are not missed because of it, while the one that a place does depend on is.
func TestBlanksBesideAnUnreadableCell(t *testing.T) {
	whole := trueRow(t).but(t, "fat adjustment=0.1; remarks=bruised")
	doubtful := trueRow(t).but(t, "tag=102")
	for missed, want := range map[rules.Measure]int{"": 0, rules.RibeyeArea: 1} {
		row := doubtful
		if missed != "" {
			row = doubtful.but(t, string(missed)+"=")
		}
		lot := drawLot(t, rules.Beef, whole, row)
		reading := lot.Carcasses[1].Readings[rules.Marbling]
		reading.Value, reading.Unreadable = rules.Value{}, true
		lot.Carcasses[1].Readings[rules.Marbling] = reading
		*lot.Carcasses[1] = *grading.Grade(lot.Carcasses[1].Carcass, lot.Book)
		got := 0
		for _, finding := range Check(lot) {
			if finding.Code == "value missing" {
				got++
				if finding.Measure != missed {
					t.Errorf("%s is called missing", finding.Measure)
				}
			}
		}
		if got != want {
			t.Errorf("without %q: %d values are missing, want %d", missed, got, want)
		}
	}
}
