package writing

import "railbook/workbook/reading"

// writeSealed lists every fact that the signature covers. A provisional workbook has no such sheet.
func (p *press) writeSealed() error {
	if len(p.Sealed) == 0 {
		return nil
	}
	page := p.open(plan{
		Name: reading.SealedSheet, Mark: reading.SealedMark, Title: "Sealed record",
		Subtitle: "Every fact that the signature covers; the seal is the SHA-256 of its canonical text",
		Widths:   []float64{12, 26, 14, 30, 70}, Landscape: true, RepeatFrom: 3, RepeatTo: 3, FreezeRows: 3, Tab: workingTab,
	})
	page.headings(reading.SealedKindColumn, reading.ClassColumn, reading.TagColumn, reading.SealedItemColumn, reading.ValueColumn)
	plain, wrapped := style{Role: body}, style{Role: body, Wrap: true}
	for _, line := range p.Sealed {
		page.write(entry{line.Kind, plain}, entry{line.Class, plain}, entry{line.Tag, plain}, entry{line.Item, plain}, entry{line.Value, wrapped})
	}
	return page.close()
}
