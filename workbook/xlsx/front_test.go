package xlsx

import (
	"bytes"
	"strings"
	"testing"
)

const twoViews = `<sheetViews><sheetView tabSelected="1" workbookViewId="0"/></sheetViews>`

// fronted adds a sheet of ours to a workbook whose own sheet is selected, and brings it to the front.
func fronted(t *testing.T) (before []byte, saved []byte) {
	t.Helper()
	parts := plainWorkbook(`<row r="1"><c r="A1"><v>1</v></c></row>`)
	for name, text := range parts {
		if strings.HasPrefix(name, "xl/worksheets/") {
			parts[name] = strings.Replace(text, "<sheetData>", twoViews+"<sheetData>", 1)
		}
		if name == "xl/workbook.xml" {
			parts[name] = strings.Replace(text, "<sheets>", `<bookViews><workbookView activeTab="0"/></bookViews><sheets>`, 1)
		}
	}
	book := open(t, pack(t, parts))
	before = bytes.Clone(book.contents.parts[book.sheets[0].part])
	if !bytes.Contains(before, []byte(`tabSelected="1"`)) {
		t.Fatalf("the test's own workbook has no selected sheet:\n%s", before)
	}
	name, err := book.NewSheet("Placings", "railbook_sheet_placings")
	if err != nil {
		t.Fatal(err)
	}
	if err := book.Front(name); err != nil {
		t.Fatal(err)
	}
	if saved, err = book.Bytes(); err != nil {
		t.Fatal(err)
	}
	return before, saved
}

func TestOnlyTheFrontSheetIsSelected(t *testing.T) {
	_, saved := fronted(t)
	book := open(t, saved)
	for _, sheet := range book.sheets {
		data := book.contents.parts[sheet.part]
		if selected := selectedView.Match(data); selected != (sheet.name == "Placings") {
			t.Errorf("sheet %q: selected %v", sheet.name, selected)
		}
	}
	if main := string(book.contents.parts["xl/workbook.xml"]); !strings.Contains(main, `activeTab="1"`) {
		t.Errorf("the second sheet is not in front:\n%s", main)
	}
}

func TestStripBringsBackWhatWasInFront(t *testing.T) {
	before, saved := fronted(t)
	book := open(t, saved)
	if _, err := book.Strip(); err != nil {
		t.Fatal(err)
	}
	if after := book.contents.parts[book.sheets[0].part]; !bytes.Equal(before, after) {
		t.Errorf("the user's sheet is not as it was:\n%s\n%s", before, after)
	}
	if main := string(book.contents.parts["xl/workbook.xml"]); strings.Contains(main, `activeTab="1"`) {
		t.Errorf("a sheet that is gone is in front:\n%s", main)
	}
}

func TestOnlyASheetOfOursComesToTheFront(t *testing.T) {
	book := open(t, pack(t, plainWorkbook("")))
	if err := book.Front("Sheet1"); err == nil {
		t.Error("a sheet of the user's was brought to the front")
	}
}
