package fair

import (
	"testing"

	"railbook/workbook/record"
	"railbook/workbook/sheets/sheetstest"
)

func TestJudgesWordsStandBesideTheDraft(t *testing.T) {
	results := sheetstest.FairResults(t)
	lines := sheetLines(t, writeAll(t, results), record.ReasonsSheet)
	var draft string
	for _, placed := range results.Placings.Classes[1].Placed {
		if placed.Tag == "402" {
			draft = draftWords(placed)
		}
	}
	if draft == "" || lineWith(lines, "402", draft, "A heavy, thick steer; I liked him for his marbling.") == nil {
		t.Errorf("the judge's words do not stand beside the draft %q", draft)
	}
	if lineWith(lines, "999", "Kept though the heifer went home.") == nil {
		t.Error("words about a carcass that is not placed are lost")
	}
}
