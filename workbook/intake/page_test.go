package intake

import (
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"railbook/rules"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/xlsx"

	"github.com/shopspring/decimal"
)

var (
	section  = regexp.MustCompile(`(?m)^### (.+)$`)
	codeSaid = regexp.MustCompile(`(?:Code: |code = |code: +)"([a-z ]+)"`)
	fenced   = regexp.MustCompile("(?s)```(\\w+)([^\n]*)\n(.*?)```")
	option   = regexp.MustCompile(`--(\w+) (?:"([^"]*)"|(\S+))`)
)

// TestPage holds README.md to what the program says: every finding has its section, and every example in it gives the
// words beside it.
func TestPage(t *testing.T) {
	text, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, list, _ := strings.Cut(string(text), "## What may be found")
	heads := section.FindAllStringSubmatchIndex(list, -1)
	documented := map[string]bool{}
	for i, head := range heads {
		end := len(list)
		if i+1 < len(heads) {
			end = heads[i+1][0]
		}
		code := list[head[2]:head[3]]
		documented[code] = true
		if code == "sheet not read to its end" {
			continue // an example would have millions of cells: TestAVeryLargeSheetIsReadWhereItsTableBegins
		}
		t.Run(code, func(t *testing.T) { compareSection(t, code, list[head[1]:end]) })
	}
	for _, code := range codesInSource(t) {
		if !documented[code] {
			t.Errorf("the finding %q has no section", code)
		}
	}
}

func codesInSource(t *testing.T) []string {
	t.Helper()
	var codes []string
	files, err := os.ReadDir(".")
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range files {
		if !strings.HasSuffix(file.Name(), ".go") || strings.HasSuffix(file.Name(), "_test.go") || strings.HasPrefix(file.Name(), "previous") {
			continue
		}
		source, err := os.ReadFile(file.Name())
		if err != nil {
			t.Fatal(err)
		}
		for _, found := range codeSaid.FindAllStringSubmatch(string(source), -1) {
			codes = append(codes, found[1])
		}
	}
	if len(codes) < 20 {
		t.Fatalf("only %d findings in the source", len(codes))
	}
	return codes
}

func compareSection(t *testing.T, code, body string) {
	t.Helper()
	var pages, second []*page
	options := Options{Columns: map[measure.ID]string{}}
	wanted := ""
	for _, block := range fenced.FindAllStringSubmatch(body, -1) {
		name := "Steers"
		given, hidden := strings.CutSuffix(strings.TrimSpace(option.ReplaceAllString(block[2], "")), "(hidden)")
		if given != "" {
			name = given
		}
		for _, said := range option.FindAllStringSubmatch(block[2], -1) {
			if said[1] == "species" {
				options.Species = rules.Species(said[3])
			} else if heading, text, ok := strings.Cut(said[2], "="); ok {
				options.Columns[measure.Standard().ByName(heading)] = text
			}
		}
		switch block[1] {
		case "sheet":
			made := pageSheet(t, name, block[3])
			made.hidden = hidden
			pages = append(pages, made)
		case "second":
			second = append(second, pageSheet(t, name, block[3]))
		case "csv":
			pages = append(pages, textPage(t, name, block[3]))
		case "words":
			wanted = strings.TrimSpace(block[3])
		}
	}
	result := readSheets(t, options, pages...)
	findings := result.Findings
	if len(second) > 0 {
		findings = Differences(result, readSheets(t, Options{}, second...), "second.xlsx")
	}
	if got := wordsOf(code, findings); got != wanted {
		t.Errorf("got\n%s\nthe page says\n%s", got, wanted)
	}
}

func wordsOf(code string, findings []validate.Finding) string {
	var lines []string
	for _, finding := range findings {
		if finding.Code == code {
			lines = append(lines, string(finding.Level)+": "+finding.Message)
		}
	}
	return strings.Join(lines, "\n")
}

// textPage makes a page of a text file.
func textPage(t *testing.T, name, lines string) *page {
	t.Helper()
	book, err := xlsx.OpenBytes(name+".csv", []byte(lines), xlsx.OpenOptions{})
	if err != nil {
		t.Fatal(err)
	}
	grid, err := book.Scan(name)
	if err != nil {
		t.Fatal(err)
	}
	return newPage("", name, grid, true)
}

