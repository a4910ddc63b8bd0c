package writing

import "railbook/workbook/reading"

const readingsHeadingRow = 4

// writeReadings writes a line for every cell that was read: the base of corrections and of verification.
func (p *press) writeReadings() error { return p.writeRecords(reading.RecordsInSheet) }

// writeRecords writes so many lines to a sheet at most; what no longer fits goes on in the next.
func (p *press) writeRecords(most int) error {
	left := 0
	for range reading.EachRecord(p.Read) {
		left++
	}
	number, plain := 1, style{Role: body}
	page := p.openReadings(number, min(left, most))
	room := most
	for record := range reading.EachRecord(p.Read) {
		if room == 0 {
			if err := page.close(); err != nil {
				return err
			}
			number, left, room = number+1, left-most, most
			page = p.openReadings(number, min(left, most))
		}
		room--
		page.writeTexts(plain, record.Sheet, record.Cell, record.Line, record.Class, record.Tag,
			record.Measure.String(), record.Written, record.Value, record.File)
	}
	return page.close()
}

func (p *press) openReadings(number, records int) *page {
	name, mark := reading.ReadingsPart(number)
	page := p.open(plan{
		Name: name, Mark: mark, Title: name + ": " + p.status(),
		Subtitle:  plural(records, "cell was read", "cells were read"),
		Widths:    []float64{18, 8, 7, 20, 12, 24, 22, 22, 14},
		Landscape: false, RepeatFrom: readingsHeadingRow, RepeatTo: readingsHeadingRow, FreezeRows: readingsHeadingRow,
		FilterRow: readingsHeadingRow, FilterTo: readingsHeadingRow + records, Protected: true, Tab: workingTab,
	})
	page.across("The program keeps this sheet: it is compared with the cells when the workbook is graded again or verified.", note, 1, 9)
	page.headings(reading.SheetColumn, reading.CellColumn, reading.LineColumn, reading.ClassColumn, reading.TagColumn,
		reading.MeasureColumn, reading.WrittenColumn, reading.ValueColumn, reading.FileColumn)
	return page
}
