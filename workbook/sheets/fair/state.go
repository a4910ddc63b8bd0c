package fair

import (
	"railbook/workbook/record"
	"railbook/workbook/sheets/kit"
)

// writeState keeps what the program must remember, on a hidden sheet: a line a row, cut over several cells where it is long.
func (p *Writer) writeState() error {
	page := p.open(kit.PageSetup{Name: record.StateSheet, Mark: record.StateMark, Widths: []float64{120}, Landscape: true, Protected: true, Tab: kit.WorkingTab})
	plain := kit.Style{}
	for _, line := range record.WithViews(p.lines(), p.Look.Views) {
		page.WriteTexts(plain, record.CellsOf(line)...)
	}
	return page.CloseHidden()
}
