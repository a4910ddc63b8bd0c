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

func TestEachClassHasItsOwnPage(t *testing.T) {
	results := sheetstest.FairResults(t)
	results.Reasons = nil
	output := sheetstest.RunPython(t, `
import sys, openpyxl
print(len(openpyxl.load_workbook(sys.argv[1])["Draft reasons"].row_breaks.brk))`, sheetstest.Saved(t, writeAll(t, results)))
	if output != "1\n" {
		t.Errorf("two classes have %s page breaks", output)
	}
}
