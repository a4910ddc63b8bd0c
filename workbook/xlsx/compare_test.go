package xlsx

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"strings"
	"testing"
)

// addAgain adds a block of columns and a sheet of two rows.
func addAgain(t *testing.T, book *Book) {
	t.Helper()
	if err := book.Append(block("Steers", 3, 1, 2)); err != nil {
		t.Fatal(err)
	}
	sheet, err := book.NewSheet("Placings", "railbook_sheet_placings")
	if err != nil {
		t.Fatal(err)
	}
	rows := &Rows{}
	if err := book.Fill(sheet, rows); err != nil {
		t.Fatal(err)
	}
	for row := 1; row <= 2; row++ {
		rows.Add(fmt.Appendf(NewPiece(), `<row r="%d"><c r="A%d"><v>4%d</v></c></row>`, row, row, row))
	}
}

// sameAgain opens results, makes them again by adding what is ours, and reports whether they are the same.
func sameAgain(t *testing.T, data []byte, unread func(mark string) bool, add func(t *testing.T, book *Book)) bool {
	t.Helper()
	again, err := OpenBytes("fair.xlsx", data, OpenOptions{Unread: unread})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := again.Strip(); err != nil {
		t.Fatal(err)
	}
	again.OnlyCompare()
	add(t, again)
	same, err := again.SameAsRead()
	if err != nil {
		t.Fatal(err)
	}
	return same
}

// repacked gives a package with a text in one of its parts replaced, once; every part is stored as it is.
func repacked(t *testing.T, data []byte, part, from, to string) []byte {
	t.Helper()
	parts := make(map[string]string)
	archive, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	for _, entry := range archive.File {
		reader, err := entry.Open()
		if err != nil {
			t.Fatal(err)
		}
		plain, err := io.ReadAll(reader)
		if err != nil {
			t.Fatal(err)
		}
		parts[entry.Name] = string(plain)
	}
	if !strings.Contains(parts[part], from) {
		t.Fatalf("%s has no %q", part, from)
	}
	parts[part] = strings.Replace(parts[part], from, to, 1)
	return pack(t, parts)
}

// A workbook that is made again is the one that was read if every part is, however it is packed; a byte in any row, frame, name or
// style of ours makes it another one, whether the rows are held or not.
func TestAWorkbookMadeAgainIsComparedByItsParts(t *testing.T) {
	book := open(t, pack(t, plainWorkbook(twoRows)))
	addAgain(t, book)
	data, err := book.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	const data1, ours, main = "xl/worksheets/sheet1.xml", "xl/worksheets/sheet2.xml", "xl/workbook.xml"
	for about, row := range map[string]struct {
		part, from, to string
		same           bool
	}{
		"nothing":                {main, "<sheets>", "<sheets>", true},
		"a computed cell":        {data1, "look", "lo0k", false},
		"the result of a figure": {data1, "<v>4</v>", "<v>5</v>", false},
		"a flag":                 {data1, `sqref="A2`, `sqref="A1`, false},
		"a width":                {data1, `width="16`, `width="17`, false},
		"a row of ours":          {ours, "<v>42</v>", "<v>43</v>", false},
		"a row of ours more":     {ours, "</sheetData>", "<row/></sheetData>", false},
		"a row of ours less":     {ours, `<row r="2"><c r="A2"><v>42</v></c></row>`, "", false},
		"what is around rows":    {ours, "<sheetData>", "<sheetData >", false},
		"what is behind rows":    {ours, "</sheetData>", "</sheetData><rowBreaks/>", false},
		"what is behind a sheet": {ours, "</worksheet>", "</worksheet>\n", false},
		"a mark":                 {main, "$C$1:$E$2", "$C$1:$E$3", false},
		"a style of ours":        {"xl/styles.xml", "EBE3D8", "EBE3D9", false},
		"a part more":            {contentTypesPart, "</Types>", `<Override PartName="/xl/more.xml" ContentType="application/xml"/></Types>`, false},
	} {
		for way, read := range map[string]struct {
			size   int
			unread func(mark string) bool
		}{
			"held": {1 << 30, nil}, "in lists": {0, nil},
			"not read": {1 << 30, func(mark string) bool { return mark == "railbook_sheet_placings" }},
		} {
			t.Run(about+" "+way, func(t *testing.T) {
				readInLists(t, read.size, 16)
				if same := sameAgain(t, repacked(t, data, row.part, row.from, row.to), read.unread, addAgain); same != row.same {
					t.Errorf("the same: %v", same)
				}
			})
		}
	}
}

// A long sheet of ours is compared to its last byte, wherever the pieces end that are compared at a time.
func TestALongSheetIsComparedToItsEnd(t *testing.T) {
	row := func(number int) string {
		return fmt.Sprintf(`<row r="%d"><c r="A%d"><v>%d</v></c></row>`, number, number, number)
	}
	add := func(book *Book, changed int) {
		sheet, err := book.NewSheet("Placings", "railbook_sheet_placings")
		if err != nil {
			t.Fatal(err)
		}
		rows := &Rows{}
		if err := book.Fill(sheet, rows); err != nil {
			t.Fatal(err)
		}
		for first := 1; first <= 9000; first += 3000 { // each of more than is compared at a time
			piece := NewPiece()
			for number := first; number < first+3000; number++ {
				text := row(number)
				if number == changed {
					text = strings.Replace(text, "<v>", "<v>1", 1)
				}
				piece = append(piece, text...)
			}
			rows.Add(piece)
		}
	}
	book := open(t, pack(t, plainWorkbook(twoRows)))
	add(book, 0)
	data, err := book.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	for _, changed := range []int{0, 1, 1500, 3000, 3001, 9000} {
		all := func(string) bool { return true }
		if same := sameAgain(t, data, all, func(t *testing.T, book *Book) { add(book, changed) }); same != (changed == 0) {
			t.Errorf("row %d changed: the same %v", changed, same)
		}
	}
}
