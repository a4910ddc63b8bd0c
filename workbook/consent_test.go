package workbook

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/intake"
	"railbook/workbook/names"

	"github.com/xuri/excelize/v2"
)

// carcassSheet is a workbook of steers with sound measures, and the columns that a test adds.
func carcassSheet(t *testing.T, headings []any, lines [][]any) string {
	t.Helper()
	file := excelize.NewFile()
	defer file.Close()
	set := func(row int, cells []any) {
		if err := file.SetSheetRow("Sheet1", fmt.Sprintf("A%d", row), &cells); err != nil {
			t.Fatal(err)
		}
	}
	set(1, append([]any{"Class", "HCW, lb", "Fat, in", "REA, sq in", "KPH %", "Marbling", "Maturity"}, headings...))
	for at, line := range lines {
		set(at+2, append([]any{"Steers", 700 + at%150, 0.3 + float64(at%20)/100, 12 + float64(at%25)/10, 2, fmt.Sprintf("Small %d0", at%10), "A50"}, line...))
	}
	path := filepath.Join(t.TempDir(), "fair.xlsx")
	if err := file.SaveAs(path); err != nil {
		t.Fatal(err)
	}
	return path
}

// invented gives a family name that stands nowhere else in a workbook.
func invented(number int) string {
	const consonants = "bdfgklmnprtvz"
	letter := func(at int) string { return string(consonants[at%len(consonants)]) }
	return "Q" + letter(number) + "o" + letter(number/13) + "u" + letter(number*7+3) + "axq"
}

// answers to consent, as offices write them; of those that are no yes, some can be read and some can't.
var answers = []struct {
	written any
	yes     bool
}{
	{"yes", true},
	{"Y", true},
	{"YES.", true},
	{"x", true},
	{"X", true},
	{"✓", true},
	{"✔", true},
	{"☑", true},
	{true, true},
	{1, true},
	{"signed", true},
	{"on file", true},
	{"ok", true},
	{"Okay", true},
	{"granted", true},
	{" yes ", true},
	{"no", false},
	{"N", false},
	{"NO!", false},
	{false, false},
	{0, false},
	{"none", false},
	{"-", false},
	{"–", false},
	{"n/a", false},
	{"N/A", false},
	{"pending", false},
	{"Pending signature", false},
	{"declined", false},
	{"refused", false},
	{"withheld", false},
	{"no photo", false},
	{"No photos please", false},
	{"yes, but no photo", false},
	{"yes - name only?", false},
	{"yes?", false},
	{"?", false},
	{"maybe", false},
	{"unknown", false},
	{"ask mother", false},
	{"Ask", false},
	{"see form", false},
	{"form lost", false},
	{"not yet", false},
	{"not signed", false},
	{"unsigned", false},
	{"no name", false},
	{"do not publish", false},
	{"opt out", false},
	{"revoked 6/1", false},
	{"✗", false},
	{"✘", false},
	{"☒", false},
	{"☐", false},
	{2, false},
	{0.5, false},
	{"*", false},
	{"ye", false},
	{"yess", false},
	{"photo", false},
	{"consent", false},
	{"first name only", false},
	{"2025-06-01", false},
	{"held for signature", false},
	{"ditto", false},
	{`"`, false},
}

// Each youth has two animals: consent stands beside one, and the answer beside the other.
func TestWhatIsNotAYesWithholdsTheName(t *testing.T) {
	if len(answers) < 60 {
		t.Fatalf("%d answers", len(answers))
	}
	var lines [][]any
	for at, answer := range answers {
		lines = append(lines, []any{fmt.Sprint(100 + 2*at), invented(at), answer.written}, []any{fmt.Sprint(101 + 2*at), invented(at), "yes"})
	}
	path := gradedFile(t, carcassSheet(t, []any{"Tag", "Exhibitor", "Consent"}, lines))
	published, err := Publish(path, Options{}, PublishOptions{Separate: filepath.Join(t.TempDir(), "families")})
	if err != nil {
		t.Fatal(err)
	}
	all := strings.ToLower(unpacked(t, published.Public.Path))
	given := 0
	for at, answer := range answers {
		if answer.yes {
			given++
		}
		if named := strings.Contains(all, strings.ToLower(invented(at))); named != answer.yes {
			t.Errorf("%v: the name is published: %v", answer.written, named)
		}
	}
	if published.Named != 2*given || published.Named+published.Tagged != len(lines) {
		t.Errorf("%d named and %d by tag, of %d carcasses", published.Named, published.Tagged, len(lines))
	}
	looks := 0
	for _, finding := range published.Results.Findings {
		if finding.Measure != measure.Consent {
			continue
		}
		if finding.Level == validate.Hold {
			t.Errorf("consent holds a carcass: %s", finding.Message)
		}
		if finding.Level == validate.Look {
			looks++
		}
	}
	if looks != 1 {
		t.Errorf("%d findings to look at about consent, want one for them all", looks)
	}
	ownFilesOnly(t, published, len(answers))
}

