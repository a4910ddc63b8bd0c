package xlsx

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// A sheet whose pieces are read side by side is the sheet as it is read from its beginning, row after row: with rows that have no number
// of their own, out of order, struck out or damaged, and up to any number of cells. What is wrong is said in the same words, of the same place.
func TestPiecesReadSideBySideAreTheSheet(t *testing.T) {
	readInLists(t, 0, 60)
	rapid.Check(t, func(r *rapid.T) {
		var rows strings.Builder
		for i := range rapid.IntRange(0, 25).Draw(r, "rows") {
			number := rapid.SampledFrom([]int{i + 1, i + 1, i + 1, i + 7, 2}).Draw(r, "number")
			if rapid.IntRange(0, 4).Draw(r, "unnumbered") > 0 {
				fmt.Fprintf(&rows, `<row r="%d">`, number)
			} else {
				rows.WriteString("<row>")
			}
			for range rapid.IntRange(0, 3).Draw(r, "cells") {
				rows.WriteString(rapid.SampledFrom([]string{
					`<c><v>12.5</v></c>`, `<c/>`, `<c t="s"><v>0</v></c>`, `<c t="inlineStr"><is><t>steer</t></is></c>`,
					`<c t="inlineStr"><is><r><rPr><strike/></rPr><t>out</t></r></is></c>`, `<c t="b"><v>1</v></c>`,
				}).Draw(r, "cell"))
			}
			if rapid.IntRange(0, 60).Draw(r, "damaged") == 0 {
				rows.WriteString(rapid.SampledFrom([]string{`<c r="A0"><v>1</v></c>`, `<c t="s"><v>99</v></c>`, `<c r="ZZZZ1"/>`}).Draw(r, "damage"))
			}
			rows.WriteString("</row>")
		}
		book := open(t, pack(t, plainWorkbook(rows.String())))
		sheet := book.Sheets()[0].Name
		limit := rapid.IntRange(0, 30).Draw(r, "limit")
		got, errGot := book.scanTo(sheet, nil, limit, nil)
		want, errWant := book.scanTo(sheet, nil, limit, func(int) bool { return true })
		if diff := cmp.Diff(want, got); diff != "" || fmt.Sprint(errWant) != fmt.Sprint(errGot) {
			r.Fatalf("%s\n%v\n%v", diff, errWant, errGot)
		}
	})
}
