package workbook

import (
	"archive/zip"
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"railbook/workbook/record"

	"github.com/xuri/excelize/v2"
)

// What makes a signed page print otherwise is said, though every cell says the same; what is only seen on the screen is not.
func TestWhatPrintsOtherwiseIsSaid(t *testing.T) {
	signed := signedFair(t)
	for name, row := range map[string]struct {
		change func(t *testing.T, file *excelize.File) error
		want   string // empty: nothing is said
	}{
		"a hidden row": {func(_ *testing.T, file *excelize.File) error {
			return file.SetRowVisible(record.PlacingsSheet, 7, false)
		}, "row 7 is hidden"},
		"a hidden column": {func(_ *testing.T, file *excelize.File) error {
			return file.SetColVisible(record.PlacingsSheet, "D", false)
		}, "column D is hidden"},
		"another number format": {func(t *testing.T, file *excelize.File) error {
			style, err := file.NewStyle(&excelize.Style{NumFmt: 9})
			if err != nil {
				return err
			}
			cell := numberCell(t, file, record.SummarySheet)
			return file.SetCellStyle(record.SummarySheet, cell, cell, style)
		}, `and is now "0%"`},
		"a conditional format": {func(_ *testing.T, file *excelize.File) error {
			format, err := file.NewConditionalStyle(&excelize.Style{Font: &excelize.Font{Color: "FFFFFF"}})
			if err != nil {
				return err
			}
			return file.SetConditionalFormat(record.PlacingsSheet, "A6:C12", []excelize.ConditionalFormatOptions{{Type: "cell", Criteria: ">", Value: "0", Format: &format}})
		}, "a conditional format stands on A6:C12"},
		"a filter": {func(_ *testing.T, file *excelize.File) error { return file.AutoFilter("Sheet1", "A1:J13", nil) }, ""},
		"a width": {func(_ *testing.T, file *excelize.File) error {
			return file.SetColWidth(record.PlacingsSheet, "A", "C", 30)
		}, ""},
		"a hidden data column": {func(_ *testing.T, file *excelize.File) error { return file.SetColVisible("Sheet1", "H", false) }, ""},
		"a hidden data row":    {func(_ *testing.T, file *excelize.File) error { return file.SetRowVisible("Sheet1", 4, false) }, ""},
	} {
		t.Run(name, func(t *testing.T) {
			edited := filepath.Join(t.TempDir(), "edited.xlsx")
			edit(t, signed, edited, func(file *excelize.File) {
				if err := row.change(t, file); err != nil {
					t.Fatal(err)
				}
			})
			wantOneDifference(t, edited, row.want)
		})
	}
	t.Run("what was hidden is shown", func(t *testing.T) {
		hidden, shown := filepath.Join(t.TempDir(), "hidden.xlsx"), filepath.Join(t.TempDir(), "shown.xlsx")
		show := func(from, to string, visible bool) {
			edit(t, from, to, func(file *excelize.File) {
				if err := errors.Join(file.SetRowVisible("Sheet1", 4, visible), file.SetColVisible("Sheet1", "H", visible)); err != nil {
					t.Fatal(err)
				}
			})
		}
		show(smallFair(t), hidden, false)
		again, err := Sign(gradedAgain(t, hidden).Path, "Hedda Quince", "2025-08-22", Options{})
		if err != nil {
			t.Fatal(err)
		}
		show(again.Path, shown, true)
		wantOneDifference(t, shown, "")
	})
	t.Run("the title of a chart", func(t *testing.T) {
		edited := filepath.Join(t.TempDir(), "edited.xlsx")
		retitled(t, signed, edited)
		wantOneDifference(t, edited, "of a chart was changed or is gone")
	})
}

func wantOneDifference(t *testing.T, path, want string) {
	t.Helper()
	found, err := Verify(path, Options{})
	if err != nil {
		t.Fatal(err)
	}
	switch {
	case want == "" && len(found.Differences) > 0:
		t.Errorf("said: %s", found.Report())
	case want != "" && (len(found.Differences) != 1 || !strings.Contains(found.Differences[0].Message, want) || !strings.Contains(found.Differences[0].Message, "prints otherwise")):
		t.Errorf("no %q alone in %s", want, found.Report())
	}
}

// numberCell gives a cell of a sheet that holds a number.
func numberCell(t *testing.T, file *excelize.File, sheet string) string {
	t.Helper()
	rows, err := file.GetRows(sheet)
	if err != nil {
		t.Fatal(err)
	}
	for number, row := range rows {
		for column, value := range row {
			cell, _ := excelize.CoordinatesToCellName(column+1, number+1)
			if kind, _ := file.GetCellType(sheet, cell); value != "" && (kind == excelize.CellTypeUnset || kind == excelize.CellTypeNumber) {
				return cell
			}
		}
	}
	t.Fatalf("no number on %s", sheet)
	return ""
}

// retitled copies a workbook with another title on its first chart.
func retitled(t *testing.T, from, to string) {
	t.Helper()
	archive, err := zip.OpenReader(from)
	if err != nil {
		t.Fatal(err)
	}
	defer archive.Close()
	var out bytes.Buffer
	writer := zip.NewWriter(&out)
	title := regexp.MustCompile(`<a:t>[^<]+</a:t>`)
	done := false
	for _, part := range archive.File {
		source, err := part.Open()
		if err != nil {
			t.Fatal(err)
		}
		var data bytes.Buffer
		if _, err := data.ReadFrom(source); err != nil {
			t.Fatal(err)
		}
		text := data.Bytes()
		if at := title.FindIndex(text); !done && at != nil && strings.HasPrefix(part.Name, "xl/charts/") {
			done = true
			text = bytes.Replace(text, text[at[0]:at[1]], []byte("<a:t>The best fair of all</a:t>"), 1)
		}
		into, err := writer.Create(part.Name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := into.Write(text); err != nil {
			t.Fatal(err)
		}
	}
	if err := writer.Close(); err != nil {
		t.Fatal(err)
	}
	if !done {
		t.Fatal("there is no chart with a title")
	}
	if err := os.WriteFile(to, out.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
}
