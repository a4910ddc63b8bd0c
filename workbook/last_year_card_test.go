package workbook

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

// A card sets the animal that the same youth had last year beside this year's, else the family's, and says in one sentence what
// moved most and whether toward the aim. Nobody's is set there where it is in doubt who is meant.
func TestLastYearsAnimalStandsOnTheCard(t *testing.T) {
	folder := t.TempDir()
	write := func(name string, rows [][]any) string {
		t.Helper()
		file := excelize.NewFile()
		defer file.Close()
		all := append([][]any{{"Tag", "Class", "Exhibitor", "Club", "Family", "HCW (lb)", "Adjusted fat (in)", "Ribeye (sq in)", "KPH %", "Marbling", "Maturity"}}, rows...)
		for i, row := range all {
			cell, _ := excelize.CoordinatesToCellName(1, i+1)
			if err := file.SetSheetRow("Sheet1", cell, &row); err != nil {
				t.Fatal(err)
			}
		}
		path := filepath.Join(folder, name)
		if err := file.SaveAs(path); err != nil {
			t.Fatal(err)
		}
		return path
	}
	animal := func(tag, who, club, family string, fat, ribeye any) []any {
		return []any{tag, "Steers", who, club, family, 760, fat, ribeye, 2.0, "Small 50", "A50"}
	}
	past := write("2024.xlsx", [][]any{
		animal("11", "Rowan Birchley", "Hill Club", "", 0.70, 12.6),
		animal("12", "Sage Fernwick", "Hill Club", "", 0.40, 12.6),
		animal("13", "Sage Fernwick", "Dale Club", "", 0.40, 12.7),
		animal("14", "Elder Oakham", "", "Oakham", 0.40, 12.8),
		animal("15", "Tansy Marlow", "Hill Club", "", 0.40, 13.0),
		animal("16", "Tansy Marlow", "Hill Club", "", 0.40, 13.4),
	})
	now := write("2025.xlsx", [][]any{
		animal("21", "Birchley, Rowan", "Hill Club", "", 0.50, 13.1),
		animal("22", "Sage Fernwick", "Hill Club", "", 0.40, 13.2),
		animal("23", "Linden Oakham", "", "Oakham", 0.42, 13.3),
		animal("24", "Tansy Marlow", "Hill Club", "", 0.60, 13.5),
		animal("25", "R. Birchley", "Dale Club", "", 0.40, 13.6),
		animal("26", "Someone Newcome", "", "", 0.40, 13.7),
	})
	pastResults, err := Grade(past, Options{})
	if err != nil {
		t.Fatal(err)
	}
	outcome, err := Grade(now, Options{LastYear: pastResults.Path})
	if err != nil {
		t.Fatal(err)
	}
	published, err := Publish(outcome.Path, Options{}, PublishOptions{})
	if err != nil {
		t.Fatal(err)
	}
	cards := cardRows(t, published.Cards.Path)
	for tag, want := range map[string]string{
		"21": "was tag 11",
		"22": "", // the same name in two clubs: nobody can tell
		"23": "was tag 14",
		"24": "the best placed of 2",
		"25": "", // another club: perhaps another child
		"26": "",
	} {
		words := flat(cards["Tag "+tag])
		if words == "" {
			t.Fatalf("there is no card of tag %s", tag)
		}
		if got := strings.Contains(words, "Last year's animal"); got != (want != "") || !strings.Contains(words, want) {
			t.Errorf("tag %s: wanted %q on\n%s", tag, want, words)
		}
	}
	for tag, want := range map[string]string{
		"21": "What moved most is the adjusted fat: from 0.70 in to 0.50 in, toward the aim.",
		"24": "What moved most is the adjusted fat: from 0.40 in to 0.60 in, away from the aim.",
	} {
		if words := flat(cards["Tag "+tag]); !strings.Contains(words, want) {
			t.Errorf("tag %s: wanted %q on\n%s", tag, want, words)
		}
	}
	if words := flat(cards["Tag 21"]); !strings.Contains(words, "Small 50 Small 50 0 points") {
		t.Errorf("marbling that did not change:\n%s", words)
	}
}