// pageSheet makes a page of an example: what stands in brackets says what plain text can't.
func pageSheet(t *testing.T, name, lines string) *page {
	t.Helper()
	made := sheetOf(name, strings.NewReplacer("(hidden) ", "", "(struck out) ", "").Replace(lines))
	made.hiddenColumn, made.struck = map[int]bool{}, map[position]bool{}
	for i := range made.lines {
		row := &made.lines[i]
		row.hidden = strings.HasPrefix(strings.Split(lines, "\n")[row.number-1], "(hidden)")
		for at := range row.cells {
			cell := &row.cells[at]
			if strings.HasPrefix(strings.Split(lines, "\n")[row.number-1], "(struck out)") {
				made.struck[position{row.number, cell.Column}] = true
			}
			if text, attached, ok := strings.Cut(cell.Raw, " (comment: "); ok {
				made.comment(position{row.number, cell.Column}, strings.TrimSuffix(attached, ")"))
				if cell.Raw = text; plainNumber(text) {
					cell.Kind = xlsx.Number
				}
			}
			switch day, isDate := strings.CutSuffix(cell.Raw, " (a date)"); {
			case isDate:
				*cell = xlsx.Cell{Column: cell.Column, Kind: xlsx.Number, Raw: writtenDate(day).reading.Value.Number.String(), Date: true}
			case strings.HasSuffix(cell.Raw, " (hidden column)"):
				cell.Raw = strings.TrimSuffix(cell.Raw, " (hidden column)")
				made.hiddenColumn[cell.Column] = true
			case cell.Raw == "(a formula)":
				*cell = xlsx.Cell{Column: cell.Column, Formula: true}
			case strings.HasPrefix(cell.Raw, "#DIV"):
				cell.Kind, cell.Formula = xlsx.ErrorValue, true
			case cell.Raw == "(merged with the cell above)":
				made.areas = append(made.areas, xlsx.Range{FirstColumn: cell.Column, FirstRow: row.number - 1, LastColumn: cell.Column, LastRow: row.number})
				*cell = xlsx.Cell{Column: cell.Column}
			}
		}
		row.cells = slices.DeleteFunc(row.cells, func(cell xlsx.Cell) bool { return nothing(cell) })
	}
	made.coverMerged()
	return made
}

// TestPageTable holds the table of notations to what the program reads.
func TestPageTable(t *testing.T) {
	tests := []struct {
		measure measure.ID
		texts   []string
		value   string
	}{
		{measure.HotCarcassWeight, []string{"812#", "812 lb"}, "812"},
		{measure.HotCarcassWeight, []string{"1,234"}, "1234"},
		{measure.HotCarcassWeight, []string{"356 kg"}, "784.8457"},
		{measure.MeasuredFat, []string{"11 mm"}, "0.4331"},
		{measure.RibeyeArea, []string{"84 cm²"}, "13.02"},
		{measure.MeasuredFat, []string{`.45"`}, "0.45"},
		{measure.MeasuredFat, []string{"4 tenths"}, "0.4"},
		{measure.MeasuredFat, []string{"3/10"}, "0.3"},
		{measure.RibeyeArea, []string{"13½", "13,5"}, "13.5"},
		{measure.InternalFat, []string{"2.5%"}, "2.5"},
		{measure.Marbling, []string{"SM 40", "Small 40", "Sm⁴⁰", "440"}, "440"},
		{measure.Maturity, []string{"A60", "A-60", "160"}, "160"},
		{measure.DarkCutter, []string{"yes", "Y", "x", "✓", "DC"}, "1"},
		{measure.DarkCutter, []string{"no", "N"}, "0"},
		{measure.KillDate, []string{"2025-06-30", "6/30/2025", "30 Jun 2025"}, "45838"},
	}
	page, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, test := range tests {
		for _, text := range test.texts {
			if !strings.Contains(string(page), "`"+text+"`") {
				t.Errorf("the page does not say %s", text)
			}
			parsed := asked(t, test.measure, "").read(xlsx.Cell{Kind: xlsx.Text, Raw: text})
			if wanted := decimal.RequireFromString(test.value); parsed.problem != "" || !parsed.reading.Value.Number.Equal(wanted) {
				t.Errorf("%s: %q is %s %s, want %s", test.measure, text, parsed.reading.Value.Number, parsed.problem, wanted)
			}
		}
	}
}
