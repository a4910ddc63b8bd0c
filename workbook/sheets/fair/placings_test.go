package fair

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"railbook/grading"
	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/workbook/record"
	"railbook/workbook/sheets/kit"
	"railbook/workbook/sheets/sheetstest"
	"railbook/workbook/words"
	"railbook/workbook/xlsx"
)

// sheetLines reads a sheet of ours as lines of its cells' texts, blank cells left out.
func sheetLines(t sheetstest.Tester, data []byte, sheet string) [][]string {
	t.Helper()
	book, err := xlsx.OpenBytes("fair-results.xlsx", data, xlsx.OpenOptions{})
	if err != nil {
		t.Fatal(err)
	}
	grid, err := book.Scan(sheet)
	if err != nil {
		t.Fatal(err)
	}
	var lines [][]string
	for _, row := range grid.Rows {
		var line []string
		for _, cell := range row.Cells {
			if cell.Raw != "" {
				line = append(line, cell.Raw)
			}
		}
		if len(line) > 0 {
			lines = append(lines, line)
		}
	}
	return lines
}

// lineWith finds the first line that has all the texts.
func lineWith(lines [][]string, texts ...string) []string {
	for _, line := range lines {
		if !slices.ContainsFunc(texts, func(text string) bool { return !slices.Contains(line, text) }) {
			return line
		}
	}
	return nil
}

func everything(lines [][]string) string {
	var all []string
	for _, line := range lines {
		all = append(all, strings.Join(line, " | "))
	}
	return strings.Join(all, "\n")
}

func TestPlacingsSayWhoStandsWhereAndWhy(t *testing.T) {
	results := sheetstest.FairResults(t)
	steersPlaced := results.Placings.Classes[1].Placed
	steersPlaced[1].Shared, steersPlaced[1].Place, steersPlaced[2].Shared, steersPlaced[2].Place = true, 2, true, 2
	steersPlaced[3].JudgeTie = true
	results.Placings.Awards = []placing.AwardList{
		{Award: rules.Award{Name: "Best cutability"}, Reason: "no carcass has a cutability"},
		{Award: rules.Award{Name: "Heaviest ribeye"}, Winners: steersPlaced[:1]},
	}
	lines := sheetLines(t, writeAll(t, results), record.PlacingsSheet)
	all := everything(lines)
	for _, want := range []string{
		"Placings: Provisional",
		"13 placed, 2 not placed",
		"Provisional: 1 finding on hold and 1 to look at open",
		"Ranked by whole yield grade of 3 or less first, then highest quality grade",
		`Not placed: on hold: ribeye area out of range`,
		"Not placed: left out by the judge (AB): trimmed before weighing",
		"No award. No carcass has a cutability.",
		"Prices are for teaching and are no offer",
	} {
		if !strings.Contains(all, want) {
			t.Errorf("the sheet does not say %q", want)
		}
	}
	first := lineWith(lines, "1", steersPlaced[0].Tag)
	why := "Heaviest ribeye · " + phrase.Sentence(words.Why(&results.Placings.Classes[1], 0))
	under := slices.IndexFunc(lines, func(line []string) bool { return slices.Equal(line, first) }) + 1
	if first == nil || under >= len(lines) || !strings.HasSuffix(strings.Join(lines[under], ""), why) {
		t.Errorf("below the first steer's line %q stands %q, want %q", first, lines[under], why)
	}
	if lineWith(lines, "2, tied", steersPlaced[1].Tag) == nil || lineWith(lines, "2, tied", steersPlaced[2].Tag) == nil {
		t.Error("the tie is not shown")
	}
	if lineWith(lines, "4, tied: judge decides", steersPlaced[3].Tag) == nil {
		t.Error("the tie left to the judge is not shown")
	}
}

func TestSignedPlacingsAreSigned(t *testing.T) {
	results := sheetstest.FairResults(t)
	results.Run.Status, results.Run.Judge, results.Run.Date, results.Run.Seal = record.Signed, "Ada Bright", "2025-07-12", "c0ffee"
	all := everything(sheetLines(t, writeAll(t, results), record.PlacingsSheet))
	for _, want := range []string{"Placings: Signed", "Signed by Ada Bright, 2025-07-12", "Judge: Ada Bright", "Superintendent:", "Seal: c0ffee"} {
		if !strings.Contains(all, want) {
			t.Errorf("the sheet does not say %q", want)
		}
	}
	if strings.Contains(all, record.Provisional) {
		t.Error("a signed sheet says Provisional")
	}
}

// A yield grade of 2.996 is a 2 and must not be printed as 3.00 (common practice: published figures are cut).
func TestFiguresAreNotRoundedToTheNextWholeGrade(t *testing.T) {
	for _, test := range []struct{ figure, want string }{{"2.996", "2.99"}, {"2.994", "2.994"}, {"3.001", "3.001"}, {"1.9951", "1.99"}} {
		if got := kit.AsPrinted(measure.YieldGrade, sheetstest.Number(test.figure)); got.String() != test.want {
			t.Errorf("%s is printed as %s", test.figure, got)
		}
	}
}

