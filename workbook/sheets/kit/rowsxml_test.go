package kit

import (
	"encoding/xml"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"railbook/workbook/record"
	"railbook/workbook/sheets/sheetstest"
	"railbook/workbook/xlsx"
)

// Whatever a cell of the user's said, our sheets say it back letter for letter, and none of it is taken for XML or a
// formula.
func TestAnyTextIsWrittenAsItIs(t *testing.T) {
	letters := rapid.RuneFrom([]rune("aZ0 .,;:=+-@'\"&<>\t\néß½–☃\U0001F402"))
	rapid.Check(t, func(t *rapid.T) {
		texts := rapid.SliceOfN(rapid.StringOfN(letters, 1, 20, -1), 1, 5).Draw(t, "texts")
		book := sheetstest.BlankBook(t)
		page := OpenPage(book.NewSheet, LookOf(book, false), PageSetup{Name: "Readings", Mark: record.ReadingsMark, Widths: []float64{10}, Tab: WorkingTab})
		for _, text := range texts {
			page.Write(Entry{text, Style{Role: Body}})
		}
		if err := page.Close(); err != nil {
			t.Fatal(err)
		}
		data, err := book.Bytes()
		if err != nil {
			t.Fatal(err)
		}
		again, err := xlsx.OpenBytes("again.xlsx", data, xlsx.OpenOptions{})
		if err != nil {
			t.Fatal(err)
		}
		grid, err := again.Scan("Readings")
		if err != nil {
			t.Fatal(err)
		}
		for i, text := range texts {
			if cell := grid.Rows[i].Cells[0]; cell.Raw != text || cell.Kind != xlsx.Text || cell.Formula {
				t.Fatalf("%q came back as %+v", text, cell)
			}
		}
	})
}

// Against the standard library, on whatever bytes a text has. Quotes stand for themselves in content (XML 1.0, 2.4).
func TestTextIsEscapedAsTheLibraryEscapesIt(t *testing.T) {
	letters := rapid.RuneFrom([]rune("aZ0 &<>\"'\t\n\r\x00\x1b\x7fé½–☃\ufffd\ufffe\uffff\U0001F402"))
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringOfN(letters, 0, 12, -1).Draw(t, "text") + rapid.SampledFrom([]string{"", "\x80", "\xe2\x98", "\xed\xa0\x80"}).Draw(t, "odd bytes")
		var library strings.Builder
		if err := xml.EscapeText(&library, []byte(text)); err != nil {
			t.Fatal(err)
		}
		want := strings.NewReplacer("&#34;", `"`, "&#39;", "'").Replace(library.String())
		if got := string(AppendEscaped([]byte("<t>"), text)); got != "<t>"+want {
			t.Fatalf("%q became %s, not %s", text, got, want)
		}
	})
}

func TestLongTextIsCutToWhatACellHolds(t *testing.T) {
	if got := cellText(strings.Repeat("a", 100_000)); len(got) == 0 || len(got) > 32767 {
		t.Errorf("%d letters are left", len(got))
	}
}

// What a row is compared by is what its cells hold: not what was cut off, nor what XML cannot hold (XML 1.0, Char).
func TestARowIsComparedAsItIsWritten(t *testing.T) {
	for text, want := range map[string]string{
		strings.Repeat("a", 40_000): cellText(strings.Repeat("a", 40_000)), "a\x1bb\ufffe\xff": "a\ufffdb\ufffd\ufffd", "a\tb\nc\r é": "a\tb\nc\r é",
	} {
		if got := viewCells(nil, []Entry{{Value: text}})[0].Text; got != want {
			t.Errorf("%.20q is compared as %.20q", text, got)
		}
	}
}

func TestTextIsBrokenBetweenWords(t *testing.T) {
	for _, test := range []struct {
		text   string
		points float64
		lines  int
	}{{"", 50, 1}, {"one two", 50, 1}, {"one two three", 50, 2}, {"unbreakable", 30, 3}, {"a unbreakable b", 30, 4}} {
		if got := linesOf(test.text, test.points, Body); got != test.lines {
			t.Errorf("%q in %v points: %d lines, want %d", test.text, test.points, got, test.lines)
		}
	}
}
