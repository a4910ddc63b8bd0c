package xlsx

import (
	"bytes"
	"strings"
	"testing"
)

// ordered is a workbook of two sheets, the second with a defined name of its own, and what it looks like with a sheet of ours
// in front, one behind and columns that are not printed.
func ordered(t *testing.T, names string) (before, saved []byte) {
	t.Helper()
	parts := plainWorkbook(`<row r="1"><c r="A1"><v>1</v></c></row>`)
	for name, text := range parts {
		if name == "xl/workbook.xml" {
			text = strings.Replace(text, "<sheets>", `<bookViews><workbookView activeTab="0"/></bookViews><sheets>`, 1)
			parts[name] = strings.Replace(text, "</sheets>", "</sheets>"+names, 1)
		}
	}
	before = []byte(parts["xl/workbook.xml"])
	book := open(t, pack(t, parts))
	own := book.sheets[0].name
	if err := book.PrintTo(own, 1); err != nil {
		t.Fatal(err)
	}
	block := Appended{Sheet: own, Mark: columnsMark + "1", FirstColumn: 2, HeadingRow: 1, LastRow: 2, Headings: []string{"Grade"}, Row: func(int) []NewCell { return nil }}
	if err := book.Append(block); err != nil {
		t.Fatal(err)
	}
	front, err := book.NewSheet("Placings", "railbook_sheet_placings")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := book.NewSheet("Error log", "railbook_sheet_error_log"); err != nil {
		t.Fatal(err)
	}
	if err := book.Lead(front); err != nil {
		t.Fatal(err)
	}
	if saved, err = book.Bytes(); err != nil {
		t.Fatal(err)
	}
	return before, saved
}

const ownName = `<definedNames><definedName name="Own" localSheetId="0">1</definedName></definedNames>`

func TestASheetOfOursLeadsAndTheUsersNamesKeepToTheirSheets(t *testing.T) {
	_, saved := ordered(t, ownName)
	book := open(t, saved)
	if book.sheets[0].name != "Placings" || book.sheets[len(book.sheets)-1].name != "Error log" {
		t.Errorf("the sheets stand as %+v", book.sheets)
	}
	main := string(book.contents.parts["xl/workbook.xml"])
	for _, want := range []string{`name="Own" localSheetId="1"`, `name="_xlnm.Print_Area" localSheetId="1"`, `!$A:$A</definedName>`, `activeTab="1"`} {
		if !strings.Contains(main, want) {
			t.Errorf("no %s in\n%s", want, main)
		}
	}
}

func TestStripGivesTheSheetsTheirOrderBack(t *testing.T) {
	for _, names := range []string{"", ownName} {
		before, saved := ordered(t, names)
		book := open(t, saved)
		if _, err := book.Strip(); err != nil {
			t.Fatal(err)
		}
		if after := book.contents.parts["xl/workbook.xml"]; !bytes.Equal(before, after) {
			t.Errorf("was\n%s\nis\n%s", before, after)
		}
	}
}

// LibreOffice writes whole columns as all their rows.
func TestAPrintAreaOfOursIsKnownAsOtherProgramsWriteIt(t *testing.T) {
	before, saved := ordered(t, ownName)
	book := open(t, saved)
	main := book.contents.parts["xl/workbook.xml"]
	book.contents.parts["xl/workbook.xml"] = bytes.Replace(main, []byte("!$A:$A<"), []byte("!$A$1:$A$1048576<"), 1)
	if _, err := book.Strip(); err != nil {
		t.Fatal(err)
	}
	if after := book.contents.parts["xl/workbook.xml"]; !bytes.Equal(before, after) {
		t.Errorf("is\n%s", after)
	}
}

func TestAPrintAreaOfTheUsersStays(t *testing.T) {
	area := strings.Replace(ownName, "Own", "_xlnm.Print_Area", 1)
	area = strings.Replace(area, ">1<", ">'Sheet1'!$A$1:$B$9<", 1)
	_, saved := ordered(t, area)
	main := string(open(t, saved).contents.parts["xl/workbook.xml"])
	if strings.Count(main, "_xlnm.Print_Area") != 1 || !strings.Contains(main, "$A$1:$B$9") {
		t.Errorf("the print areas are of\n%s", main)
	}
}

func TestNothingOfTheUsersIsMoved(t *testing.T) {
	book := open(t, pack(t, plainWorkbook("")))
	if err := book.Lead("Sheet1"); err == nil {
		t.Error("a sheet of the user's was moved")
	}
}
