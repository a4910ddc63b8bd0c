package xlsx

import (
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// A cell that is read at one look is what the walk through its tags finds, and so is what is wrong with it: the same sheets are read
// with a blank in each cell's tag that is not looked for.
func TestPlainCellsAreReadAsAnyOther(t *testing.T) {
	attributes := []string{
		"", ` r="B1"`, ` r="D1"`, ` r='C1'`, ` r="A2"`, ` r="XFE1"`, ` s="0"`, ` s="2"`, ` s="x"`, ` s="1"  t="s"`, ` t="s"`, ` t = "str"`, ` t="str"`,
		` t="inlineStr"`, ` t="b"`, ` t="e"`, ` t="d"`, ` t="n"`, ` cm="1"`, ` x:a="&gt;"`,
	}
	inside := []string{
		"", "<v></v>", "<v>1</v>", "<v>7</v>", "<v> 1 </v>", "<v>0.35999999999999999</v>", "<v>a &amp; b</v>", "<v>a<!-- x -->b</v>", "<v><![CDATA[3]]></v>",
		"<v>_x000D_</v>", "<v>1</v> ", " <v>1</v>", "<v/>", "<f>A1*2</f><v>2</v>", "<v>2025-06-30</v>", "<v>TRUE</v>", "<v>nan</v>",
		"<is><t>Tag</t></is>", "<is><t></t></is>", "<is><t>two_x000D_lines &lt;</t></is>", `<is><t xml:space="preserve"> a </t></is>`,
		"<is><r><rPr><strike/></rPr><t>gone</t></r></is>", "<is><t>a</t><t>b</t></is>", "<is><t/></is>", "<x><v>1</v></x>",
	}
	read := func(sheet string) (*Grid, error) {
		scan := scanner{
			tags: tags{data: sheet}, texts: []string{"zero", "one"}, struckTexts: map[int]bool{1: true},
			formats: []format{{}, {date: true}, {percent: true, struck: true}}, grid: &Grid{},
		}
		err := scan.sheet()
		return scan.grid, err
	}
	for _, attribute := range attributes {
		for _, content := range inside {
			row := `<c t="s"><v>1</v></c><c ` + attribute + `>` + content + `</c><c r="F1"><v>7</v></c><c r="G1" /><c><v>8</v></c>`
			sheet := `<worksheet><sheetData><row r="1">` + row + `</row></sheetData></worksheet>`
			got, errGot := read(sheet)
			want, errWant := read(strings.ReplaceAll(sheet, "<c ", "<c\n"))
			if !reflect.DeepEqual(got, want) {
				t.Fatalf("%s (-by its tags +at one look)\n%s", row, cmp.Diff(want, got))
			}
			if (errGot == nil) != (errWant == nil) || errGot != nil && errGot.Error() != errWant.Error() {
				t.Fatalf("%s: %v at one look; %v by its tags", row, errGot, errWant)
			}
		}
	}
}
