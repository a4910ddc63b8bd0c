package writing

import (
	"slices"

	"railbook/workbook/reading"
)

const readingsHeadingRow = 4

// writeReadings writes a line for every cell that was read: the base of corrections and of verification. What no longer
// fits one sheet goes on in the next.
func (p *press) writeReadings() error {
	records := reading.Records(p.Read)
	if len(records) == 0 {
		return p.writeReadingsPart(1, nil)
	}
	number := 0
	for some := range slices.Chunk(records, reading.RecordsInSheet) {
		number++
		if err := p.writeReadingsPart(number, some); err != nil {
			return err
		}
	}
	return nil
}

func (p *press) writeReadingsPart(number int, records []reading.ReadingRecord) error {
	name, mark := reading.ReadingsPart(number)
	page := p.open(plan{
		Name: name, Mark: mark, Title: name + ": " + p.status(),
		Subtitle:  plural(len(records), "cell was read", "cells were read"),
		Widths:    []float64{18, 8, 7, 20, 12, 24, 22, 22, 14},
		Landscape: false, RepeatFrom: readingsHeadingRow, RepeatTo: readingsHeadingRow, FreezeRows: readingsHeadingRow,
		FilterRow: readingsHeadingRow, FilterTo: readingsHeadingRow + len(records), Protected: true, Tab: workingTab,
	})
	page.across("The program keeps this sheet: it is compared with the cells when the workbook is graded again or verified.", note, 1, 9)
	page.headings(reading.SheetColumn, reading.CellColumn, reading.LineColumn, reading.ClassColumn, reading.TagColumn,
		reading.MeasureColumn, reading.WrittenColumn, reading.ValueColumn, reading.FileColumn)
	plain := style{Role: body}
	for _, record := range records {
		page.write(
			entry{record.Sheet, plain}, entry{record.Cell, plain}, entry{record.Line, plain}, entry{record.Class, plain}, entry{record.Tag, plain},
			entry{string(record.Measure), plain}, entry{record.Written, plain}, entry{record.Value, plain}, entry{record.File, plain},
		)
	}
	return page.close()
}
