package workbook

import (
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"
	"pgregory.net/rapid"

	"railbook/grading"
	"railbook/validate"
	"railbook/workbook/reading"
	"railbook/workbook/writing"
)

// slips are wrong cells of the small fair that are held, by column; each figure is invented.
var slips = map[string]struct {
	measure string
	wrong   any
}{
	"D": {"live weight", 130}, "E": {"hot carcass weight", 7800}, "F": {"measured fat", 4},
	"G": {"ribeye area", 136}, "H": {"kidney, pelvic and heart fat", 25}, "I": {"marbling", "S? 40"},
}

// A correction by decision gives the same figures and places as a workbook that had the right value from the start, and
// grading again with nothing changed writes nothing.
func TestCorrectionEqualsRightFromTheStart(t *testing.T) {
	if testing.Short() {
		t.Skip("a hundred fairs graded three times over")
	}
	path := smallFair(t)
	right, err := Grade(path, Options{})
	if err != nil {
		t.Fatal(err)
	}
	want := figuresOf(right.Results)
	rapid.Check(t, func(r *rapid.T) {
		folder := t.TempDir()
		wrong := fmt.Sprintf("%s/wrong.xlsx", folder)
		slipped := map[string]string{} // tag and measure → the right value
		edit(t, path, wrong, func(file *excelize.File) {
			for range rapid.IntRange(1, 3).Draw(r, "slips") {
				row := rapid.IntRange(2, 13).Draw(r, "row")
				column := rapid.SampledFrom([]string{"D", "E", "F", "G", "H", "I"}).Draw(r, "column")
				tag, _ := file.GetCellValue("Sheet1", fmt.Sprintf("A%d", row))
				cell := fmt.Sprintf("%s%d", column, row)
				if _, already := slipped[tag]; already {
					continue
				}
				value, _ := file.GetCellValue("Sheet1", cell)
				slipped[tag] = value
				put(t, file, "Sheet1", cell, slips[column].wrong)
				slipped[tag+slips[column].measure] = value
			}
		})
		first, err := Grade(wrong, Options{})
		if err != nil {
			r.Fatal(err)
		}
		decided := 0
		edit(t, first.Path, first.Path, func(file *excelize.File) { decided = correctAll(t, file, slipped) })
		second, err := Grade(first.Path, Options{Date: "2025-08-21"})
		if err != nil {
			r.Fatal(err)
		}
		if difference := cmp.Diff(want, figuresOf(second.Results)); difference != "" {
			r.Fatalf("%d decisions on %v (-right from the start +corrected):\n%s", decided, slipped, difference)
		}
		again, err := Grade(second.Path, Options{})
		if err != nil {
			r.Fatal(err)
		}
		if !again.Same {
			r.Fatalf("grading %s again was taken for a change", second.Path)
		}
	})
}

// correctAll gives each held slip its right value on the review sheet, and accepts whatever else is asked.
func correctAll(t *testing.T, file *excelize.File, slipped map[string]string) (decided int) {
	t.Helper()
	rows, err := file.GetRows(reading.JudgeReviewSheet)
	if err != nil {
		t.Fatal(err)
	}
	var headings map[string]int
	for number, row := range rows {
		if len(row) > 0 && row[0] == "Class" {
			headings = map[string]int{}
			for column, words := range row {
				headings[words] = column
			}
			continue
		}
		if headings == nil || len(row) <= headings[reading.KeyMeasureColumn] || row[headings[reading.KeyRowColumn]] != "finding" {
			continue
		}
		write := func(column, value string) {
			cell, _ := excelize.CoordinatesToCellName(headings[column]+1, number+1)
			if err := file.SetCellStr(reading.JudgeReviewSheet, cell, value); err != nil {
				t.Fatal(err)
			}
		}
		write(reading.InitialsColumn, "HQ")
		if value, ours := slipped[row[headings["Tag"]]+row[headings[reading.KeyMeasureColumn]]]; ours {
			write(reading.DecisionColumn, string(validate.Correct))
			write(reading.CorrectedColumn, value)
			decided++
		} else {
			write(reading.DecisionColumn, string(validate.Accept))
		}
	}
	return decided
}

// figuresOf lists every place and figure of the results, carcass by carcass.
func figuresOf(results *writing.Results) map[string]string {
	list := make(map[string]string)
	add := func(class grading.ClassPlacing, graded *grading.Graded, place string) {
		words := place
		for _, column := range grading.Columns(class.Species, class.Basis) {
			value, _ := graded.Figure(column.Measure)
			words += " | " + value.Text
		}
		list[class.Class+" "+graded.Tag] = words
	}
	for _, class := range results.Placings.Classes {
		for _, placed := range class.Placed {
			add(class, placed.Graded, fmt.Sprint(placed.Place))
		}
		for _, left := range class.Left {
			add(class, left.Graded, left.Reason)
		}
	}
	return list
}