func TestRankingsAreSaidInOneSentence(t *testing.T) {
	ranking := rules.Ranking{Ties: rules.TiesJudge, Keys: []rules.Key{
		{Measure: measure.Cutability, Prefer: rules.PassAtLeast, Bound: sheetstest.DecimalOf("50")},
		{Measure: measure.Price, Prefer: rules.Highest},
		{Measure: measure.YieldGrade, Prefer: rules.Lowest, Decimals: sheetstest.DecimalOf("1")},
	}}
	want := "Ranked by cutability of 50 or more first, then highest price, then lowest yield grade (compared to the tenth); carcasses still level are left to the judge."
	if got := words.RankingWords(ranking); got != want {
		t.Errorf("got %q", got)
	}
	for index, want := range map[string]string{"carcass points": "Ranked by highest carcass points;", "carcass index": "Ranked by highest points of carcass index;"} {
		ranking.Keys = []rules.Key{{Index: index, Prefer: rules.Highest}}
		if got := words.RankingWords(ranking); !strings.HasPrefix(got, want) {
			t.Errorf("an index %q: %s", index, got)
		}
	}
}

// Species have measures of their own, so their classes cannot share one row of headings: each has its own, on a page of
// its own, and nothing is printed in a column of another's.
func TestClassesOfTwoSpeciesHaveTheirOwnHeadings(t *testing.T) {
	results := sheetstest.FairResults(t)
	hog := &grading.Graded{
		Carcass: (&grading.Carcass{Tag: "77", Class: "Barrows", Species: rules.Swine, Basis: rules.OnTheRail}).With(map[measure.ID]grading.Reading{
			measure.HotCarcassWeight: {Value: measure.NumberValue(sheetstest.Number("201"))},
		}),
	}
	hog.SetFigure(measure.LeanPercent, grading.Figure{Value: measure.NumberValue(sheetstest.Number("55.12"))})
	results.Placings.Classes = append(results.Placings.Classes, placing.ClassPlacing{
		Class: "Barrows", Species: rules.Swine, Basis: rules.OnTheRail, Placed: []placing.Placed{{Entrant: &placing.Entrant{Graded: hog}, Place: 1, Decider: -1}},
		Ranking: rules.Ranking{Keys: []rules.Key{{Measure: measure.LeanPercent, Prefer: rules.Highest}}},
	})
	lines := sheetLines(t, writeAll(t, results), record.PlacingsSheet)
	all := everything(lines)
	if got := strings.Count(all, "Place | Tag | Exhibitor"); got != 3 {
		t.Errorf("three classes have %d rows of headings", got)
	}
	if line := lineWith(lines, "1", "77"); line == nil || !slices.Contains(line, "201") || !slices.Contains(line, "55.12") {
		t.Errorf("the barrow's line is %q", line)
	}
	if !strings.Contains(all, "Barrows · swine · 1 placed, 0 not placed") {
		t.Error("the species is not said")
	}
}

// Classes that take more rows than a sheet has go on on another sheet, each whole, behind the first one.
func TestPlacingsGoOnOnAnotherSheet(t *testing.T) {
	most := mostRowsOfClasses
	defer func() { mostRowsOfClasses = most }()
	results := largeResults(t, 300)
	data := writeAll(t, results)
	book, err := xlsx.OpenBytes("fair-results.xlsx", data, xlsx.OpenOptions{})
	if err != nil {
		t.Fatal(err)
	}
	grid, err := book.Scan(record.PlacingsSheet)
	if err != nil {
		t.Fatal(err)
	}
	before := 0 // the last row before the second class
	for _, row := range grid.Rows {
		if len(row.Cells) > 0 && strings.HasPrefix(row.Cells[0].Raw, "Class 2 ") {
			before = row.Number - 1
		}
	}
	both := before + mostRowsOf(results.Placings.Classes[1])
	for _, row := range []struct {
		most int
		want [][]string // the classes of each sheet
	}{
		{both, [][]string{{"Class 1", "Class 2"}, {"Class 3"}}},
		{both - 1, [][]string{{"Class 1"}, {"Class 2"}, {"Class 3"}}},
		{0, [][]string{{"Class 1"}, {"Class 2"}, {"Class 3"}}},
	} {
		mostRowsOfClasses = row.most
		data := writeAll(t, largeResults(t, 300))
		book, err := xlsx.OpenBytes("fair-results.xlsx", data, xlsx.OpenOptions{})
		if err != nil {
			t.Fatal(err)
		}
		tag := 0
		for number, classes := range row.want {
			name := record.PlacingsSheet
			if number > 0 {
				name = fmt.Sprintf("%s (%d)", name, number+1)
			}
			if sheet := book.Sheets()[number].Name; sheet != name {
				t.Fatalf("most %d: sheet %d is %q, want %q", row.most, number+1, sheet, name)
			}
			var stand []string
			for _, line := range sheetLines(t, data, name) {
				if class, _, found := strings.Cut(line[0], " · "); found && strings.HasPrefix(class, "Class ") {
					stand = append(stand, class)
				}
				if len(line) > 2 && line[1] == fmt.Sprint(tag+1) {
					tag++
				}
			}
			if !slices.Equal(stand, classes) {
				t.Errorf("most %d: on %q stand %q, want %q", row.most, name, stand, classes)
			}
		}
		if tag != 300 {
			t.Errorf("most %d: %d carcasses are there in their order", row.most, tag)
		}
		if second := book.Ours()[numbered(record.PlacingsMark, 2)]; second != "Placings (2)" {
			t.Errorf("most %d: the second is %q", row.most, second)
		}
	}
}
