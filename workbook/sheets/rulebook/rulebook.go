package rulebook

import (
	"strconv"

	"railbook/rules"
	"railbook/workbook/intake"
	"railbook/workbook/record"
	"railbook/workbook/sheets/kit"
	"railbook/workbook/xlsx"
)

// WriteRulebook fills an empty workbook with a rulebook for a board to edit.
func WriteRulebook(book *xlsx.Book, tables []rules.Table) error {
	return fillRulebook(book.NewSheet, kit.LookOf(book, false), tables)
}

func fillRulebook(make kit.SheetMaker, look *kit.Look, tables []rules.Table) error {
	own := rules.MeasuresOf(tables)
	measures := measuresRange(own)
	for _, table := range tables {
		sheet := rulebookSheet{table: table, tab: kit.InputTab, name: table.Name, measures: measures}
		sheet.layout, _ = rules.LayoutOf(table.Name)
		if table.Name == rules.MeasuresTable {
			sheet.listed = listedMeasures()
		}
		if err := sheet.Write(make, look); err != nil {
			return err
		}
	}
	return nil
}

// rulebookSheet is one table on its way to a sheet.
type rulebookSheet struct {
	layout   rules.TableLayout
	table    rules.Table
	name     string
	tab      string
	measures string     // the range that lists the measures, for drop-downs
	listed   [][]string // lines that only list what there is
}

// Rows of a rulebook's sheet above the table.
const (
	rulebookTitleRow   = 1
	rulebookPurposeRow = 2
	HeadingRow         = 4
)

func (s rulebookSheet) Write(make kit.SheetMaker, look *kit.Look) error {
	widths := s.widths()
	lines := s.lines()
	printed := len(widths)
	if s.layout.Name == rules.MeasuresTable && len(lines) == 0 {
		printed = listedColumns // the others are for measures that a board declares
	}
	p := kit.OpenPage(make, look, kit.PageSetup{
		Name: s.name, Mark: s.mark(), Status: "Rulebook",
		Widths: widths, Printed: printed, Landscape: Sum(widths[:printed]) > portraitWidth, Tab: s.tab,
		RepeatFrom: HeadingRow, RepeatTo: HeadingRow, FreezeRows: HeadingRow,
	})
	p.WriteHigh(24, kit.Entry{Value: intake.RulebookTitle(s.table.Name), Style: kit.Style{Role: kit.Title}})
	p.Across(s.layout.Purpose, kit.Note, 1, printed)
	p.Skip(1)
	p.Write(s.headingEntries()...)
	for _, line := range lines {
		p.Write(s.entries(line)...)
	}
	for _, line := range s.listed {
		p.Write(s.listedEntries(line)...)
	}
	for range spareLines(s.layout.Name) {
		p.Write(s.entries(nil)...)
	}
	if printed < len(widths) {
		p.PrintTo(printed)
	}
	s.addChoices(p, len(lines)+len(s.listed))
	return p.Close()
}

// mark makes the sheet known again.
func (s rulebookSheet) mark() string {
	return record.RulebookMark + strconv.Itoa(intake.TableNumber(s.table.Name))
}
