package xlsx

import (
	"fmt"
	"strings"
	"testing"
	"unicode/utf16"
	"unsafe"

	"github.com/google/go-cmp/cmp"
)

// A text file reads the same whatever its separator and encoding.
func TestTextFiles(t *testing.T) {
	const table = "Tag,Name,HCW,Fat\r\n\r\n0412,Zoë,812.5,0.45\r\n\"0,9\",\"a \"\"b\"\"\nc\",x,\r\n5,,1234,0.5\r\n"
	little := []byte{0xFF, 0xFE}
	for _, unit := range utf16.Encode([]rune(table)) {
		little = append(little, byte(unit), byte(unit>>8))
	}
	windows := []byte(table[:0])
	for _, c := range table {
		windows = append(windows, byte(c))
	}
	for name, data := range map[string][]byte{
		"utf8.csv": []byte(table), "mark.csv": []byte("\xEF\xBB\xBF" + table), "utf16.csv": little, "bare16.csv": little[2:], "windows.csv": windows,
	} {
		t.Run(name, func(t *testing.T) {
			book, err := OpenBytes(name, data, OpenOptions{})
			if err != nil {
				t.Fatal(err)
			}
			if !book.Text || book.DecimalComma || book.Sheets()[0].Name != name[:len(name)-4] {
				t.Errorf("text %t, decimal comma %t, sheets %v", book.Text, book.DecimalComma, book.Sheets())
			}
			rows := grid(t, book, book.Sheets()[0].Name).Rows
			if len(rows) != 4 || rows[1].Number != 3 || rows[2].Number != 4 || rows[3].Number != 5 {
				t.Fatalf("rows: %+v", rows)
			}
			for _, want := range []struct {
				row, cell int
				kind      CellKind
				raw       string
			}{{1, 0, Text, "0412"}, {1, 1, Text, "Zoë"}, {1, 2, Number, "812.5"}, {2, 0, Text, "0,9"}, {2, 1, Text, "a \"b\"\nc"}, {3, 1, Number, "1234"}} {
				if got := rows[want.row].Cells[want.cell]; got.Kind != want.kind || got.Raw != want.raw {
					t.Errorf("row %d, cell %d: %+v, want %q", want.row, want.cell, got, want.raw)
				}
			}
		})
	}
}

// A quotation mark that is never closed would hide the lines after it in one field.
func TestOpenQuotationMarks(t *testing.T) {
	for text, line := range map[string]int{
		"Tag,HCW\n1,800\n":                         0,
		"Tag,HCW\n\"1\",800\n":                     0,
		"Tag,HCW\n\"1\n\"\"a\"\"\",800\n\"2\",810": 0,
		"Tag,HCW\n\"1 \"a\" b\",800\n":             0,
		"Tag,HCW\n1\"2,800\n2 \"\n":                0,
		"Tag,HCW\n\"\",800\n":                      0,
		"Tag,HCW\n\"\"\"\",800\n":                  0,
		"Tag,HCW\n\"1,800\n2,810\n":                2,
		"Tag,HCW\n1,\"800\n2,810\n":                2,
		"\n\nTag,HCW\n\"1,800\n\"2\",810\n":        4,
		"Tag,HCW\n1,800\n2,\"":                     3,
		"Tag,HCW\n\"1\"\",800\n2,810\n":            2,
	} {
		_, err := OpenBytes("steers.csv", []byte(text), OpenOptions{})
		if line == 0 && err != nil || line > 0 && (err == nil || !strings.Contains(err.Error(), fmt.Sprintf("line %d begins with a quotation mark", line))) {
			t.Errorf("%q: %v", text, err)
		}
	}
}

// A text of two bytes a letter with half a letter at its end was cut off; only the end of a last line may be.
func TestTextCutInsideALetter(t *testing.T) {
	text := append([]byte{0xFF, 0xFE}, wide("Tag,HCW\n1,800\n")...)
	for data, cut := range map[string]bool{string(text): false, string(text[:len(text)-1]): false, string(text[:len(text)-3]): true, "Tag,HCW\n1,800": false} {
		_, err := OpenBytes("steers.csv", []byte(data), OpenOptions{})
		if cut {
			says(t, err, "steers.csv ends in the middle of a letter", "Ask for the file again")
		} else if err != nil {
			t.Error(err)
		}
	}
}

