package xlsx

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestScanReadsEveryKindOfCell(t *testing.T) {
	book := open(t, pack(t, plainWorkbook(
		`<row r="1" hidden="1"><c r="A1" t="s"><v>0</v></c><c r="B1" t="s"><v>1</v></c><c t="s"><v>2</v></c><c r="F1" t="s"><v>3</v></c></row>`+
			`<row><c t="inlineStr"><is><r><t>in</t></r><r><t>line</t></r><rPh><t>x</t></rPh></is></c><c t="str"><f>"a"&amp;"b"</f><v>ab</v></c>`+
			`<c t="b"><v>1</v></c><c t="e"><f>1/0</f><v>#DIV/0!</v></c><c><f t="shared" si="0"/></c><c s="0"/></row>`+
			`<row r="4"><c r="A4"><v>0.35999999999999999</v></c><c r="B4" s="1"><v>45000</v></c><c r="C4" s="2"><v>.625</v></c>`+
			`<c r="D4" s="3"><v>812.50</v></c><c r="E4" t="d"><v>2025-06-30T00:00:00</v></c><c r="F4" s="4"><v>1E2</v></c></row>`+
			`<row r="5"/><row r="6"><c r="B6"><v>2</v></c><c r="A6"><v>1</v></c></row>`)))
	want := []Row{
		{Number: 1, Hidden: true, Cells: []Cell{
			{Column: 1, Kind: Text, Raw: "Tag"},
			{Column: 2, Kind: Text, Raw: "hot wt & more"},
			{Column: 3, Kind: Text, Raw: "412"},
			{Column: 6, Kind: Text, Raw: "two\rlines"},
		}},
		{Number: 2, Cells: []Cell{
			{Column: 1, Kind: Text, Raw: "inline"},
			{Column: 2, Kind: Text, Raw: "ab", Formula: true},
			{Column: 3, Kind: Bool, Raw: "TRUE"},
			{Column: 4, Kind: ErrorValue, Raw: "#DIV/0!", Formula: true},
			{Column: 5, Formula: true},
		}},
		{Number: 4, Cells: []Cell{
			{Column: 1, Kind: Number, Raw: "0.36"},
			{Column: 2, Kind: Number, Raw: "45000", Date: true, Style: 1},
			{Column: 3, Kind: Number, Raw: "0.625", Percent: true, Style: 2},
			{Column: 4, Kind: Number, Raw: "812.5", Style: 3},
			{Column: 5, Kind: Number, Raw: "45838", Date: true},
			{Column: 6, Kind: Number, Raw: "100", Date: true, Style: 4},
		}},
		{Number: 6, Cells: []Cell{{Column: 1, Kind: Number, Raw: "1"}, {Column: 2, Kind: Number, Raw: "2"}}},
	}
	if diff := cmp.Diff(want, grid(t, book, "Steers").Rows); diff != "" {
		t.Error(diff)
	}
}

func TestScanReadsPrefixedSheet(t *testing.T) {
	parts := plainWorkbook("")
	parts["xl/worksheets/sheet1.xml"] = declaration + `<x:worksheet xmlns:x="http://schemas.openxmlformats.org/spreadsheetml/2006/main">` +
		`<!-- a < b --><x:cols><x:col min="2" max="3" hidden="1"/></x:cols><x:sheetData><x:row r="3"><x:c r="B3"><x:v>7</x:v></x:c></x:row></x:sheetData>` +
		`<x:autoFilter ref="A1:B3"/><x:mergeCells><x:mergeCell ref="A1:C2"/></x:mergeCells></x:worksheet>`
	want := &Grid{
		Rows:          []Row{{Number: 3, Cells: []Cell{{Column: 2, Kind: Number, Raw: "7"}}}},
		Merged:        []Range{{1, 1, 3, 2}},
		HiddenColumns: map[int]bool{2: true, 3: true},
		Filtered:      true,
	}
	if diff := cmp.Diff(want, grid(t, open(t, pack(t, parts)), "Steers")); diff != "" {
		t.Error(diff)
	}
}

func TestStoredNumbersAreWhatWasTyped(t *testing.T) {
	for stored, want := range map[string]string{
		"0.35999999999999999": "0.36", "812": "812", "-0": "0", "1E-05": "0.00001",
		"00": "0", "840003123456789": "840003123456789", "12.50": "12.5", "1e300": "1e+300", "+5": "5", "0e-400": "0", ".5": "0.5", "5.": "5",
	} {
		got, ok := shortest(stored)
		if !ok || got != want {
			t.Errorf("%s: %q, %t; want %q", stored, got, ok, want)
		}
	}
	for _, none := range []string{"", "abc", "NaN", "Inf", "0x10", "1_000", "1.2.3", "-", "8e-400", "0.5E-9999"} {
		if got, ok := shortest(none); ok {
			t.Errorf("%q is taken for the number %q", none, got)
		}
	}
}

func TestFormatsOfDatesAndPercents(t *testing.T) {
	for code, want := range map[string]format{
		`General`: {}, `0.00`: {}, `0.0%`: {percent: true}, `yyyy-mm-dd`: {date: true}, `[h]:mm`: {date: true}, `mmm d`: {date: true},
		`0.0" days"`: {}, `0\d`: {}, `[Red]0.00`: {}, `[$-409]d/m/yyyy;@`: {date: true}, `0_d`: {}, `#,##0;"%"0`: {}, `"`: {}, `[`: {}, `\`: {},
	} {
		if got := customFormat(code); got != want {
			t.Errorf("%s: %+v, want %+v", code, got, want)
		}
	}
}

// Rows that are not wanted are passed over, and those below the last one are not read, whether or not the rows are held and whatever
// stands in them.
func TestOnlyTheRowsWantedAreRead(t *testing.T) {
	rows := `<row r="1"><c r="A1"><v>1</v></c></row><row r="2"><!-- </row> --><c r="A2"><v>2</v></c></row><row/><row r="5"><c r="A5"><f>A1*2</f><v>5</v></c></row><row r="9"><c r="A9"><f>A1*3</f><v>9</v></c></row>`
	for _, sheet := range []string{rows, strings.Replace(rows, "<!-- </row> -->", "", 1)} {
		for _, size := range []int{1 << 30, 0} {
			readInLists(t, size, 8)
			book := open(t, pack(t, plainWorkbook(sheet)))
			some, err := book.ScanRows("Steers", func(row int) bool { return row%4 == 1 })
			if err != nil {
				t.Fatal(err)
			}
			upper, formulas, err := book.ScanFormulas("Steers", 5)
			if err != nil {
				t.Fatal(err)
			}
			numbers := func(grid *Grid) (list []int) {
				for _, row := range grid.Rows {
					list = append(list, row.Number)
				}
				return list
			}
			if got, want := fmt.Sprint(numbers(some), numbers(upper), formulas), "[1 5 9] [1 2 5] map[{1 5}:A1*2]"; got != want {
				t.Errorf("read %s, want %s", got, want)
			}
		}
	}
}
