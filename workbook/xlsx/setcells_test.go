package xlsx

import (
	"strings"
	"testing"

	"railbook/rules/address"
)

func TestCorrectedCellsKeepTheirStyle(t *testing.T) {
	book := open(t, pack(t, plainWorkbook(`<row r="2"><c r="A2" t="s"><v>0</v></c><c r="C2" s="2"><v>136</v></c><c r="D2" t="str"><f>"a"</f><v>a</v></c></row><row r="4"/>`)))
	err := book.SetCells("Steers", map[string]CellChange{
		"C2": {Kind: Number, Value: "13.6", Hint: "136 until the judge corrected it"}, "D2": {Kind: Text, Value: "A & B"}, "B2": {Kind: Bool, Value: "TRUE"},
		"A4": {Kind: Number, Value: "4"}, "B3": {Kind: Number, Value: "3"}, "E9": {Kind: Number, Value: "9"}, "A2": {Kind: Blank},
	})
	if err != nil {
		t.Fatal(err)
	}
	want := map[string]string{"C2": "13.6", "D2": "A & B", "B2": "TRUE", "A4": "4", "B3": "3", "E9": "9"}
	seen := 0
	for _, row := range grid(t, book, "Steers").Rows {
		for _, cell := range row.Cells {
			seen++
			if name := address.Cell(cell.Column, row.Number); want[name] != cell.Raw || cell.Formula {
				t.Errorf("%s is %q", name, cell.Raw)
			}
			if cell.Column == 3 && (!cell.Percent || cell.Style != 2) {
				t.Errorf("the style of C2 is lost: %+v", cell)
			}
		}
	}
	if seen != len(want) {
		t.Errorf("%d cells", seen)
	}
	text := string(book.contents.parts["xl/worksheets/sheet1.xml"])
	if !strings.Contains(text, `<dataValidations count="1"><dataValidation allowBlank="1" showInputMessage="1" promptTitle="Corrected (railbook)" prompt="136 until the judge corrected it" sqref="C2"/></dataValidations>`) {
		t.Error(text)
	}
	if found, err := book.Strip(); !found || err != nil {
		t.Fatal(found, err)
	}
	if text := string(book.contents.parts["xl/worksheets/sheet1.xml"]); strings.Contains(text, "dataValidation") {
		t.Error(text)
	}
}

func TestHintsBesideTheUsersRules(t *testing.T) {
	sheet := oddSheets()["rules"]
	book := open(t, pack(t, with(plainWorkbook(""), "xl/worksheets/sheet1.xml", sheet)))
	change := CellChange{Kind: Number, Value: "812.5", Hint: "was 8125"}
	if err := book.SetCells("Steers", map[string]CellChange{"B2": change, "B3": change}); err != nil {
		t.Fatal(err)
	}
	text := string(book.contents.parts["xl/worksheets/sheet1.xml"])
	if !strings.Contains(text, `<dataValidations count="2">`) || !strings.Contains(text, `sqref="B3"/></dataValidations>`) {
		t.Error(text)
	}
	if _, err := book.Strip(); err != nil {
		t.Fatal(err)
	}
	if got := string(book.contents.parts["xl/worksheets/sheet1.xml"]); got != sheet {
		t.Errorf("got %s", got)
	}
}

func TestSharedFormulaIsHandedOn(t *testing.T) {
	book := open(t, pack(t, with(plainWorkbook(""), "xl/worksheets/sheet1.xml", oddSheets()["shared"])))
	if err := book.SetCells("Steers", map[string]CellChange{"A1": {Kind: Number, Value: "7"}}); err != nil {
		t.Fatal(err)
	}
	text := string(book.contents.parts["xl/worksheets/sheet1.xml"])
	if !strings.Contains(text, `<c r="A1"><v>7</v></c>`) || !strings.Contains(text, `<f t="shared" ref="A1:A2" si="4">B2*2</f>`) {
		t.Error(text)
	}
}

func TestWhatCanNotBeCorrected(t *testing.T) {
	book := open(t, pack(t, with(plainWorkbook(""), "xl/worksheets/sheet1.xml", worksheet(
		`<sheetData><row r="1"><c r="A1"><f t="array" ref="A1:A2">B1:B2</f><v>1</v></c><c r="C1"><v>1</v></c><c r="D1"/></row></sheetData><mergeCells><mergeCell ref="C1:D1"/></mergeCells>`))))
	says(t, book.SetCells("Steers", map[string]CellChange{"A1": {Kind: Number, Value: "1"}}), "array formula", "A1")
	says(t, book.SetCells("Steers", map[string]CellChange{"D1": {Kind: Number, Value: "1"}}), "merged cell", "correct cell C1")
	says(t, book.SetCells("Steers", map[string]CellChange{"E1": {Kind: Number, Value: "12 lb"}}), "is no number")
	says(t, book.SetCells("Heifers", map[string]CellChange{"E1": {Kind: Number, Value: "12"}}), "no sheet")
}

func TestShiftFormula(t *testing.T) {
	for formula, want := range map[string]string{
		"B1*2": "C3*2", "$B1+B$1+$B$1": "$B3+C$1+$B$1", `IF(A1="A1",'A1'!A1,x_A1)`: `IF(B3="A1",'A1'!B3,x_A1)`,
		"LOG10(A1)": "LOG10(B3)", "SUM(A:A)+SUM(1:1)": "SUM(B:B)+SUM(3:3)", "ROUND(1.5E3,2)": "ROUND(1.5E3,2)", "Tab1!A1": "Tab1!B3", "A1:B2": "B3:C4",
		"ABC1234567+ABCD1+A12345678": "ABD1234569+ABCD1+A12345678", // three letters and seven digits at most
		"AAA:AAB+AAAA:AAAB":          "AAB:AAC+AAAA:AAAB",
	} {
		if got := shiftFormula(formula, 1, 2); got != want {
			t.Errorf("%s: %s, want %s", formula, got, want)
		}
	}
}
