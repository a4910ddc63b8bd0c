package command

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"
	"github.com/urfave/cli/v2"
)

// Every help fits a terminal of 80 columns, and names every option it describes.
func TestHelpsFitATerminal(t *testing.T) {
	app := application("test")
	pages := map[string]any{"railbook": app}
	for _, command := range app.Commands {
		command.HelpName = "railbook " + command.Name
		pages[command.HelpName] = command
		for _, part := range command.Subcommands {
			part.HelpName = command.HelpName + " " + part.Name
			pages[part.HelpName] = part
		}
	}
	if len(pages) < 10 {
		t.Fatalf("%d pages of help", len(pages))
	}
	for name, about := range pages {
		var page bytes.Buffer
		printHelp(&page, "", about)
		for _, line := range strings.Split(page.String(), "\n") {
			if utf8.RuneCountInString(line) > 80 {
				t.Errorf("%s: a line of %d columns: %s", name, utf8.RuneCountInString(line), line)
			}
		}
		if command, ok := about.(*cli.Command); ok {
			for _, flag := range command.Flags {
				if !strings.Contains(page.String(), "--"+flag.Names()[0]) {
					t.Errorf("%s: the help says nothing of --%s", name, flag.Names()[0])
				}
			}
		}
	}
}

func TestOptionsMayStandOnEitherSide(t *testing.T) {
	app := application("test")
	for _, test := range []struct{ given, want string }{
		{"railbook grade fair.xlsx --force", "railbook grade --force -- fair.xlsx"},
		{"railbook grade --species beef fair.xlsx", "railbook grade --species beef -- fair.xlsx"},
		{"railbook grade fair.xlsx --species=beef", "railbook grade --species=beef -- fair.xlsx"},
		{"railbook grade fair.xlsx --species", "railbook grade --species"}, // the missing value is said, and no workbook taken for it
		{"railbook help grade", "railbook grade --help --"},
		{"railbook help", "railbook --help"},
		{"railbook help help", "railbook --help"},
	} {
		got := strings.TrimSpace(strings.Join(optionsFirst(app, asHelp(strings.Fields(test.given))), " "))
		if got != test.want {
			t.Errorf("%s became %q, want %q", test.given, got, test.want)
		}
	}
}

func TestDaysOfTheCalendar(t *testing.T) {
	for text, fits := range map[string]bool{
		"": true, "2024-02-29": true, "2025-02-28": true, "2025-02-29": false, "2025-13-01": false, "2025-7-1": false, "yesterday": false,
	} {
		if err := realDate(text); (err == nil) != fits {
			t.Errorf("--date %q: %v", text, err)
		}
	}
}

func TestWildcardsAreExpandedWhereNobodyDidSo(t *testing.T) {
	folder := t.TempDir()
	for _, name := range []string{"east fair.xlsx", "west.xlsx", "[odd].xlsx"} {
		if err := os.WriteFile(filepath.Join(folder, name), nil, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	t.Chdir(folder)
	for _, test := range []struct{ given, want []string }{
		{[]string{"*t*.xlsx"}, []string{"east fair.xlsx", "west.xlsx"}},
		{[]string{"[odd].xlsx"}, []string{"[odd].xlsx"}},
		{[]string{"none*.xlsx"}, []string{"none*.xlsx"}},
		{[]string{"missing.xlsx"}, []string{"missing.xlsx"}},
	} {
		if diff := cmp.Diff(test.want, expanded(test.given)); diff != "" {
			t.Errorf("%q (-want +got):\n%s", test.given, diff)
		}
	}
}

func TestMessagesFitATerminal(t *testing.T) {
	t.Setenv(columnsVariable, "")
	long := "railbook: " + strings.Repeat("a sentence for the person who must act, ", 9) + "\n" + strings.Repeat("and another ", 20) + "\n"
	for line := range strings.Lines(inColumns(long)) {
		if utf8.RuneCountInString(line) > 81 {
			t.Errorf("%d columns: %s", utf8.RuneCountInString(line), line)
		}
	}
	t.Setenv(columnsVariable, "120")
	if longest := slices.Max(lengths(inColumns(long))); longest <= usualColumns || longest > 120 {
		t.Errorf("in a terminal of 120 columns the longest line has %d", longest)
	}
	t.Setenv(columnsVariable, "3")
	if longest := slices.Max(lengths(inColumns(long))); longest > usualColumns {
		t.Errorf("in a terminal that can't be, the longest line has %d", longest)
	}
	if got, want := strings.Join(strings.Fields(inColumns(long)), " "), strings.Join(strings.Fields(long), " "); got != want {
		t.Errorf("the words changed: %s", got)
	}
}

func lengths(text string) (lengths []int) {
	for line := range strings.Lines(text) {
		lengths = append(lengths, utf8.RuneCountInString(strings.TrimRight(line, "\n")))
	}
	return lengths
}
