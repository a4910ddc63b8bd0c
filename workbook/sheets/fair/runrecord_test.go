package fair

import (
	"strings"
	"testing"

	"railbook/workbook/record"
	"railbook/workbook/sheets/sheetstest"
)

func TestRunRecordSaysHowTheResultsCameToBe(t *testing.T) {
	all := everything(sheetLines(t, writeAll(t, sheetstest.FairResults(t)), record.RunRecordSheet))
	for _, want := range []string{
		"First input SHA-256 | 9f2c6d5e0a",
		"Rulebook | Example grid 2025",
		"Kill sheet | D4 | HCW (lb) | hot carcass weight | lb | accepted heading",
		"Kill sheet | I4 | Cooler | not recognised: left alone",
		"maturity A, the sheet gives none: 15 carcasses (tag 401, 402, 403, 404 and 11 more).",
		"Kill sheet | A21 | Average | an average row",
		// 7 CFR 54.105(a)
		"2.5 + 2.5 × adjusted fat + 0.2 × kidney, pelvic and heart fat + 0.0038 × hot carcass weight - 0.32 × ribeye area; 7 CFR 54.105(a)",
		"only an official grader assigns an official grade",
	} {
		if !strings.Contains(all, want) {
			t.Errorf("the sheet does not say %q", want)
		}
	}
}
