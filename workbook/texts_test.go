package workbook

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

// What the documents of every demo say: every number with the zero before its point and the minus of the keyboard, as the number
// formats of the tables have them, and no column that says the same in every row.
func TestEveryDocumentSaysNumbersOneWayAndNothingInEveryRow(t *testing.T) {
	texts, columns, plants := 0, 0, plantsSheets(t)
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
			page := writtenSheet{file: file, name: sheet}
			if page.rows, err = file.GetRows(sheet); err != nil {
				t.Fatal(err)
			}
			for i, row := range page.rows {
				for j, text := range row {
					texts++
					if found := writtenOtherwise(text); found != "" {
						t.Errorf("%s, %s %s: %q is not written as other numbers are: %s", name, sheet, cellName(j, i), found, text)
					}
				}
			}
			same, held := page.idleColumns(t)
			columns += held
			for _, column := range same {
				if saidInEveryRow[sheet+", "+column.heading] == "" {
					t.Errorf("%s, %s: the column %q says %q in every row", name, sheet, column.heading, column.says)
				}
			}
		}
		if err := file.Close(); err != nil {
			t.Fatal(err)
		}
	}
	t.Logf("%d texts, %d columns", texts, columns)
	if texts < 2000 || columns < 50 {
		t.Error("that is too few to say anything")
	}
}

// saidInEveryRow are the columns that may say the same in every row, and why.
var saidInEveryRow = map[string]string{
	"Judge review, State":      "each row says it anew as the judge settles it",
	"Findings, State":          "each row says it anew as the judge settles it",
	"Value grid, Species":      "the board adds lines for other species below",
	"Classes, Class":           "the board adds lines for classes of its own",
	"Classes, Source":          "the board writes its own source beside what it changes",
	"Headings, Source":         "the board writes its own source beside what it adds",
	"Ties and limits, Ranking": "another fair's classes are ranked by others, and the lines keep their sense when they are sorted",
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
		for _, document := range everyDocument(t) {
			paths = append(paths, document.path)
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

// writtenSheet is a sheet of ours as it was written.
type writtenSheet struct {
	file     *excelize.File
	name     string
	rows     [][]string
	headings map[int]bool // by style
	unlocked map[int]bool
}

type idleColumn struct{ heading, says string }

// idleColumns gives the columns of tables of five rows and more that say the same in every row, but for those that people fill
// in, and how many were held.
func (s *writtenSheet) idleColumns(t *testing.T) (same []idleColumn, held int) {
	t.Helper()
	const fewestRows = 5
	s.headings, s.unlocked = map[int]bool{}, map[int]bool{}
	for i, row := range s.rows {
		for j, heading := range row {
			if heading == "" || !s.isHeading(t, j, i) || s.hiddenColumn(t, j) {
				continue
			}
			held++
			says, filled, every := "", 0, true
			for down := i + 1; down < len(s.rows) && every && !s.headingRow(t, down); down++ {
				line := s.rows[down]
				if count := filledCells(line); count < 2 || s.hiddenRow(t, down) {
					continue // a band, a remark or a blank line
				}
				switch {
				case j >= len(line) || line[j] == "" || filled > 0 && line[j] != says || s.isUnlocked(t, j, down):
					every = false
				default:
					says = line[j]
				}
				filled++
			}
			if every && filled >= fewestRows {
				same = append(same, idleColumn{heading, says})
			}
		}
	}
	return same, held
}

func (s *writtenSheet) hiddenColumn(t *testing.T, column int) bool {
	t.Helper()
	letters, _ := excelize.ColumnNumberToName(column + 1)
	visible, err := s.file.GetColVisible(s.name, letters)
	if err != nil {
		t.Fatal(err)
	}
	return !visible
}

func (s *writtenSheet) hiddenRow(t *testing.T, row int) bool {
	t.Helper()
	visible, err := s.file.GetRowVisible(s.name, row+1)
	if err != nil {
		t.Fatal(err)
	}
	return !visible
}

func filledCells(row []string) (count int) {
	for _, text := range row {
		if text != "" {
			count++
		}
	}
	return count
}

func (s *writtenSheet) headingRow(t *testing.T, row int) bool {
	for column, text := range s.rows[row] {
		if text != "" {
			return s.isHeading(t, column, row)
		}
	}
	return false
}

// isHeading reports whether a cell has the two rules of a heading, one above and a stronger one below.
func (s *writtenSheet) isHeading(t *testing.T, column, row int) bool {
	id := s.style(t, column, row)
	heading, known := s.headings[id]
	if !known {
		style, err := s.file.GetStyle(id)
		if err != nil {
			t.Fatal(err)
		}
		sides := ""
		for _, border := range style.Border {
			sides += fmt.Sprint(border.Type, border.Style)
		}
		heading = strings.Contains(sides, "top1") && strings.Contains(sides, "bottom2")
		s.headings[id] = heading
		s.unlocked[id] = style.Protection != nil && !style.Protection.Locked
	}
	return heading
}

// isUnlocked reports whether people fill a cell in.
func (s *writtenSheet) isUnlocked(t *testing.T, column, row int) bool {
	s.isHeading(t, column, row)
	return s.unlocked[s.style(t, column, row)]
}

func (s *writtenSheet) style(t *testing.T, column, row int) int {
	t.Helper()
	id, err := s.file.GetCellStyle(s.name, cellName(column, row))
	if err != nil {
		t.Fatal(err)
	}
	return id
}
