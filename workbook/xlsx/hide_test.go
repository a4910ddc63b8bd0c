package xlsx

import (
	"bytes"
	"testing"

	"github.com/xuri/excelize/v2"
)

// Hidden sheets have no print area any more, because LibreOffice prints a hidden sheet that has one; the others keep theirs, and
// the last sheet that can be seen stays.
func TestSheetsThatAreNotPrintedAreHidden(t *testing.T) {
	file := excelize.NewFile()
	defer file.Close()
	for _, name := range []string{"Entries & notes", "Rail"} {
		if _, err := file.NewSheet(name); err != nil {
			t.Fatal(err)
		}
		area := &excelize.DefinedName{Name: "_xlnm.Print_Area", RefersTo: "'" + name + "'!$A$1:$B$9", Scope: name}
		if err := file.SetDefinedName(area); err != nil {
			t.Fatal(err)
		}
	}
	var data bytes.Buffer
	if err := file.Write(&data); err != nil {
		t.Fatal(err)
	}
	book, err := OpenBytes("fair.xlsx", data.Bytes(), OpenOptions{})
	if err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		hide  []string
		seen  []string
		areas int
	}{
		{[]string{"Entries & notes"}, []string{"Sheet1", "Rail"}, 1},
		{[]string{"Sheet1", "none of these"}, []string{"Entries & notes", "Rail"}, 2},
		{[]string{"Sheet1", "Entries & notes", "Rail"}, []string{"Sheet1", "Entries & notes", "Rail"}, 2},
		{nil, []string{"Sheet1", "Entries & notes", "Rail"}, 2},
	} {
		made, err := book.WithHidden(test.hide...)
		if err != nil {
			t.Fatal(err)
		}
		copied, err := excelize.OpenReader(bytes.NewReader(made))
		if err != nil {
			t.Fatal(err)
		}
		var seen []string
		for _, name := range copied.GetSheetList() {
			if visible, err := copied.GetSheetVisible(name); err == nil && visible {
				seen = append(seen, name)
			}
		}
		if got := len(copied.GetDefinedName()); got != test.areas {
			t.Errorf("%q hidden: %d print areas, want %d", test.hide, got, test.areas)
		}
		if len(seen) != len(test.seen) {
			t.Errorf("%q hidden: %q are seen, want %q", test.hide, seen, test.seen)
		}
	}
}
