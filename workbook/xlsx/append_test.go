package xlsx

import (
	"bytes"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"railbook/rules/address"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// block is a block of three columns: a shared formula with a number, a formula of its own with a text, a plain text.
func block(sheet string, first, heading, last int) Appended {
	return Appended{
		Sheet: sheet, Mark: "railbook_columns_1", FirstColumn: first, HeadingRow: heading, LastRow: last,
		Headings: []string{"Yield grade", "Quality grade", "Flag"}, Widths: []float64{8, 16, 30}, Formats: []string{"0.00", "", ""},
		Row: func(row int) []NewCell {
			return []NewCell{
				{Formula: fmt.Sprintf("ROUND(B%d*2,6)", row), Shape: "plain", Kind: Number, Value: fmt.Sprint(2 * row)},
				{Formula: fmt.Sprintf(`IF(B%d<>0,"A & B","")`, row), Kind: Text, Value: "A & B"},
				{Kind: Text, Value: "look <here> _x0041_\ttab\x01"},
			}
		},
		Flagged: []string{"B2", "B3", "A2"},
	}
}

// Columns are added beside cells that are merged, but not after those that are merged up to the sheet's last column, as a line over
// a table may be; and where there is no room for them, that is said.
func TestColumnsAreAddedInsideTheSheet(t *testing.T) {
	for merged, want := range map[string]int{"A2:F2": 7, "A2:AQ2": 44, "A2:AR2": 4, "A2:XFD2": 4, "A1:XFD1048576": 4, "A9:Z9": 4} {
		book := open(t, pack(t, with(plainWorkbook(""), "xl/worksheets/sheet1.xml", worksheet("<sheetData>"+twoRows+`</sheetData><mergeCells count="1"><mergeCell ref="`+merged+`"/></mergeCells>`))))
		if first, err := book.FreeColumn("Steers", 1, 4, 4); err != nil || first != want {
			t.Errorf("merged %s: the first free column is %d, not %d (%v)", merged, first, want, err)
		}
	}
	for first, fits := range map[int]bool{16382: true, 16383: false, 16385: false} { // the last column is XFD, the 16,384th
		err := open(t, pack(t, plainWorkbook(twoRows))).Append(block("Steers", first, 1, 2))
		if fits && err != nil {
			t.Error(err)
		} else if !fits {
			says(t, err, `sheet "Steers" has no room for 3 columns`, "take out what stands far to the right")
		}
	}
}

// What was appended reads back, everything else reads as before, and stripping gives back the same bytes.
func TestAppendAndStripGiveBackEveryByte(t *testing.T) {
	for name, sheet := range oddSheets() {
		t.Run(name, func(t *testing.T) {
			book := open(t, pack(t, with(plainWorkbook(""), "xl/worksheets/sheet1.xml", sheet)))
			before := grid(t, book, "Steers")
			if name == "styled blanks" {
				first, err := book.FreeColumn("Steers", 1, 4, 3)
				if err != nil || first != 27 {
					t.Fatalf("the first free column is %d, %v", first, err)
				}
			}
			for i, first := range []int{6, 9} {
				if name == "styled blanks" {
					first += 21
				}
				appended := block("Steers", first, 1, 4)
				appended.Mark = fmt.Sprintf("railbook_columns_%d", i+1)
				if err := book.Append(appended); err != nil {
					t.Fatal(err)
				}
			}
			if _, err := book.NewSheet("Placings", "railbook_sheet_placings"); err != nil {
				t.Fatal(err)
			}
			saved, err := book.Bytes()
			if err != nil {
				t.Fatal(err)
			}
			results := open(t, saved)
			checkAppended(t, before, grid(t, results, "Steers"))
			if found, err := results.Strip(); !found || err != nil {
				t.Fatal(found, err)
			}
			if diff := cmp.Diff(sheet, string(results.contents.parts["xl/worksheets/sheet1.xml"])); diff != "" {
				t.Error(diff)
			}
			if len(results.Sheets()) != 1 || len(results.Ours()) != 0 {
				t.Errorf("sheets %v, ours %v", results.Sheets(), results.Ours())
			}
		})
	}
}

// checkAppended makes sure that the old cells are as they were, and that three new ones stand in each row, twice.
func checkAppended(t *testing.T, before, after *Grid) {
	t.Helper()
	if diff := cmp.Diff(before.Merged, after.Merged); diff != "" {
		t.Error(diff)
	}
	old := map[int][]Cell{}
	for _, row := range before.Rows {
		old[row.Number] = row.Cells
	}
	ours := 0
	for _, row := range after.Rows {
		kept := row.Cells
		if row.Number <= 4 && len(row.Cells) >= 6 {
			added := row.Cells[len(row.Cells)-6:]
			kept = row.Cells[:len(row.Cells)-6]
			ours++
			if row.Number > 1 {
				if added[0].Kind != Number || !added[0].Formula || added[0].Raw != fmt.Sprint(2*row.Number) {
					t.Errorf("row %d: %+v", row.Number, added[0])
				}
				if added[1].Kind != Text || !added[1].Formula || added[1].Raw != "A & B" {
					t.Errorf("row %d: %+v", row.Number, added[1])
				}
				if added[2].Kind != Text || added[2].Formula || added[2].Raw != "look <here> _x0041_\ttab\x01" {
					t.Errorf("row %d: %+v", row.Number, added[2])
				}
			}
		}
		if diff := cmp.Diff(old[row.Number], kept, cmp.Transformer("none", func(cells []Cell) string { return fmt.Sprintf("%+v", append([]Cell{}, cells...)) })); diff != "" {
			t.Errorf("row %d: %s", row.Number, diff)
		}
	}
	if ours != 4 {
		t.Errorf("ours stand in %d rows", ours)
	}
}

func TestSharedFormulasKeepApartFromTheUsers(t *testing.T) {
	book := open(t, pack(t, with(plainWorkbook(""), "xl/worksheets/sheet1.xml", oddSheets()["shared"])))
	if err := book.Append(block("Steers", 6, 1, 4)); err != nil {
		t.Fatal(err)
	}
	saved, err := book.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	text := string(open(t, saved).contents.parts["xl/worksheets/sheet1.xml"])
	if strings.Count(text, `<f t="shared" ref="F2:F4" si="5">ROUND(B2*2,6)</f>`) != 1 || strings.Count(text, `<f t="shared" si="5"/>`) != 2 {
		t.Error(text)
	}
}

func TestAppendNeverWritesOverACell(t *testing.T) {
	book := open(t, pack(t, plainWorkbook(twoRows)))
	if err := book.Append(block("Steers", 2, 1, 2)); err != nil {
		t.Fatal(err)
	}
	_, err := book.Bytes()
	says(t, err, "Steers", "B1", "not empty")
}

// The same input is the same bytes, every time.
func TestSameBytesEachTime(t *testing.T) {
	data := richWorkbook(t)
	var first []byte
	for range 8 {
		saved, err := gradeRich(t, data).Bytes()
		if err != nil {
			t.Fatal(err)
		}
		if first == nil {
			first = saved
		}
		if !bytes.Equal(first, saved) {
			t.Fatal("two runs differ")
		}
	}
	all, err := unpack("rich-results.xlsx", bytes.NewReader(first), int64(len(first)), nil)
	if err != nil {
		t.Fatal(err)
	}
	_, entries, err := children(all.parts[contentTypesPart], "")
	if err != nil {
		t.Fatal(err)
	}
	if !slices.IsSortedFunc(entries, func(a, b element) int { return strings.Compare(a.name+a.attributes, b.name+b.attributes) }) {
		t.Error("the content types stand in the order of a map")
	}
}

// Appending and stripping is nothing at all, whatever the rows look like.
func TestAppendThenStripIsNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var rows strings.Builder
		number := 0
		for range rapid.IntRange(0, 8).Draw(t, "rows") {
			number += rapid.IntRange(1, 3).Draw(t, "step")
			fmt.Fprintf(&rows, `<row r="%d"`, number)
			rows.WriteString(rapid.SampledFrom([]string{"", ` spans="1:3"`, ` ht="20" customHeight="1"`, ` hidden="1"`}).Draw(t, "attribute"))
			if rapid.Bool().Draw(t, "closed") {
				rows.WriteString("/>")
				continue
			}
			rows.WriteString(">")
			for column := range rapid.IntRange(0, 4).Draw(t, "cells") {
				name := address.Cell(column+1, number)
				rows.WriteString(rapid.SampledFrom([]string{
					`<c r="` + name + `"><v>1.5</v></c>`, `<c r="` + name + `" s="1"/>`, `<c r="` + name + `" t="s"><v>0</v></c>`,
					`<c r="` + name + `"><f>1+1</f><v>2</v></c>`, ``,
				}).Draw(t, "cell"))
			}
			rows.WriteString("</row>")
		}
		sheet := worksheet(`<sheetData>` + rows.String() + `</sheetData>`)
		patched, patch, err := patchedSheet(block("Steers", 7, 2, 14), []byte(sheet))
		if err != nil {
			t.Fatal(err)
		}
		back := stripping{data: patched, area: patch.area(), undo: readUndo(patch.undo.String())}
		stripped, err := back.sheet()
		if err != nil {
			t.Fatal(err)
		}
		if got := string(stripped); got != sheet {
			t.Fatalf("got  %s\nwant %s", got, sheet)
		}
	})
}

