package workbook

import (
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"railbook/rules/address"
	"railbook/workbook/sheets/kit"
)

// No text of a document is wider than the room it has: a text on one line ends before the next filled cell, a wrapped one has
// no word wider than its column and a row as tall as its lines. Letters are as wide as the typeface says, columns as narrow as
// the narrowest typeface of a workbook makes them.
func TestNoTextIsWiderThanItsCell(t *testing.T) {
	texts, plants := 0, plantsSheets(t)
	for _, path := range documentsToRead(t) {
		file, err := excelize.OpenFile(path)
		if err != nil {
			t.Fatal(err)
		}
		for _, sheet := range file.GetSheetList() {
			if visible, err := file.GetSheetVisible(sheet); err != nil || !visible || slices.Contains(plants, sheet) {
				continue
			}
			fitted := fittedSheet{writtenSheet: writtenSheet{file: file, name: sheet}, unit: letterOf(t, file)}
			if fitted.rows, err = file.GetRows(sheet); err != nil {
				t.Fatal(err)
			}
			fitted.measure(t)
			for i := range fitted.rows[:fitted.last] {
				for j, text := range fitted.rows[i] {
					if text == "" || fitted.widths[j] == 0 || fitted.hiddenRow(t, i) {
						continue
					}
					texts++
					if why := fitted.fault(t, j, i, text); why != "" {
						t.Errorf("%s, %s %s: %s: %s", filepath.Base(path), sheet, cellName(j, i), why, text)
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

// fittedSheet is a sheet with what room each of its cells has.
type fittedSheet struct {
	writtenSheet
	unit   float64         // points of a column's unit
	widths map[int]float64 // points of each column that is shown, from 0
	merged map[string][2]int
	styles map[int]cellStyle
	last   int // the last row that is printed; what stands below is the figures of charts
}

// plantsWords are the columns, from 1, with what the plant wrote, in which a long word may be broken.
var plantsWords = map[string]int{"Judge review": 6, "Error log": 8, "Findings": 9}

type cellStyle struct {
	size       float64
	bold, wrap bool
	indent     float64 // points
	ranges     bool    // its number format is one of several, by the number, which the library does not tell apart
	aside      bool    // to the right or in the middle: it does not run over the cells to its right
}

// letterOf gives the points of a unit of a column's width: of a digit of the workbook's own typeface, which is 7 pixels wide in
// Calibri 11 and 8 in Arial 11 (ECMA-376 part 1, 18.3.1.13, at 96 pixels an inch).
func letterOf(t *testing.T, file *excelize.File) float64 {
	t.Helper()
	font, err := file.GetDefaultFont()
	if err != nil {
		t.Fatal(err)
	}
	if font == "Arial" {
		return 6
	}
	return 5.25
}

func (s *fittedSheet) measure(t *testing.T) {
	t.Helper()
	s.widths, s.merged, s.styles = map[int]float64{}, map[string][2]int{}, map[int]cellStyle{}
	const columns = 30 // more than a table of ours has
	for column := range columns + 1 {
		if s.hiddenColumn(t, column) {
			continue
		}
		width, err := s.file.GetColWidth(s.name, address.Column(column+1))
		if err != nil {
			t.Fatal(err)
		}
		s.widths[column] = width * s.unit
	}
	s.last = len(s.rows)
	for _, name := range s.file.GetDefinedName() {
		if name.Scope == s.name && name.Name == "_xlnm.Print_Area" {
			_, end, _ := strings.Cut(strings.ReplaceAll(name.RefersTo, "$", ""), ":")
			_, row, err := excelize.CellNameToCoordinates(end)
			if err != nil {
				t.Fatal(err)
			}
			s.last = min(s.last, row)
		}
	}
	spans, err := s.file.GetMergeCells(s.name)
	if err != nil {
		t.Fatal(err)
	}
	for _, span := range spans {
		from, _, _ := excelize.CellNameToCoordinates(span.GetStartAxis())
		to, _, _ := excelize.CellNameToCoordinates(span.GetEndAxis())
		s.merged[span.GetStartAxis()] = [2]int{from - 1, to - 1}
	}
}

func (s *fittedSheet) styleOf(t *testing.T, column, row int) cellStyle {
	t.Helper()
	id := s.style(t, column, row)
	known, there := s.styles[id]
	if there {
		return known
	}
	style, err := s.file.GetStyle(id)
	if err != nil {
		t.Fatal(err)
	}
	known = cellStyle{size: 10}
	if style.Font != nil {
		known.size, known.bold = style.Font.Size, style.Font.Bold
	}
	known.ranges = style.CustomNumFmt != nil && strings.Contains(*style.CustomNumFmt, "[")
	if style.Alignment != nil {
		known.wrap, known.indent = style.Alignment.WrapText, 7*float64(style.Alignment.Indent)
		known.aside = style.Alignment.Horizontal == "right" || style.Alignment.Horizontal == "center"
	}
	s.styles[id] = known
	return known
}

// fault says what does not fit of a cell's text; empty where all does.
func (s *fittedSheet) fault(t *testing.T, column, row int, text string) string {
	t.Helper()
	const slack = 1.02 // a program sets letters on whole pixels
	style := s.styleOf(t, column, row)
	wide := func(text string) float64 {
		role := kit.Body
		if style.bold {
			role = kit.Strong
		}
		return kit.TextWidth(strings.TrimSpace(text), role) * style.size / 10
	}
	first, last := column, column
	if span, merged := s.merged[cellName(column, row)]; merged {
		first, last = span[0], span[1]
	}
	kind, err := s.file.GetCellType(s.name, cellName(column, row))
	if err != nil {
		t.Fatal(err)
	}
	number := kind == excelize.CellTypeUnset || kind == excelize.CellTypeNumber
	if number && style.ranges {
		return ""
	}
	if !style.wrap && !style.aside && !number { // it runs over the empty cells to its right
		for last+1 < len(s.rows[row]) && s.rows[row][last+1] == "" {
			last++
		}
		if last+1 >= len(s.rows[row]) {
			return ""
		}
	}
	room := -style.indent
	for at := first; at <= last; at++ {
		room += s.widths[at]
	}
	if !style.wrap {
		if wide(text) > room*slack {
			return "the text is wider than its cell"
		}
		return ""
	}
	for _, word := range strings.Fields(text) {
		if wide(word) > room*slack && plantsWords[s.name] != column+1 {
			return "the word " + word + " is wider than its column"
		}
	}
	lines := 0
	for _, paragraph := range strings.Split(text, "\n") {
		used := 0.0
		lines++
		for _, word := range strings.Fields(paragraph) {
			if used > 0 && used+wide(word) > room*slack {
				lines, used = lines+1, 0
			}
			used += wide(word) + wide("n")/2
		}
	}
	height, err := s.file.GetRowHeight(s.name, row+1)
	if err != nil {
		t.Fatal(err)
	}
	if height < min(float64(lines)*style.size*1.15, 409) {
		return "the row is less tall than its words"
	}
	return ""
}
