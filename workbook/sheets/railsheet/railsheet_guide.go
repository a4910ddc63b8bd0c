package railsheet

import (
	"strings"

	"railbook/rules/measure"
	"railbook/workbook/sheets/kit"
)

const columnGuide = "Column guide"

// guide writes the tab that explains each column in plain words. A column is named as "Column: Carcass weight, lb" and
// never by its heading alone, so that the reader of rail sheets does not take the guide for one.
func (w *railWriter) guide() error {
	widths := []float64{22, 68, 13, 15}
	p := kit.OpenPage(w.draft.NewSheet, w.look, kit.PageSetup{
		Name: columnGuide, Status: "For plant and judge", Title: "What each column wants",
		Subtitle: "In the order in which the columns stand. Where a cell is in doubt, leave it blank and write a remark.",
		Widths:   widths, Landscape: true, FullSize: len(w.done) > 1, OnePage: len(w.done) == 1, Tab: kit.FirstTab, RepeatFrom: 3, RepeatTo: 3, FreezeRows: 3,
	})
	headings := []kit.Entry{{Value: "The column", Style: kit.Style{Role: kit.Heading, Wrap: true}}}
	for _, text := range []string{"What to measure or mark, where, and with what", "Example", "Warned outside"} {
		headings = append(headings, kit.Entry{Value: text, Style: kit.Style{Role: kit.Heading, Wrap: true, Indent: true}})
	}
	p.Write(headings...)
	said := map[string]bool{}
	for _, sheet := range w.done {
		p.Keep(60)
		p.Across(railTitle(sheet.kind), kit.Band, 1, len(widths))
		for _, column := range sheet.columns[:sheet.printed] {
			sheet.guideLine(p, column, said)
		}
	}
	p.Skip(1)
	for _, words := range guideNotes {
		p.Across(words, kit.Note, 1, len(widths))
	}
	return p.Close()
}

// guideLine explains a column, once for all sheets on which it means the same.
func (p *railPage) guideLine(guide *kit.Page, column railColumn, said map[string]bool) {
	words := p.guideOf(column)
	text := kit.Style{Role: kit.Body, Wrap: true, Indent: true}
	definition, _ := measure.Define(column.measure)
	unit := definition.Unit
	switch {
	case column.dots == dotsOutlined:
		unit = "sq in"
	case column.dots != noDots:
		unit = "dots"
	}
	usual := ""
	if limit, ok := p.limitOf(column); ok && column.dots == noDots {
		within := entryBounds(limit)
		usual = entryWords(within.low, within.high) + " " + unit
	} else if column.choices != nil {
		usual = "the list"
	}
	key := strings.Join([]string{column.heading, words.what, words.how, words.example, usual}, "\t")
	if said[key] {
		return
	}
	said[key] = true
	guide.Write(
		kit.Entry{Value: "Column: " + column.heading, Style: kit.Style{Role: kit.Strong, Wrap: true}},
		kit.Entry{Value: strings.TrimSpace(words.what + " " + words.how), Style: text}, kit.Entry{Value: words.example, Style: text}, kit.Entry{Value: usual, Style: text},
	)
}

// guideNotes are said once for all sheets.
var guideNotes = []string{
	"A warning is no refusal: real carcasses break limits. Look at the carcass again, and keep the figure if it is right.",
	"Yes marks a condition; blank and no both mean that it is not there. The plant's inspector alone decides whether a carcass is fit for food.",
}
