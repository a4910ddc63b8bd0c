package writing

import (
	"strconv"

	"github.com/xuri/excelize/v2"

	"railbook/rules"
	"railbook/workbook/parts"
	"railbook/workbook/reading"
)

// AddRulebookSheets adds the tables a results workbook was graded by, one sheet a table, hidden so that they do not
// crowd the tabs people read. They are known again by their marks.
func AddRulebookSheets(book *parts.Book, tables []rules.Table) error {
	look := lookOf(book, true)
	for _, table := range tables {
		sheet := rulebookSheet{table: table, tab: workingTab, name: "Rulebook " + table.Name}
		sheet.plan, _ = rules.PlanOf(table.Name)
		if err := sheet.write(book.NewSheet, look); err != nil {
			return err
		}
	}
	return nil
}

// WriteRulebook fills an empty workbook with a rulebook for a board to edit.
func WriteRulebook(book *parts.Book, tables []rules.Table) error {
	return fillRulebook(book.NewSheet, lookOf(book, false), tables)
}

func fillRulebook(make sheetMaker, look *look, tables []rules.Table) error {
	measures := measuresRange()
	for _, table := range tables {
		sheet := rulebookSheet{table: table, tab: inputTab, name: table.Name, measures: measures, edited: true}
		sheet.plan, _ = rules.PlanOf(table.Name)
		if err := sheet.write(make, look); err != nil {
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

func (s rulebookSheet) write(make sheetMaker, look *look) error {
	widths := s.widths()
	lines := s.lines()
	p := openPage(make, look, plan{
		Name: s.name, Mark: s.mark(), Status: s.status(),
		Widths: widths, Landscape: sum(widths) > portraitWidth, Tab: s.tab,
		RepeatFrom: rulebookHeadingRow, RepeatTo: rulebookHeadingRow, FreezeRows: rulebookHeadingRow,
	})
	p.writeHigh(24, entry{reading.RulebookTitle(s.table.Name), style{Role: title}})
	p.across(s.plan.Purpose, note, 1, len(widths))
	p.skip(1)
	p.write(s.headingEntries()...)
	for _, line := range lines {
		p.write(s.entries(line)...)
	}
	if s.edited {
		for range spareLines(s.plan.Name) {
			p.write(s.entries(nil)...)
		}
		s.addChoices(p, len(lines))
	}
	if err := p.close(); err != nil {
		return err
	}
	if s.edited {
		return nil
	}
	hide(look.file, p.Name)
	return nil
}

// mark makes the sheet known again: a board's own sheet, or our copy in a results workbook.
func (s rulebookSheet) mark() string {
	kind := reading.RulebookCopy
	if s.edited {
		kind = reading.RulebookMark
	}
	return kind + strconv.Itoa(reading.TableNumber(s.table.Name))
}

// hide takes a sheet's tab off the screen. It can be shown again in any spreadsheet program. (The library's own way reads
// every sheet of the workbook for it.)
func hide(file *excelize.File, sheet string) {
	for number := range file.WorkBook.Sheets.Sheet {
		if file.WorkBook.Sheets.Sheet[number].Name == sheet {
			file.WorkBook.Sheets.Sheet[number].State = "hidden"
		}
	}
}