// A field that no cell can hold whole (32,767 characters: Excel specifications and limits, Microsoft) is said, not cut.
func TestFieldsLongerThanACell(t *testing.T) {
	for letters, fits := range map[string]bool{strings.Repeat("a", 32767): true, strings.Repeat("a", 32768): false, strings.Repeat("é", 32767): true, strings.Repeat("é", 32768): false} {
		_, err := OpenBytes("steers.csv", []byte("Tag,HCW\n1,800\n"+letters+",810\n"), OpenOptions{})
		if fits && err != nil {
			t.Error(err)
		} else if !fits {
			says(t, err, "field 1 of line 3 has 32768 letters, and a cell holds 32767")
		}
	}
}

func TestSeparatorsAndDecimalComma(t *testing.T) {
	for _, test := range []struct {
		name, text string
		fields     int
		comma      bool
	}{
		{"a.csv", "Tag;HCW;Fat\n1;812,5;0,45\n2;790;0,5\n", 3, true},
		{"b.csv", "Tag;HCW;Fat\n1;812.5;0.45\n", 3, false},
		{"c.tsv", "Tag\tHCW\tFat\n1\t1,234\t0.45\n", 3, false},
		{"d.tsv", "Tag\tHCW\n1\t1,234\n", 2, false},
		{"e.csv", "sep=;\nTag;HCW\n1;812,5\n", 2, true},
		{"f.csv", "Name, of fair\nTag,HCW,Fat\n1,812,\"0,45\"\n2,812,\"0,5\"\n", 3, false},
		{"g.txt", "Tag|HCW\n1|812\n", 2, false},
		{"h.csv", "Tag\n1\n2\n", 1, false},
		{"i.csv", "Tag,HCW\r1,812\r", 2, false},
	} {
		book, err := OpenBytes(test.name, []byte(test.text), OpenOptions{})
		if err != nil {
			t.Fatal(err)
		}
		most := 0
		if err := book.table.each(func(_ int, fields []string) { most = max(most, len(fields)) }); err != nil {
			t.Error(err)
		}
		if most != test.fields || book.DecimalComma != test.comma {
			t.Errorf("%s: %d fields, decimal comma %t", test.name, most, book.DecimalComma)
		}
	}
}

// A long text file becomes a workbook too, in memory: no temporary file of another program holds its names.
func TestLongTextLeavesNoTemporaryFile(t *testing.T) {
	folder := t.TempDir()
	t.Setenv("TMPDIR", folder)
	text := strings.Repeat("0412,Teasel Marrow,812.5,"+strings.Repeat("x", 900)+"\n", 20_000)
	book, err := OpenBytes("steers.csv", []byte(text), OpenOptions{})
	if err != nil {
		t.Fatal(err)
	}
	saved, err := book.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	onlyThere(t, folder)
	again, err := OpenBytes("steers.xlsx", saved, OpenOptions{})
	if err != nil {
		t.Fatal(err)
	}
	if rows := grid(t, again, "steers").Rows; len(rows) != 20_000 || rows[19_999].Cells[2].Raw != "812.5" {
		t.Errorf("%d rows came back", len(rows))
	}
}

// Fields are parts of the text where they stand in it as they are, so that no line is kept twice; others, such as those with doubled
// quotation marks, are what the reader made of them (RFC 4180, 2.7).
func TestFieldsStandInTheText(t *testing.T) {
	book, err := OpenBytes("steers.csv", []byte("Tag,HCW,Remark\n0412,812.5,\"a \"\"b\"\"\"\n0413,0413,0\n"), OpenOptions{})
	if err != nil {
		t.Fatal(err)
	}
	grid, err := book.Scan("steers")
	if err != nil {
		t.Fatal(err)
	}
	start := uintptr(unsafe.Pointer(unsafe.StringData(book.table.text)))
	var inText []bool
	var raw []string
	for _, row := range grid.Rows[1:] {
		for _, cell := range row.Cells {
			at := uintptr(unsafe.Pointer(unsafe.StringData(cell.Raw)))
			inText, raw = append(inText, at >= start && at < start+uintptr(len(book.table.text))), append(raw, cell.Raw)
		}
	}
	if diff := cmp.Diff([]string{"0412", "812.5", `a "b"`, "0413", "0413", "0"}, raw); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff([]bool{true, true, false, true, true, true}, inText); diff != "" {
		t.Error(diff)
	}
}
