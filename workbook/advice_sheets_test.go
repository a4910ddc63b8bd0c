package workbook

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"railbook/rules"
	"railbook/rules/address"
	"railbook/rules/measure"

	"github.com/xuri/excelize/v2"
)

// adviceSheet is a workbook whose findings are followed: a layout, or an example of the page on reading.
type adviceSheet struct {
	name    string
	path    string
	options Options
	example bool
}

// adviceSheets gives every example of the page on reading, and every layout.
func adviceSheets(t *testing.T) (sheets []adviceSheet) {
	t.Helper()
	page, err := os.ReadFile(filepath.Join("intake", "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	folder := t.TempDir()
	_, list, _ := strings.Cut(string(page), "## What may be found")
	for number, part := range strings.Split(list, "\n### ")[1:] {
		if sheet, ok := drawExample(t, filepath.Join(folder, strconv.Itoa(number)), part); ok {
			sheets = append(sheets, sheet)
		}
	}
	files, err := filepath.Glob("../testdata/layouts/*.[xct]*")
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range files {
		name := filepath.Base(file)
		if strings.HasSuffix(name, ".expected.csv") || strings.HasSuffix(name, ".findings.csv") {
			continue
		}
		options := Options{Species: speciesOfLayout[strings.TrimSuffix(name, filepath.Ext(name))]}
		sheets = append(sheets, adviceSheet{name: name, path: file, options: options})
	}
	if len(sheets) < 130 {
		t.Fatalf("only %d sheets", len(sheets))
	}
	return sheets
}

// speciesOfLayout is what an office says on the command line for a sheet that does not say it.
var speciesOfLayout = map[string]rules.Species{"inspector-comments": rules.Beef}

var (
	exampleBlock  = regexp.MustCompile("(?s)```(\\w+)([^\n]*)\n(.*?)```")
	exampleOption = regexp.MustCompile(`--(\w+) (?:"([^"]*)"|(\S+))`)
)

// drawExample makes workbooks of the sheets of one section of the page.
func drawExample(t *testing.T, folder, part string) (adviceSheet, bool) {
	t.Helper()
	name, _, _ := strings.Cut(part, "\n")
	sheet := adviceSheet{name: name, example: true, options: Options{Columns: map[measure.ID]string{}}}
	if err := os.MkdirAll(folder, 0o700); err != nil {
		t.Fatal(err)
	}
	first, second := excelize.NewFile(), excelize.NewFile()
	defer first.Close()
	defer second.Close()
	drawn := 0
	for _, block := range exampleBlock.FindAllStringSubmatch(part, -1) {
		title, hidden := strings.CutSuffix(strings.TrimSpace(exampleOption.ReplaceAllString(block[2], "")), "(hidden)")
		if title = strings.TrimSpace(title); title == "" {
			title = "Steers"
		}
		for _, said := range exampleOption.FindAllStringSubmatch(block[2], -1) {
			if said[1] == "species" {
				sheet.options.Species = rules.Species(said[3])
			} else if heading, text, ok := strings.Cut(said[2], "="); ok {
				sheet.options.Columns[measure.Standard().ByName(heading)] = text
			}
		}
		switch block[1] {
		case "sheet":
			drawn++
			drawExampleSheet(t, first, title, block[3], hidden)
		case "csv":
			sheet.path = filepath.Join(folder, title+".csv")
			if err := os.WriteFile(sheet.path, []byte(block[3]), 0o600); err != nil {
				t.Fatal(err)
			}
			return sheet, true
		case "second":
			drawExampleSheet(t, second, title, block[3], hidden)
			sheet.options.Second = filepath.Join(folder, "second.xlsx")
			saveExample(t, second, sheet.options.Second)
		}
	}
	sheet.path = filepath.Join(folder, "fair.xlsx")
	if drawn > 0 {
		saveExample(t, first, sheet.path)
	}
	return sheet, drawn > 0
}

func saveExample(t *testing.T, file *excelize.File, path string) {
	t.Helper()
	if slices.Contains(file.GetSheetList(), "Sheet1") {
		if err := file.DeleteSheet("Sheet1"); err != nil {
			t.Fatal(err)
		}
	}
	if err := file.SaveAs(path); err != nil {
		t.Fatal(err)
	}
}

// drawExampleSheet draws one sheet: what stands in brackets says what plain text can't.
func drawExampleSheet(t *testing.T, file *excelize.File, title, lines string, hidden bool) {
	t.Helper()
	must := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	_, err := file.NewSheet(title)
	must(err)
	struck, err := file.NewStyle(&excelize.Style{Font: &excelize.Font{Strike: true}})
	must(err)
	for number, line := range strings.Split(strings.Trim(lines, "\n"), "\n") {
		row := number + 1
		line, rowHidden := strings.CutPrefix(line, "(hidden) ")
		line, rowStruck := strings.CutPrefix(line, "(struck out) ")
		if rowHidden {
			must(file.SetRowVisible(title, row, false))
		}
		for column, text := range strings.Split(line, "|") {
			cell := address.Cell(column+1, row)
			text = strings.TrimPrefix(strings.TrimSpace(text), "'")
			if said, attached, ok := strings.Cut(text, " (comment: "); ok {
				text = said
				must(file.AddComment(title, excelize.Comment{Cell: cell, Author: "office", Text: strings.TrimSuffix(attached, ")")}))
			}
			day, isDate := strings.CutSuffix(text, " (a date)")
			headed, columnHidden := strings.CutSuffix(text, " (hidden column)")
			switch {
			case text == "":
				continue
			case isDate:
				date, err := time.Parse(time.DateOnly, day)
				must(err)
				put(t, file, title, cell, date)
			case columnHidden:
				put(t, file, title, cell, headed)
				name, err := excelize.ColumnNumberToName(column + 1)
				must(err)
				must(file.SetColVisible(title, name, false))
			case text == "(a formula)":
				must(file.SetCellFormula(title, cell, "800+12"))
			case text == "(merged with the cell above)":
				must(file.MergeCell(title, address.Cell(column+1, row-1), cell))
			case looksLikeNumber.MatchString(text):
				number, err := strconv.ParseFloat(text, 64)
				must(err)
				put(t, file, title, cell, number)
			default:
				put(t, file, title, cell, text)
			}
			if rowStruck {
				must(file.SetCellStyle(title, cell, cell, struck))
			}
		}
	}
	if hidden {
		must(file.SetSheetVisible(title, false))
	}
}
