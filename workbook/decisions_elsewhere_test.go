package workbook

import (
	"testing"

	"railbook/rules/measure"

	"github.com/xuri/excelize/v2"
)

// What a finding advises can be done: mark what a remark names, choose between two cells of one measure, and say in a dark
// cutter's own row how far its grade is lowered.
func TestDecisionsAboutAnotherCellAreApplied(t *testing.T) {
	path := smallFair(t)
	edit(t, path, path, func(file *excelize.File) {
		for cell, value := range map[string]any{
			"K1": "Trimmed", "L1": "Dark cutter", "M1": "Hot weight", "N1": "Remarks",
			"N2": "left round trimmed 4 lb", "L3": "x", "M4": 764,
		} {
			put(t, file, "Sheet1", cell, value)
		}
	})
	first, err := Grade(path, Options{})
	if err != nil {
		t.Fatal(err)
	}
	edit(t, first.Path, first.Path, func(file *excelize.File) {
		decideAt(t, file, "Sheet1", "N2", "yes")
		decideAt(t, file, "Sheet1", "L3", "1/3")
		decideAt(t, file, "Sheet1", "M4", "764")
	})
	second, err := Grade(first.Path, Options{})
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range map[int]struct {
		measure measure.ID
		value   string
	}{0: {measure.Trimmed, "yes"}, 1: {measure.DarkCutterLowering, "1/3"}, 2: {measure.HotCarcassWeight, "764"}} {
		if got := second.Results.Read.Carcasses[i].ReadingOf(want.measure).Value.Text; got != want.value {
			t.Errorf("%s is %q, want %q", want.measure, got, want.value)
		}
	}
	for _, decision := range second.Results.Decisions {
		if decision.Refused || !decision.Applied {
			t.Errorf("the decision on %s was not applied", decision.Measure)
		}
	}
	third, err := Grade(second.Path, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if !third.Same {
		t.Error("nothing was changed, and it was graded again")
	}
}

// A spreadsheet program makes a date of 1/3 and a number of 0412, where it is not told that a cell holds text.
func TestCorrectedValueKeepsWhatIsTyped(t *testing.T) {
	path := smallFair(t)
	edit(t, path, path, func(file *excelize.File) {
		put(t, file, "Sheet1", "K1", "Dark cutter")
		put(t, file, "Sheet1", "K3", "x")
		put(t, file, "Sheet1", "A4", "A101")
		put(t, file, "Sheet1", "G5", 136)
	})
	first, err := Grade(path, Options{})
	if err != nil {
		t.Fatal(err)
	}
	edit(t, first.Path, first.Path, func(file *excelize.File) {
		for at, want := range map[string]bool{"K3": true, "A4": true, "G5": false} {
			decideAt(t, file, "Sheet1", at, "typed")
			cells, err := file.SearchSheet("Judge review", "typed")
			if err != nil || len(cells) != 1 {
				t.Fatalf("%v, %v", cells, err)
			}
			id, err := file.GetCellStyle("Judge review", cells[0])
			if err != nil {
				t.Fatal(err)
			}
			look, err := file.GetStyle(id)
			if err != nil {
				t.Fatal(err)
			}
			if got := look.NumFmt == 49 || look.CustomNumFmt != nil && *look.CustomNumFmt == "@"; got != want {
				t.Errorf("the corrected value of %s is kept as text: %v, want %v", at, got, want)
			}
			put(t, file, "Judge review", cells[0], "")
		}
	})
}