// ownFilesOnly checks that no family's file names a child of another.
func ownFilesOnly(t *testing.T, published *Published, families int) {
	t.Helper()
	if len(published.Families) != families {
		t.Errorf("%d files for %d families", len(published.Families), families)
	}
	for at, file := range published.Families {
		if at%7 != 0 {
			continue
		}
		all := strings.ToLower(unpacked(t, file.Path))
		for other := range families {
			name := strings.ToLower(invented(other))
			if strings.Contains(all, name) && !strings.Contains(file.Path, name) {
				t.Errorf("%s names %s", filepath.Base(file.Path), name)
			}
		}
	}
}

// The second writing of a name is refused; the first has consent. The names are invented, the ways of writing common
// practice, the forms those of the Unicode Standard (annex 15, section 5.18).
var writings = []struct {
	first, second string // Q stands for a family name of its own
	withheld      bool
}{
	{"Zyndra Q", "Zyndra Q", true},
	{"Zyndra Q", "ZYNDRA Q", true},
	{"Zyndra Q", "zyndra q", true},
	{"Zyndra Q", " Zyndra   Q ", true},
	{"Zyndra Q", "Zyndra\u00a0Q", true},
	{"Zyndra Q", "Zyndra\u2009Q", true},
	{"Zyndra Q", "Zyndra\u200bQ", true},
	{"Zyndra Q", "Zyndra\u00adQ", true},
	{"Zyndra Q", "\uff3ayndra Q", true},
	{"Zo\u00eb Q", "Zoe\u0308 Q", true},
	{"Zoe\u0308 Q", "Zo\u00eb Q", true},
	{"\u00c5se Q", "A\u030ase Q", true},
	{"\u212bse Q", "\u00c5se Q", true},
	{"N\u01d6ra Q", "Nu\u0308\u0304ra Q", true},
	{"Zo\u00eb Q", "Zoe Q", true},
	{"Stra\u00dfe Q", "STRASSE Q", true},
	{"O'Tarn Q", "O\u2019Tarn Q", true},
	{"O'Tarn Q", "O\u02bcTarn Q", true},
	{"O'Tarn Q", "O`Tarn Q", true},
	{"O'Tarn Q", "OTarn Q", true},
	{"O'Tarn Q", "O Tarn Q", true},
	{"Ann-Lee Q", "Ann Lee Q", true},
	{"Ann-Lee Q", "Ann\u2011Lee Q", true},
	{"Ann-Lee Q", "Annlee Q", true},
	{"Zyndra Q", "Q, Zyndra", true},
	{"Zyndra Q", "Q Zyndra", true},
	{"Zyndra Q", "Q; Zyndra", true},
	{"Zyndra Q", "Z. Q", true},
	{"Zyndra Q", "Q, Z.", true},
	{"Zyndra Q", "Z Q", true},
	{"Z. Q", "Zyndra Q", true},
	{"Zyndra Maud Q", "Z. M. Q", true},
	{"Zyndra Maud Q", "M. Z. Q", true},
	{"Z.M. Q", "Q MZ", true},
	{"Z.M. Q", "ZM Q", true},
	{"Zyndra Maud Q", "Zyndra Q", true},
	{"Zyndra Q", "Zyndra M. Q", true},
	{"Zyndra Q", "Q", true},
	{"Zyndra Q", "Zyndra & Fenna Q", true},
	{"Zyndra Q", "Fenna Q / Zyndra Q", true},
	{"Zyndra & Fenna Q", "Fenna Q", true},
	{"Zyndra Q", "Zyndra Q Jr.", true},
	{"Zyndra Q", "Zyndra Q (junior)", true},
	{"Zyndra Q", "Fenna Q", false},
	{"Zyndra Q", "F. Q", false},
	{"Zyndra Maud Q", "F. M. Q", false},
}

