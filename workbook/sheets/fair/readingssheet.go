package fair

import (
	"railbook/rules/phrase"
	"railbook/workbook/intake"
	"railbook/workbook/sheets/kit"
)

const readingsHeadingRow = 4

// writeReadings writes a line for every cell that was read: the base of corrections and of verification.
func (p *Press) writeReadings() error { return p.writeRecords(intake.RecordsInSheet) }

// writeRecords writes so many lines to a sheet at most; what no longer fits goes on in the next.
func (p *Press) writeRecords(most int) error {
	left := 0
	for range intake.EachRecord(p.Read) {
		left++
	}
	number, plain := 1, kit.Style{Role: kit.Body}
	page := p.openReadings(number, min(left, most))
	room := most
	for record := range intake.EachRecord(p.Read) {
		if room == 0 {
			if err := page.Close(); err != nil {
				return err
			}
			number, left, room = number+1, left-most, most
			page = p.openReadings(number, min(left, most))
		}
		room--
		page.WriteTexts(plain, record.Sheet, record.Cell, record.Line, record.Class, record.Tag,
			record.Measure.String(), record.Written, record.Value, record.File)
	}
	return page.Close()
}

func (p *Press) openReadings(number, records int) *kit.Page {
	name, mark := intake.ReadingsPart(number)
	page := p.open(kit.Plan{
		Name: name, Mark: mark, Title: name + ": " + p.Status(),
		Subtitle:  phrase.Plural(records, "cell was read", "cells were read"),
		Widths:    []float64{18, 8, 7, 20, 12, 24, 22, 22, 14},
		Landscape: false, RepeatFrom: readingsHeadingRow, RepeatTo: readingsHeadingRow, FreezeRows: readingsHeadingRow,
		FilterRow: readingsHeadingRow, FilterTo: readingsHeadingRow + records, Protected: true, Tab: kit.WorkingTab,
	})
	page.Across("The program keeps this sheet: it is compared with the cells when the workbook is graded again or verified.", kit.Note, 1, 9)
	page.Headings(intake.SheetColumn, intake.CellColumn, intake.LineColumn, intake.ClassColumn, intake.TagColumn,
		intake.MeasureColumn, intake.WrittenColumn, intake.ValueColumn, intake.FileColumn)
	return page
}
