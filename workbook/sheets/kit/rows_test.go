package kit

import (
	"strings"
	"testing"
)

// A sheet that would have more rows than there can be is not written.
func TestAPageHasNoMoreRowsThanASheet(t *testing.T) {
	for row, refused := range map[int]bool{1_048_576: false, 1_048_577: true} {
		draft, err := FreshDraft("Cards")
		if err != nil {
			t.Fatal(err)
		}
		page := OpenPage(draft.NewSheet, NewLook(draft, false), PageSetup{Name: "Tag 1", Title: "Tag 1", Widths: []float64{48}})
		page.Row = row
		err = page.Close()
		if (err != nil) != refused || refused && !strings.Contains(err.Error(), "1048577 rows, and a sheet holds 1048576") {
			t.Errorf("%d rows: %v", row, err)
		}
	}
}

// What a sheet is refused for is said in words for those who have too many carcasses, also where a row too many was written.
func TestARowTooManyIsSaidInWords(t *testing.T) {
	for row, refused := range map[int]bool{1_048_575: false, 1_048_576: true} {
		draft, err := FreshDraft("Cards")
		if err != nil {
			t.Fatal(err)
		}
		page := OpenPage(draft.NewSheet, NewLook(draft, false), PageSetup{Name: "Tag 1", Title: "Tag 1", Widths: []float64{48, 12}})
		page.Row = row
		page.Across("Thanks to all who helped", Body, 1, 2)
		err = page.Close()
		if (err != nil) != refused || refused && !strings.Contains(err.Error(), "1048577 rows, and a sheet holds 1048576: grade its classes as workbooks of their own") {
			t.Errorf("written below row %d: %v", row, err)
		}
	}
}
