package rules

import (
	_ "embed"
	"encoding/csv"
	"strings"
	"testing"
)

//go:embed README.md
var readme string

// The page tells the board of every sheet, column, choice and setting, in the words the program itself uses.
func TestPageExplainsEverySheetAndColumn(t *testing.T) {
	for number, layout := range Layouts() {
		begin := strings.Index(readme, "\n## "+layout.Name+"\n")
		if begin < 0 {
			t.Errorf("the page has no section on the sheet %s", layout.Name)
			continue
		}
		section := readme[begin+1:]
		if end := strings.Index(section, "\n## "); end >= 0 {
			section = section[:end]
		}
		if !strings.Contains(section, layout.Purpose) {
			t.Errorf("the section on %s does not say: %s", layout.Name, layout.Purpose)
		}
		for _, column := range layout.Columns {
			if !strings.Contains(section, "| "+column.Heading+" |") || !strings.Contains(section, column.Meaning) {
				t.Errorf("the section on %s does not explain the column %s as the program does", layout.Name, column.Heading)
			}
			for _, choice := range column.Choices {
				if !strings.Contains(section, choice) {
					t.Errorf("the section on %s does not name the choice %q of %s", layout.Name, choice, column.Heading)
				}
			}
		}
		if number == 0 {
			checkSettingsExplained(t, section)
		}
	}
}

// The example lines can be copied into the sheets as they stand: each example of the page, under the sheet it is about.
func TestExamplesOnThePageLoad(t *testing.T) {
	count := 0
	for _, section := range strings.Split(readme, "\n## ")[1:] {
		name, text, _ := strings.Cut(section, "\n")
		for _, part := range strings.Split(text, "```csv\n")[1:] {
			example, _, closed := strings.Cut(part, "```")
			rows, err := csv.NewReader(strings.NewReader(example)).ReadAll()
			if !closed || err != nil {
				t.Fatalf("an example of %s can't be read: %v", name, err)
			}
			if book, faults := Load([]Table{MakeTable(name, rows)}); book == nil {
				t.Errorf("an example of %s does not load: %v\n%s", name, faults, example)
			}
			count++
		}
	}
	if count < 2 {
		t.Errorf("%d examples", count)
	}
}

func checkSettingsExplained(t *testing.T, section string) {
	for _, setting := range EverySetting() {
		row := "| " + setting.Name + " | " + setting.Meaning + " | " + strings.Join(setting.Choices, " · ") + " |"
		if !strings.Contains(section, row) {
			t.Errorf("the page does not have the line: %s", row)
		}
	}
}
