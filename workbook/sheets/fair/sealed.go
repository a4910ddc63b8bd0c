package fair

import (
	"railbook/workbook/intake"
	"railbook/workbook/sheets/kit"
)

// writeSealed lists every fact that the signature covers. A provisional workbook has no such sheet.
func (p *Press) writeSealed() error {
	if len(p.Sealed) == 0 {
		return nil
	}
	page := p.open(kit.Plan{
		Name: intake.SealedSheet, Mark: intake.SealedMark, Title: "Sealed record",
		Subtitle: "Every fact that the signature covers; the seal is the SHA-256 of its canonical text",
		Widths:   []float64{12, 26, 14, 30, 70}, Landscape: true, RepeatFrom: 3, RepeatTo: 3, FreezeRows: 3, Tab: kit.WorkingTab,
	})
	page.Headings(intake.SealedKindColumn, intake.ClassColumn, intake.TagColumn, intake.SealedItemColumn, intake.ValueColumn)
	plain, wrapped := kit.Style{Role: kit.Body}, kit.Style{Role: kit.Body, Wrap: true}
	for _, line := range p.Sealed {
		page.Write(kit.Entry{Value: line.Kind, Style: plain}, kit.Entry{Value: line.Class, Style: plain}, kit.Entry{Value: line.Tag, Style: plain}, kit.Entry{Value: line.Item, Style: plain}, kit.Entry{Value: line.Value, Style: wrapped})
	}
	return page.Close()
}
