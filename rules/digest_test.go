package rules

import (
	"crypto/sha256"
	"encoding/hex"
	"strings"
	"testing"
)

// The canonical text as its description says it: here it is made again by other means, for a small table.
func TestCanonicalTextAsDescribed(t *testing.T) {
	table := MakeTable(TargetsTable, [][]string{
		{"Source", "Species", "Measure", "From", "Up to", "In words"}, // another order of columns
		{"the  board", "beef", "yield grade", "", "3.50", "no\tdiscount"},
		{"", "", "", "", "", ""},
		{"", "goat", "ribeye area", "$.90", "1,000", ""},
	})
	want := "# Targets\nbeef\tyield grade\t\t3.5\tno discount\tthe board\ngoat\tribeye area\t0.9\t1000\t\t\n"
	if got := CanonicalText([]Table{table}); got != want {
		t.Errorf("got  %q\nwant %q", got, want)
	}
	sum := sha256.Sum256([]byte(want))
	if Digest([]Table{table}) != hex.EncodeToString(sum[:]) {
		t.Error("the digest is not the SHA-256 of the canonical text")
	}
}

func TestDigestSeesRulesAndNotTheirForm(t *testing.T) {
	whole, _ := Load(edited())
	same := whole.SHA256
	for name, edit := range map[string]sheetEdit{
		"number as a spreadsheet keeps it": cell(SettingsTable, "C4", "300"),
		"number with a sign":               cell(SettingsTable, "C4", "$300.00"),
		"spaces":                           cell(SettingsTable, "A4", " base  price "),
	} {
		if book, _ := Load(edited(edit)); book == nil || book.SHA256 != same {
			t.Errorf("%s: the same rules have another SHA-256", name)
		}
	}
	for name, edit := range map[string]sheetEdit{
		"price":  cell(SettingsTable, "C4", "301"),
		"source": cell(SettingsTable, "D4", "the board"),
		"grid":   cell(GridTable, "H2", "17.55"),
	} {
		if book, _ := Load(edited(edit)); book == nil || book.SHA256 == same {
			t.Errorf("%s: other rules have the same SHA-256", name)
		}
	}
}

func TestNextYear(t *testing.T) {
	tables := edited(valueOf("base price date", "2025-06-01"), valueOf("questions until", "2025-08-15"))
	before := CanonicalText(tables)
	next, faults := Load(NextYear(tables))
	if next == nil {
		t.Fatal(faults)
	}
	settings := next.Settings
	if settings.Year != "2026" || settings.BasePriceDate[Beef] != "" || settings.QuestionsUntil != "" {
		t.Errorf("next year is %q, its base price of %q, questions until %q", settings.Year, settings.BasePriceDate[Beef], settings.QuestionsUntil)
	}
	if CanonicalText(tables) != before {
		t.Error("the old tables were changed")
	}
	if !strings.Contains(CanonicalText(NextYear(tables)), "base price\tbeef\t300\t") {
		t.Error("the base price was not carried over")
	}
}
