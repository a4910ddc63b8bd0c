package xlsx

import (
	"bytes"
	"strings"
	"testing"

	"railbook/rules/address"

	"github.com/xuri/excelize/v2"
)

// The results of a text file are a workbook that holds its rows, known for what it is when it is read again.
func TestTextFileBecomesAWorkbook(t *testing.T) {
	book, err := OpenBytes("steers.csv", []byte("Tag;HCW;Fat\n0412;812,5;0,45\n\n0413;1.234;=1+1\n"), OpenOptions{})
	if err != nil {
		t.Fatal(err)
	}
	if err := book.SetCells("steers", map[string]CellChange{"B2": {Kind: Number, Value: "790"}, "C3": {Kind: Text, Value: "x"}}); err != nil {
		t.Fatal(err)
	}
	if taken, err := book.NewSheet("Graded", "railbook_sheet_graded"); err != nil || taken != "Graded" {
		t.Fatal(taken, err)
	}
	saved, err := book.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	again := open(t, saved)
	if !again.Text || len(again.Ours()) != 1 || again.SHA256 == book.SHA256 {
		t.Errorf("text %t, ours %v", again.Text, again.Ours())
	}
	if found, err := again.Strip(); !found || err != nil {
		t.Fatal(found, err)
	}
	if !again.Text || len(again.Sheets()) != 1 {
		t.Errorf("text %t, sheets %v", again.Text, again.Sheets())
	}
	want := map[string]Cell{"A2": {Kind: Text, Raw: "0412"}, "B2": {Kind: Number, Raw: "790"}, "C2": {Kind: Number, Raw: "0.45"}, "C3": {Kind: Text, Raw: "x"}, "B4": {Kind: Number, Raw: "1.234"}, "C4": {Kind: Text, Raw: "=1+1"}}
	for _, row := range grid(t, again, "steers").Rows {
		for _, cell := range row.Cells {
			name := address.Cell(cell.Column, row.Number)
			if filled, checked := want[name]; checked && (filled.Kind != cell.Kind || filled.Raw != cell.Raw || cell.Formula) {
				t.Errorf("%s is %+v", name, cell)
			}
			delete(want, name)
		}
	}
	if len(want) > 0 {
		t.Errorf("missing: %v", want)
	}
}

// writeRow writes the one row of a new sheet of ours.
func writeRow(t testing.TB, book *Book, sheet string, cells ...any) {
	t.Helper()
	stream, err := book.Draft().file.NewStreamWriter(sheet)
	if err == nil {
		err = stream.SetRow("A1", cells)
	}
	if err == nil {
		err = stream.Flush()
	}
	if err != nil {
		t.Fatal(err)
	}
}

// A workbook without styles or a style sheet without its tables can be added to.
func TestBareWorkbooksCanBeAddedTo(t *testing.T) {
	plain := plainWorkbook(twoRows)
	bare := with(with(plain, "xl/styles.xml", ""), "xl/_rels/workbook.xml.rels", relationships("worksheet worksheets/sheet1.xml", "sharedStrings strings.xml"))
	bare = with(with(bare, "xl/sharedStrings.xml", ""), "xl/strings.xml", plain["xl/sharedStrings.xml"])
	bare[contentTypesPart] = strings.ReplaceAll(bare[contentTypesPart], "/xl/sharedStrings.xml", "/xl/strings.xml")
	for name, parts := range map[string]map[string]string{
		"no styles":    bare,
		"empty styles": with(plain, "xl/styles.xml", `<styleSheet `+mainNamespace+`/>`),
		"prefixed":     with(plain, "xl/styles.xml", `<x:styleSheet xmlns:x="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><x:fonts count="0"/></x:styleSheet>`),
		"calculation chain": with(with(plain, "xl/calcChain.xml", `<calcChain `+mainNamespace+`><c r="B2" i="1"/></calcChain>`),
			"xl/_rels/workbook.xml.rels", relationships("worksheet worksheets/sheet1.xml", "styles styles.xml", "sharedStrings sharedStrings.xml", "calcChain calcChain.xml")),
	} {
		t.Run(name, func(t *testing.T) {
			book := open(t, pack(t, parts))
			if err := book.Append(block("Steers", 6, 1, 2)); err != nil {
				t.Fatal(err)
			}
			if _, err := book.NewSheet("Placings", "railbook_sheet_placings"); err != nil {
				t.Fatal(err)
			}
			writeRow(t, book, "Placings", "a text")
			saved, err := book.Bytes()
			if err != nil {
				t.Fatal(err)
			}
			again := open(t, saved)
			if got := grid(t, again, "Steers").Rows[1].Cells; got[0].Raw != "412" || got[2].Raw != "4" {
				t.Errorf("row 2 is %+v", got)
			}
			if got := grid(t, again, "Placings").Rows[0].Cells[0].Raw; got != "a text" {
				t.Errorf("A1 is %q", got)
			}
			if _, left := again.contents.parts["xl/calcChain.xml"]; left {
				t.Error("the calculation chain is left")
			}
			if _, err := excelize.OpenReader(bytes.NewReader(saved)); err != nil {
				t.Error(err)
			}
			readOutside(t, save(t, "results.xlsx", saved))
		})
	}
}
