package writing

import (
	"slices"

	"railbook/rules/measure"
)

const columnGuide = "Column guide"

// guide writes the tab that explains each column in plain words. A column is named as "Column F: Carcass weight, lb" and
// never by its heading alone, so that the reader of rail sheets does not take the guide for one.
func (w *railWriter) guide() error {
	widths := []float64{27, 36, 48, 8, 15, 17}
	p := openPage(w.newSheet, w.look, plan{
		Name: columnGuide, Status: "For plant and judge", Title: "What each column wants",
		Subtitle: "In the order in which the columns stand. Where a cell is in doubt, leave it blank and write a remark.",
		Widths:   widths, Landscape: true, Tab: firstTab, RepeatFrom: 3, RepeatTo: 3, FreezeRows: 3,
	})
	headings := []entry{{"The column", style{Role: heading, Wrap: true}}}
	for _, text := range []string{"What to measure or mark", "Where, and with what", "Unit", "Example", "Warned about outside"} {
		headings = append(headings, entry{text, style{Role: heading, Wrap: true, Indent: true}})
	}
	p.write(headings...)
	for at, sheet := range w.done {
		if at > 0 {
			p.breakPage()
		}
		p.across(railTitle(sheet.kind), band, 1, len(widths))
		for number, column := range sheet.columns[:sheet.printed] {
			sheet.guideLine(p, number, column)
		}
	}
	p.skip(1)
	for _, words := range guideNotes {
		p.across(words, note, 1, len(widths))
	}
	return p.close()
}

func (p *railPage) guideLine(guide *page, number int, column railColumn) {
	words := p.guideOf(column)
	text := style{Role: body, Wrap: true, Indent: true}
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
	guide.write(
		entry{"Column " + columnName(number+1) + ": " + column.heading, style{Role: strong, Wrap: true}},
		entry{words.what, text}, entry{words.how, text}, entry{unit, text}, entry{words.example, text}, entry{usual, text},
	)
}

// guideNotes are said once for all sheets.
var guideNotes = slices.Concat([]string{
	"A warning is no refusal: real carcasses break limits. Look at the carcass again, and keep the figure if it is right.",
	"Yes marks a condition; blank and no both mean that it is not there.",
}, cautions)
