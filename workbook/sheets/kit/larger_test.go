package kit

import (
	"bytes"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

// A page is written in the largest type in which all its rows fit on one sheet of paper, and never in smaller than its own.
func TestAPageIsWrittenInTheLargestTypeThatFits(t *testing.T) {
	for _, row := range []struct {
		rows int
		size float64
	}{{10, 12}, {38, 12}, {41, 11}, {46, 10}, {90, 10}} {
		draft, err := FreshDraft("Cards")
		if err != nil {
			t.Fatal(err)
		}
		page := OpenPage(draft.NewSheet, NewLook(draft, false), PageSetup{Name: "Tag 1", Title: "Tag 1", Subtitle: "Steers", Widths: []float64{48, 49}})
		page.FillFrom(func(onto *Page) {
			onto.Across(strings.Repeat("What set it apart from the next one up. ", 4), Body, 1, 2)
			for range row.rows {
				onto.Write(Entry{"ribeye area", Style{Role: Body}}, Entry{"13.8 sq in", Style{Role: Strong}})
			}
		})
		page.Across("See the back.", Note, 1, 2)
		if err := page.Close(); err != nil {
			t.Fatal(err)
		}
		data, err := draft.Bytes()
		if err != nil {
			t.Fatal(err)
		}
		file, err := excelize.OpenReader(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		sizeOf := func(cell string) float64 {
			id, _ := file.GetCellStyle("Tag 1", cell)
			style, err := file.GetStyle(id)
			if err != nil {
				t.Fatal(err)
			}
			return style.Font.Size
		}
		rows, _ := file.GetRows("Tag 1")
		last, _ := excelize.CoordinatesToCellName(1, len(rows))
		if got := sizeOf("B4"); got != row.size || sizeOf(last) != HeadingSize {
			t.Errorf("%d rows are in %v points and what follows in %v, want %v and %v", row.rows, got, sizeOf(last), row.size, HeadingSize)
		}
		high := 0.0
		for number := range rows[:len(rows)-1] {
			points, _ := file.GetRowHeight("Tag 1", number+1)
			high += points
		}
		if most := (longSide - topMargin - bottomMargin) * 72 * 97 * freshUnit / (7.5 * 72); row.size > bodySize && high > most {
			t.Errorf("%d rows are %v points high, and the page %v", row.rows, high, most)
		}
	}
}