// patchedSheet gives a sheet with a block in it, in one piece.
func patchedSheet(block Appended, sheet []byte) (patched []byte, patch *appending, err error) {
	patch = &appending{block: block, columns: []int{1, 2, 3}}
	out := &piecewise{}
	around, err := patch.sheet(sheet, nil, out)
	if err == nil {
		patched, err = out.close(around)
	}
	return patched, patch, err
}

// A sheet that goes out in many pieces is the same as in one, with one block of columns and with several.
func TestPiecesMakeTheSameSheet(t *testing.T) {
	var rows strings.Builder
	for number := 1; number <= 30_000; number++ {
		fmt.Fprintf(&rows, "<row r=\"%d\"><c r=\"A%d\"><v>%d</v></c><c r=\"B%d\" t=\"inlineStr\"><is><t>a text of a row</t></is></c></row>\n", number, number, number, number)
	}
	sheet := worksheet(`<dimension ref="A1:B30000"/><sheetData>` + rows.String() + `</sheetData>`)
	if len(sheet) < 2*PieceSize {
		t.Fatal("the sheet is a single piece")
	}
	styles := regexp.MustCompile(` s="\d+"`)
	want := []byte(sheet)
	book := open(t, pack(t, with(plainWorkbook(""), "xl/worksheets/sheet1.xml", sheet)))
	if len(book.contents.lists) == 0 {
		t.Fatal("the rows are held")
	}
	readInLists(t, 1<<30, PieceSize) // what is saved is compared whole
	for i, appended := range []Appended{block("Steers", 4, 3, 20_000), block("Steers", 4, 20_005, 30_010)} {
		appended.Mark, appended.Flagged = fmt.Sprint("railbook_columns_", i+1), nil
		if err := book.Append(appended); err != nil {
			t.Fatal(err)
		}
		saved, err := book.Bytes()
		if err != nil {
			t.Fatal(err)
		}
		if want, _, err = patchedSheet(appended, want); err != nil {
			t.Fatal(err)
		}
		got := open(t, saved).contents.parts["xl/worksheets/sheet1.xml"]
		if !bytes.Equal(styles.ReplaceAll(got, nil), styles.ReplaceAll(want, nil)) {
			t.Errorf("with %d blocks it has %d bytes, not %d", i+1, len(got), len(want))
		}
	}
}
