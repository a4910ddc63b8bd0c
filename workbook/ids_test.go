package workbook

import (
	"testing"

	"railbook/rules/measure"

	"github.com/xuri/excelize/v2"
)

// A carcass keeps the id that it was given once, whatever becomes of its row, its tag and those of the others; a new one gets one
// that no other has had.
func TestACarcassKeepsItsID(t *testing.T) {
	first := gradedAgain(t, fairOf(t, 6))
	ids := map[string]int{}
	for _, carcass := range first.Results.Carcasses {
		ids[carcass.ReadingOf(measure.Exhibitor).Value.Text] = carcass.ID
	}
	edit(t, first.Path, first.Path, func(file *excelize.File) {
		put(t, file, "Sheet1", "A4", "A777")
		if err := file.RemoveRow("Sheet1", 3); err != nil {
			t.Fatal(err)
		}
		if err := file.InsertRows("Sheet1", 2, 1); err != nil {
			t.Fatal(err)
		}
		for column, value := range []any{"A199", "Light steers", "Exhibitor Z", 1230, 770, .31, 14.9, 2, 500, "A60"} {
			letters, _ := excelize.ColumnNumberToName(column + 1)
			put(t, file, "Sheet1", letters+"2", value)
		}
	})
	second := gradedAgain(t, first.Path)
	third := gradedAgain(t, second.Path)
	if !third.Same {
		t.Error("nothing was changed, and it was graded again")
	}
	for _, outcome := range []*Outcome{second, third} {
		for _, carcass := range outcome.Results.Carcasses {
			name := carcass.ReadingOf(measure.Exhibitor).Value.Text
			want := ids[name]
			if name == "Exhibitor Z" {
				want = 7
			}
			if carcass.ID != want {
				t.Errorf("the carcass of %s, tag %s, has id %d and had %d", name, carcass.Tag, carcass.ID, want)
			}
		}
	}
}
