package workbook

import (
	"fmt"
	"html"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"railbook/rules"
	"railbook/workbook/sheets/sheetstest"
	"railbook/workbook/xlsx"
)

// What is posted, filled in or read is printed: not the office's entries and notes, nor the review sheet in which nothing is filled in
// any more, and of a rulebook no table without a line.
func TestWhatIsNotPrinted(t *testing.T) {
	rulebook := filepath.Join(t.TempDir(), "rulebook.xlsx")
	if err := NewRulebook(rulebook, "", Options{}); err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		path string
		want []string
	}{
		{gradedDemo(t, "fair"), []string{"Entries", "Office notes"}},
		{gradedDemo(t, "goat"), []string{"Value grid"}},
		{signedDemo(t, "fair.xlsx"), []string{"Entries", "Judge review", "Office notes"}},
		{rulebook, []string{rules.AwardsTable, rules.GroupsTable, rules.PointsTable, rules.PremiumsTable, rules.MatrixTable}},
		{"../testdata/demo/fair.xlsx", nil},
	} {
		book, err := xlsx.Open(test.path, xlsx.OpenOptions{})
		if err != nil {
			t.Fatal(err)
		}
		hidden := unprinted(book)
		slices.Sort(hidden)
		slices.Sort(test.want)
		if !slices.Equal(hidden, test.want) {
			t.Errorf("%s: not printed are %q, want %q", filepath.Base(test.path), hidden, test.want)
		}
	}
}

// pageWord is a word of a printed page: where it stands, in points from the top left, and the size of its type.
type pageWord struct {
	left, top, right, bottom float64
	text                     string
}

// bodyHeight is how high pdftotext takes a word of Liberation Sans to be, to the size of its type: from a rise of 1.05 to a fall of
// 0.25 (measured on pages whose type is known).
const bodyHeight = 1.3

func (w pageWord) size() float64 { return (w.bottom - w.top) / bodyHeight }

// printedPage is a page of a PDF.
type printedPage struct {
	sheet string // the name that its footer has; empty of a page that came from the plant
	wide  float64
	words []pageWord
}

var (
	pageStart = regexp.MustCompile(`<page width="([0-9.]+)"`)
	wordBox   = regexp.MustCompile(`<word xMin="([-0-9.]+)" yMin="([-0-9.]+)" xMax="([-0-9.]+)" yMax="([-0-9.]+)">(.*?)</word>`)
)

