package railsheet

import (
	"slices"

	"railbook/rules/measure"
	"railbook/workbook/sheets/kit"
)

const columnGuide = "Column guide"

// guide writes the tab that explains each column in plain words. A column is named as "Column F: Carcass weight, lb" and
// never by its heading alone, so that the reader of rail sheets does not take the guide for one.
func (w *railWriter) guide() error {
	widths := []float64{27, 36, 48, 8, 15, 17}
	p := kit.OpenPage(w.newSheet, w.look, kit.Plan{
		Name: columnGuide, Status: "For plant and judge", Title: "What each column wants",
		Subtitle: "In the order in which the columns stand. Where a cell is in doubt, leave it blank and write a remark.",
		Widths:   widths, Landscape: true, Tab: kit.FirstTab, RepeatFrom: 3, RepeatTo: 3, FreezeRows: 3,
	})
	headings := []kit.Entry{{Value: "The column", Style: kit.Style{Role: kit.Heading, Wrap: true}}}
	for _, text := range []string{"What to measure or mark", "Where, and with what", "Unit", "Example", "Warned about outside"} {
		headings = append(headings, kit.Entry{Value: text, Style: kit.Style{Role: kit.Heading, Wrap: true, Indent: true}})
	}
	p.Write(headings...)
	for at, sheet := range w.done {
		if at > 0 {
			p.BreakPage()
		}
		p.Across(railTitle(sheet.kind), kit.Band, 1, len(widths))
		for number, column := range sheet.columns[:sheet.printed] {
			sheet.guideLine(p, number, column)
		}
	}
	p.Skip(1)
	for _, words := range guideNotes {
		p.Across(words, kit.Note, 1, len(widths))
	}
	return p.Close()
}

func (p *railPage) guideLine(guide *kit.Page, number int, column railColumn) {
	words := p.guideOf(column)
	text := kit.Style{Role: kit.Body, Wrap: true, Indent: true}
	definition, _ := measure.Define(column.measure)
	unit := definition.Unit
	if column.dots {
		unit = "dots"
	}
	usual := ""
	if limit, ok := p.limitOf(column); ok && !column.dots {
		within := entryBounds(limit)
		usual = entryWords(within.low, within.high) + " " + unit
	} else if column.choices != nil {
		usual = "the list"
	}
	guide.Write(
		kit.Entry{Value: "Column " + kit.ColumnName(number+1) + ": " + column.heading, Style: kit.Style{Role: kit.Strong, Wrap: true}},
		kit.Entry{Value: words.what, Style: text}, kit.Entry{Value: words.how, Style: text}, kit.Entry{Value: unit, Style: text}, kit.Entry{Value: words.example, Style: text}, kit.Entry{Value: usual, Style: text},
	)
}

// guideNotes are said once for all sheets.
var guideNotes = slices.Concat([]string{
	"A warning is no refusal: real carcasses break limits. Look at the carcass again, and keep the figure if it is right.",
	"Yes marks a condition; blank and no both mean that it is not there.",
}, kit.Cautions)
