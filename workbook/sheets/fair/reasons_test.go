package fair

import (
	"testing"

	"railbook/workbook/record"
	"railbook/workbook/sheets/sheetstest"
	"railbook/workbook/words"
)

func TestJudgesWordsStandBesideTheDraft(t *testing.T) {
	results := sheetstest.FairResults(t)
	lines := sheetLines(t, writeAll(t, results), record.ReasonsSheet)
	var draft string
	steers := &results.Placings.Classes[1]
	for at, placed := range steers.Placed {
		if placed.Tag == "402" {
			draft = words.Reasons(steers, at)
		}
	}
	if draft == "" || lineWith(lines, "402", draft, "A heavy, thick steer; I liked him for his marbling.") == nil {
		t.Errorf("the judge's words do not stand beside the draft %q", draft)
	}
	if lineWith(lines, "999", "Kept though the heifer went home.") == nil {
		t.Error("words about a carcass that is not placed are lost")
	}
}