func pagesOfPDF(t *testing.T, path string) (pages []printedPage) {
	t.Helper()
	said, err := exec.Command("pdftotext", "-bbox", path, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	for _, text := range strings.Split(string(said), "</page>") {
		start := pageStart.FindStringSubmatch(text)
		if start == nil {
			continue
		}
		page := printedPage{}
		page.wide, _ = strconv.ParseFloat(start[1], 64)
		for _, found := range wordBox.FindAllStringSubmatch(text, -1) {
			word := pageWord{text: html.UnescapeString(found[5])}
			for i, to := range []*float64{&word.left, &word.top, &word.right, &word.bottom} {
				*to, _ = strconv.ParseFloat(found[i+1], 64)
			}
			page.words = append(page.words, word)
		}
		page.sheet = footerOf(page.words)
		pages = append(pages, page)
	}
	return pages
}

// footerOf gives the sheet that the foot of a page names: "fair.xlsx Judge review, page 2".
func footerOf(words []pageWord) string {
	lowest := 0.0
	for _, word := range words {
		lowest = math.Max(lowest, word.bottom)
	}
	var line []string
	for _, word := range words {
		if word.bottom > lowest-4 {
			line = append(line, word.text)
		}
	}
	at := slices.Index(line, "page")
	if at < 2 || !strings.HasSuffix(line[0], ".xlsx") {
		return ""
	}
	return strings.TrimSuffix(strings.Join(line[1:at], " "), ",")
}

// collisions gives the pairs of words of a page that stand on one another: text that runs into the next column.
func (p printedPage) collisions() (pairs []string) {
	for i, a := range p.words {
		for _, b := range p.words[i+1:] {
			across := math.Min(a.right, b.right) - math.Max(a.left, b.left)
			apart := math.Abs(a.top+a.bottom-b.top-b.bottom) / 2
			if across > 1 && apart < math.Min(a.size(), b.size())/2 {
				pairs = append(pairs, a.text+"|"+b.text)
			}
		}
	}
	return pairs
}

// Every document of every demo, as LibreOffice prints it: how many pages it has, that no page is nearly empty, that what is posted,
// filled in by hand or read by a family is in type of nine points and more, and that no text runs into another or off the page.
func TestEveryDocumentPrints(t *testing.T) {
	if os.Getenv("RAILBOOK_LONG") == "" {
		t.Skip("prints every document of the demos: set RAILBOOK_LONG=1")
	}
	for _, tool := range []string{"soffice", "pdftotext"} {
		if _, err := exec.LookPath(tool); err != nil {
			toolMissing(t, tool)
			t.SkipNow()
		}
	}
	documents := everyDocument(t)
	var paths []string
	for _, document := range documents {
		paths = append(paths, document.path)
	}
	made, err := Print(paths, Options{})
	if err != nil {
		t.Fatal(err)
	}
	for i, document := range documents {
		t.Run(filepath.Base(document.path), func(t *testing.T) { document.hold(t, pagesOfPDF(t, made[i].Path)) })
	}
}

// A spreadsheet program that prints the whole workbook prints what the office had beside the data as well, a page each of the demo,
// and of a signed one the Judge review sheet: no page of ours is cut, nearly empty, or in small type.
func TestAWholeWorkbookPrintsAsItsPagesDo(t *testing.T) {
	if os.Getenv("RAILBOOK_LONG") == "" {
		t.Skip("starts LibreOffice: set RAILBOOK_LONG=1")
	}
	for _, tool := range []string{"soffice", "pdftotext"} {
		if _, err := exec.LookPath(tool); err != nil {
			toolMissing(t, tool)
			t.SkipNow()
		}
	}
	const officesPages = 2
	for _, document := range []document{{path: gradedDemo(t, "fair"), most: 14 + officesPages}, {path: signedDemo(t, "fair.xlsx"), most: 15 + officesPages + 2}} {
		t.Run(filepath.Base(document.path), func(t *testing.T) {
			document.hold(t, pagesOfPDF(t, sheetstest.Resaved(t, "pdf", document.path)[0]))
		})
	}
}

// document is a workbook that is printed.
type document struct {
	path  string
	most  int  // pages
	large bool // every page of ours is in type of nine points and more
}

// posted are the sheets of results that are posted, filled in or spoken from.
var posted = []string{"Placings", "Judge review", "Draft reasons", "Summary"}

func (d document) hold(t *testing.T, pages []printedPage) {
	const smallest, tolerance, edge, fewestWords = 9.0, 0.05, 18.0, 20
	if len(pages) == 0 || len(pages) > d.most {
		t.Errorf("%d pages, at most %d were wanted", len(pages), d.most)
	}
	guides := 0
	for number, page := range pages {
		if page.sheet == "" {
			continue // the plant's own sheet prints as it came
		}
		name := fmt.Sprintf("page %d (%s)", number+1, page.sheet)
		if page.sheet == "Column guide" {
			guides++
		}
		if len(page.words) < fewestWords {
			t.Errorf("%s has only %d words", name, len(page.words))
		}
		for _, word := range page.words {
			if (d.large && page.sheet != "Column guide" || slices.Contains(posted, page.sheet)) && word.size() < smallest-tolerance {
				t.Errorf("%s: %q is in type of %.1f points", name, word.text, word.size())
				break
			}
			if word.left < edge || word.right > page.wide-edge {
				t.Errorf("%s: %q stands off the page, at %.0f to %.0f of %.0f points", name, word.text, word.left, word.right, page.wide)
				break
			}
		}
		if pairs := page.collisions(); len(pairs) > 0 {
			t.Errorf("%s: text runs into other text: %q", name, pairs[:min(len(pairs), 5)])
		}
	}
	if strings.Contains(d.path, "rail") && guides != 1 {
		t.Errorf("the column guide has %d pages", guides)
	}
}

// everyDocument makes every workbook that the program can make of the demos.
func everyDocument(t *testing.T) (documents []document) {
	folder := t.TempDir()
	at := func(name string) string { return filepath.Join(folder, name) }
	must := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	most := map[string]int{"fair": 14, "swine": 9, "lamb": 8, "goat": 7, "ultrasound": 8}
	var outcomes []*Outcome
	var inputs []string
	for _, name := range demos {
		data, err := os.ReadFile("../testdata/demo/" + name + ".xlsx")
		must(err)
		must(os.WriteFile(at(name+".xlsx"), data, 0o600))
		outcome, err := Grade(at(name+".xlsx"), Options{})
		must(err)
		outcomes, inputs = append(outcomes, outcome), append(inputs, at(name+".xlsx"))
		documents = append(documents, document{path: outcome.Path, most: most[name]})
		published, err := Publish(outcome.Path, Options{}, PublishOptions{})
		must(err)
		documents = append(documents,
			document{path: published.Cards.Path, most: 2 * len(published.Results.Carcasses), large: true},
			document{path: published.Public.Path, most: 5, large: true})
		blank, err := WriteBlankSheet(Options{Output: at(name + "-rail.xlsx")}, SheetOptions{Roster: at(name + ".xlsx"), Order: "roster", Ultrasound: name == "ultrasound", SpareLines: 2})
		must(err)
		documents = append(documents, document{path: blank.Path, most: 9, large: true})
	}
	signed := signedDemo(t, "fair.xlsx")
	after, err := Grade(at("fair.xlsx"), Options{LastYear: signed, Output: at("fair-after.xlsx")}) // the same animals, a year later
	must(err)
	published, err := Publish(after.Path, Options{}, PublishOptions{})
	must(err)
	documents = append(documents, document{path: after.Path, most: most["fair"] + 2}, document{path: published.Cards.Path, most: 2 * len(published.Results.Carcasses), large: true})
	documents = append(documents, document{path: signed, most: 15})
	for _, name := range []string{"rulebook.xlsx", "next.xlsx"} {
		must(NewRulebook(at(name), "", Options{}))
	}
	documents = append(documents, document{path: at("rulebook.xlsx"), most: 21})
	compared, err := CompareRulebooks(at("rulebook.xlsx"), at("next.xlsx"), []string{signed}, Options{Output: at("comparison.xlsx")})
	must(err)
	must(WriteCombined(at("together.xlsx"), inputs, outcomes, make([]error, len(inputs)), Options{}))
	return append(documents, document{path: compared.Path, most: 5}, document{path: at("together.xlsx"), most: 4})
}
