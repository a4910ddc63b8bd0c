package workbook

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

// What the documents of every demo say: every number with the zero before its point and the minus of the keyboard, as the number
// formats of the tables have them.
func TestEveryDocumentWritesNumbersOneWay(t *testing.T) {
	texts, plants := 0, plantsSheets(t)
	for _, path := range documentsToRead(t) {
		file, err := excelize.OpenFile(path)
		if err != nil {
			t.Fatal(err)
		}
		name := filepath.Base(path)
		for _, sheet := range file.GetSheetList() {
			if visible, err := file.GetSheetVisible(sheet); err != nil || !visible || slices.Contains(plants, sheet) {
				continue
			}
			rows, err := file.GetRows(sheet)
			if err != nil {
				t.Fatal(err)
			}
			for i, row := range rows {
				for j, text := range row {
					texts++
					if found := writtenOtherwise(text); found != "" {
						t.Errorf("%s, %s %s: %q is not written as other numbers are: %s", name, sheet, cellName(j, i), found, text)
					}
				}
			}
		}
		if err := file.Close(); err != nil {
			t.Fatal(err)
		}
	}
	t.Logf("%d texts", texts)
	if texts < 2000 {
		t.Error("that is too few to say anything")
	}
}

var (
	asQuoted    = regexp.MustCompile(`'[^' ]*'|"[^"]*"?"`)
	withoutZero = regexp.MustCompile(`(?:^|[^0-9A-Za-z)\]./])[+-]?\.[0-9]+|−`)
)

// writtenOtherwise finds a number that is written otherwise than ours are. What is quoted stands as the plant wrote it.
func writtenOtherwise(text string) string {
	return strings.TrimSpace(withoutZero.FindString(asQuoted.ReplaceAllString(text, "")))
}

// plantsSheets names the sheets that came with the demos.
func plantsSheets(t *testing.T) (names []string) {
	t.Helper()
	for _, demo := range demos {
		file, err := excelize.OpenFile("../testdata/demo/" + demo + ".xlsx")
		if err != nil {
			t.Fatal(err)
		}
		names = append(names, file.GetSheetList()...)
		if err := file.Close(); err != nil {
			t.Fatal(err)
		}
	}
	return names
}

// documentsToRead are the documents of every demo, or, where time is short, those of one and the rulebook.
func documentsToRead(t *testing.T) (paths []string) {
	t.Helper()
	if os.Getenv("RAILBOOK_LONG") != "" {
		for _, one := range everyDocument(t) {
			paths = append(paths, one.path)
		}
		return paths
	}
	graded, rulebook := gradedDemo(t, "lamb"), filepath.Join(t.TempDir(), "rulebook.xlsx")
	published, err := Publish(graded, Options{}, PublishOptions{})
	if err != nil {
		t.Fatal(err)
	}
	if err := NewRulebook(rulebook, "", Options{}); err != nil {
		t.Fatal(err)
	}
	return []string{graded, published.Cards.Path, published.Public.Path, rulebook}
}

func cellName(column, row int) string {
	name, _ := excelize.CoordinatesToCellName(column+1, row+1)
	return name
}
