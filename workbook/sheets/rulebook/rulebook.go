package rulebook

import (
	"strconv"

	"railbook/rules"
	"railbook/workbook/intake"
	"railbook/workbook/sheets/kit"
	"railbook/workbook/xlsx"

	"github.com/xuri/excelize/v2"
)

// AddRulebookSheets adds the tables a results workbook was graded by, one sheet a table, hidden so that they do not
// crowd the tabs people read. They are known again by their marks.
func AddRulebookSheets(book *xlsx.Book, tables []rules.Table) error {
	look := kit.LookOf(book, true)
	for _, table := range tables {
		sheet := rulebookSheet{table: table, tab: kit.WorkingTab, name: "Rulebook " + table.Name}
		sheet.plan, _ = rules.PlanOf(table.Name)
		if err := sheet.Write(book.NewSheet, look); err != nil {
			return err
		}
	}
	return nil
}

// WriteRulebook fills an empty workbook with a rulebook for a board to edit.
func WriteRulebook(book *xlsx.Book, tables []rules.Table) error {
	return fillRulebook(book.NewSheet, kit.LookOf(book, false), tables)
}

func fillRulebook(make kit.SheetMaker, look *kit.Look, tables []rules.Table) error {
	measures := measuresRange()
	for _, table := range tables {
		sheet := rulebookSheet{table: table, tab: kit.InputTab, name: table.Name, measures: measures, edited: true}
		sheet.plan, _ = rules.PlanOf(table.Name)
		if err := sheet.Write(make, look); err != nil {
			return err
		}
	}
	return addMeasuresSheet(make, look)
}

// rulebookSheet is one table on its way to a sheet.
type rulebookSheet struct {
	plan     rules.Plan
	table    rules.Table
	name     string
	tab      string
	edited   bool   // a board edits it: drop-downs, tinted cells and room for more lines
	measures string // the range that lists the measures, for drop-downs
}

// Rows of a rulebook's sheet above the table.
const (
	rulebookTitleRow   = 1
	rulebookPurposeRow = 2
	rulebookHeadingRow = 4
)

func (s rulebookSheet) Write(make kit.SheetMaker, look *kit.Look) error {
	widths := s.widths()
	lines := s.lines()
	p := kit.OpenPage(make, look, kit.Plan{
		Name: s.name, Mark: s.mark(), Status: s.Status(),
		Widths: widths, Landscape: Sum(widths) > portraitWidth, Tab: s.tab,
		RepeatFrom: rulebookHeadingRow, RepeatTo: rulebookHeadingRow, FreezeRows: rulebookHeadingRow,
	})
	p.WriteHigh(24, kit.Entry{Value: intake.RulebookTitle(s.table.Name), Style: kit.Style{Role: kit.Title}})
	p.Across(s.plan.Purpose, kit.Note, 1, len(widths))
	p.Skip(1)
	p.Write(s.headingEntries()...)
	for _, line := range lines {
		p.Write(s.entries(line)...)
	}
	if s.edited {
		for range spareLines(s.plan.Name) {
			p.Write(s.entries(nil)...)
		}
		s.addChoices(p, len(lines))
	}
	if err := p.Close(); err != nil {
		return err
	}
	if s.edited {
		return nil
	}
	Hide(look.File, p.Name)
	return nil
}

// mark makes the sheet known again: a board's own sheet, or our copy in a results workbook.
func (s rulebookSheet) mark() string {
	kind := intake.RulebookCopy
	if s.edited {
		kind = intake.RulebookMark
	}
	return kind + strconv.Itoa(intake.TableNumber(s.table.Name))
}

// hide takes a sheet's tab off the screen. It can be shown again in any spreadsheet program. (The library's own way reads
// every sheet of the workbook for it.)
func Hide(file *excelize.File, sheet string) {
	for number := range file.WorkBook.Sheets.Sheet {
		if file.WorkBook.Sheets.Sheet[number].Name == sheet {
			file.WorkBook.Sheets.Sheet[number].State = "hidden"
		}
	}
}