func TestARefusalReachesEveryWritingOfTheName(t *testing.T) {
	if len(writings) < 40 {
		t.Fatalf("%d pairs", len(writings))
	}
	var lines [][]any
	write := func(name string, at int) string {
		family := invented(at)
		if name == strings.ToUpper(name) {
			family = strings.ToUpper(family)
		}
		return strings.NewReplacer("Q", family, " q", " "+strings.ToLower(family)).Replace(name)
	}
	for at, pair := range writings {
		lines = append(lines, []any{fmt.Sprint(100 + 2*at), write(pair.first, at), "yes"}, []any{fmt.Sprint(101 + 2*at), write(pair.second, at), "no"})
	}
	path := gradedFile(t, carcassSheet(t, []any{"Tag", "Exhibitor", "Consent"}, lines))
	published, err := Publish(path, Options{}, PublishOptions{})
	if err != nil {
		t.Fatal(err)
	}
	all := strings.Join(names.Words(unpacked(t, published.Public.Path)), " ")
	for at, pair := range writings {
		if named := strings.Contains(all, strings.ToLower(invented(at))); named == pair.withheld {
			t.Errorf("%q has consent and %q is refused: the name is published: %v", pair.first, pair.second, named)
		}
	}
}

// withEntries adds a roster to a workbook.
func withEntries(t *testing.T, path string, rows ...[]any) string {
	t.Helper()
	edit(t, path, path, func(file *excelize.File) {
		if _, err := file.NewSheet("Entries"); err != nil {
			t.Fatal(err)
		}
		for at, cells := range rows {
			if err := file.SetSheetRow("Entries", fmt.Sprintf("A%d", at+1), &cells); err != nil {
				t.Fatal(err)
			}
		}
	})
	return path
}

// A doubt whose a carcass is takes nothing but the name: the carcass is placed, no output names anybody, and nothing is
// signed until it is settled.
func TestADoubtfulJoinGivesNoNameAndNoConsent(t *testing.T) {
	const first, second = "Zyndra Qorblat", "Fenna Ghyll"
	roster := []any{"Tag", "Exhibitor", "Consent", "Class", "Dept"}
	for _, test := range []struct {
		name    string
		own     string // the exhibitor on the carcass sheet
		entries [][]any
		reads   string
		named   bool
	}{
		{"one line", "", [][]any{{"11", first, "yes"}}, first, true},
		{"two children", "", [][]any{{"11", first, "yes"}, {"11", second, "yes"}}, intake.ToBeSettled, false},
		{"two children, the second's consent", "", [][]any{{"11", first}, {"11", second, "yes"}}, intake.ToBeSettled, false},
		{"two writings of the tag", "", [][]any{{"11", first, "yes"}, {"011", second, "yes"}}, intake.ToBeSettled, false},
		{"one child twice", "", [][]any{{"11", first, "yes"}, {"11", "Qorblat, Zyndra", "yes"}}, first, true},
		{"one child twice, one consent", "", [][]any{{"11", first, "yes"}, {"11", first}}, first, false},
		{"species under its own heading", "", [][]any{{"11", second, "yes", "", "Swine"}, {"11", first, "yes", "", "Beef"}}, first, true},
		{"one species blank", "", [][]any{{"11", second, "yes", "", "Beef"}, {"11", first, "yes"}}, intake.ToBeSettled, false},
		{"class", "", [][]any{{"11", second, "yes", "Heifers"}, {"11", first, "yes", "Steers"}}, first, true},
		{"class under another heading", "", [][]any{{"11", second, "yes", "Heifers"}, {"11", first, "yes", "", "Steers"}}, first, true},
		{"neither class", "", [][]any{{"11", second, "yes", "Heifers"}, {"11", first, "yes", "Cows"}}, intake.ToBeSettled, false},
		{"the carcass sheet names one of them", first, [][]any{{"11", second, "yes"}, {"11", first, "yes"}}, first, true},
		{"the carcass sheet names another", first, [][]any{{"11", second, "yes"}}, intake.ToBeSettled, false},
		{"the carcass sheet gives an initial", "Z. Qorblat", [][]any{{"11", first, "yes"}}, "Z. Qorblat", true},
	} {
		t.Run(test.name, func(t *testing.T) {
			path := carcassSheet(t, []any{"Tag", "Exhibitor"}, [][]any{{"11", test.own}, {"12", "Oswin Tarpley"}, {"13", ""}})
			path = gradedFile(t, withEntries(t, path, append([][]any{roster, {"13", "Brevik Unthank", "yes"}}, test.entries...)...))
			published, err := Publish(path, Options{}, PublishOptions{Separate: filepath.Join(t.TempDir(), "families")})
			if err != nil {
				t.Fatal(err)
			}
			carcass := published.Results.Carcasses[0]
			if got := carcass.ReadingOf(measure.Exhibitor).Value.Text; got != test.reads {
				t.Errorf("the exhibitor reads %q, want %q", got, test.reads)
			}
			if placed := len(published.Results.Placings.Classes[0].Placed); placed != 3 {
				t.Errorf("%d of 3 placed", placed)
			}
			doubtful := test.reads == intake.ToBeSettled
			if doubtful && carcass.ReadingOf(measure.Consent).Value.Text != "no" {
				t.Errorf("consent reads %q", carcass.ReadingOf(measure.Consent).Value.Text)
			}
			if rows := flat(cardRows(t, published.Public.Path)["Announcer"]); !strings.Contains(rows, "Brevik Unthank") || strings.Contains(rows, "Qorblat") != test.named {
				t.Errorf("the announcer's page:\n%s", rows)
			}
			all := strings.ToLower(unpacked(t, published.Public.Path))
			if named := strings.Contains(all, "qorblat"); named != test.named {
				t.Errorf("the name is published: %v", named)
			}
			if strings.Contains(all, "ghyll") {
				t.Error("another child is named")
			}
			if !strings.Contains(all, "brevik unthank") {
				t.Error("a name with consent is not published")
			}
			if doubtful {
				for _, file := range published.Families {
					if words := strings.ToLower(unpacked(t, file.Path)); strings.Contains(words, "qorblat") || strings.Contains(words, "ghyll") {
						t.Errorf("%s names one of the children", filepath.Base(file.Path))
					}
				}
			}
			_, err = Sign(path, "J. Judge", "2025-07-01", Options{})
			if refused := err != nil && strings.Contains(err.Error(), "can't be told from the lists whose"); refused != doubtful {
				t.Errorf("signing: %v", err)
			}
		})
	}
}

// A line that names nobody, and may be another animal's of the same tag, gives no consent; its refusal counts.
func TestConsentOfAListWithoutNames(t *testing.T) {
	for answer, named := range map[string]bool{"yes": false, "no": false} {
		path := carcassSheet(t, []any{"Tag", "Exhibitor"}, [][]any{{"11", "Zyndra Qorblat"}, {"12", "Oswin Tarpley"}})
		path = withEntries(t, path, []any{"Tag", "Exhibitor", "Dept"}, []any{"11", "Zyndra Qorblat", "Beef"}, []any{"11", "Fenna Ghyll", "Swine"})
		edit(t, path, path, func(file *excelize.File) {
			if _, err := file.NewSheet("Forms"); err != nil {
				t.Fatal(err)
			}
			for cell, value := range map[string]string{"A1": "Tag", "B1": "Photo release", "A2": "11", "B2": answer, "A3": "12", "B3": "yes"} {
				put(t, file, "Forms", cell, value)
			}
		})
		results, err := Examine(path, Options{})
		if err != nil {
			t.Fatal(err)
		}
		if got := results.Carcasses[0].ReadingOf(measure.Consent).Value.Number.IsPositive(); got != named {
			t.Errorf("%s for either of two animals: consent is %v", answer, got)
		}
		if !results.Carcasses[1].ReadingOf(measure.Consent).Value.Number.IsPositive() {
			t.Error("a consent that is in no doubt was not taken")
		}
		if slices.ContainsFunc(results.Findings, func(finding validate.Finding) bool { return finding.Code == intake.WhoseCarcass }) {
			t.Error("nothing is in doubt about the exhibitor")
		}
	}
}

// A roster that has no list says what was looked for, and what was seen instead.
func TestARosterWithoutAListIsAnError(t *testing.T) {
	path := carcassSheet(t, []any{"Tag"}, [][]any{{"11"}, {"12"}})
	for lines, found := range map[string]bool{"Buyer,Lot price\nAster Gatepost,4\n": false, "Tag,Exhibitor\n11,Aster Gatepost\n": true, "Old tag,New tag\n10,11\n": true} {
		roster := filepath.Join(t.TempDir(), "entries.csv")
		if err := os.WriteFile(roster, []byte(lines), 0o600); err != nil {
			t.Fatal(err)
		}
		_, err := Examine(path, Options{Rosters: []string{roster}})
		if found != (err == nil) {
			t.Fatalf("%q: %v", lines, err)
		}
		if !found && (!strings.Contains(err.Error(), "entries.csv has no list of entries") || !strings.Contains(err.Error(), "Buyer")) {
			t.Error(err)
		}
	}
}
