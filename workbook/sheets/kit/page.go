package kit

import (
	"fmt"
	"slices"

	"github.com/shopspring/decimal"

	"railbook/rules/address"
	"railbook/workbook/record"
	"railbook/workbook/xlsx"
)

// PageSetup is what must be known of a sheet before its first row is written: a stream of rows cannot go back.
type PageSetup struct {
	Name, Mark    string // as in package reading
	Title         string // of the first row; empty: no title rows are written
	Subtitle      string // of the second row
	Status        string // "Provisional" or "Signed", printed on every page
	Foot          string // printed in the middle of the foot of every page
	Of            string // the fair, place, date, judge and plant, printed on every page; empty where none is known
	Widths        []float64
	Hidden        []int // columns, from 1
	Printed       int   // how many columns are printed, by PrintTo, where not all that are seen; 0: all
	Landscape     bool
	OnePage       bool // printed on a single page, made as small as that takes
	FullSize      bool // printed in its own size, whatever fits
	PagesWide     int  // how many pages its columns are printed on, side by side; 0: one
	RepeatFrom    int  // the rows repeated on every printed page; 0: none
	RepeatTo      int
	RepeatColumns int // the columns from the first that are repeated on pages side by side
	FreezeRows    int
	FreezeColumns int
	FilterRow     int // the heading row that gets filter buttons; 0: none
	FilterTo      int // the last row filtered
	Protected     bool
	Zoom          float64 // percent on the screen; 0: the program's own
	Tab           string
}

// MostRows is how many rows a sheet holds (Excel specifications and limits, Microsoft).
const MostRows = 1 << 20

// Page is one of our sheets while it is filled, row by row from the top. Its first error stays and is returned by
// close, so that a sheet can be written as straight lines.
type Page struct {
	PageSetup
	look   *Look
	writer *xlsx.RowWriter
	rows   rowsXML
	Row    int     // the last row written
	used   float64 // points of the printed page that are filled
	filled float64 // points of all rows
	larger int     // how many steps larger than in their own size its roles are written
	repeat float64 // points that the repeated rows take of it
	links  int
	view   record.View       // what it says, row by row
	said   []record.ViewCell // in the last row
	err    error
}

// Entry is one cell of a page.
type Entry struct {
	Value any // string, decimal.Decimal, int, live or nil
	Style Style
}

// Live is a value with the formula that gives it.
type Live struct {
	Formula string
	Value   any
}

// SheetMaker adds an empty sheet of ours and gives the name it got.
type SheetMaker func(name, mark string) (string, error)

// OpenPage makes a sheet and sets up everything that must stand before its rows.
func OpenPage(make SheetMaker, look *Look, wanted PageSetup) *Page {
	p := &Page{PageSetup: wanted, look: look}
	p.Name, p.err = make(wanted.Name, wanted.Mark)
	p.Do(p.setUpPaper)
	if p.err != nil {
		return p
	}
	p.writer, p.err = look.draft.Rows(p.Name)
	p.Do(p.setUpColumns)
	p.Do(p.setUpRows)
	if wanted.Title != "" {
		p.Write(Entry{wanted.Title, Style{Role: Title}})
		p.Across(wanted.Subtitle, Subtitle, 1, p.printedColumns())
	}
	return p
}

func (p *Page) Do(step func() error) {
	if p.err == nil {
		p.err = step()
	}
}

func (p *Page) setUpColumns() error {
	for i, width := range p.Widths {
		if err := p.writer.SetWidth(i+1, width); err != nil {
			return err
		}
	}
	for _, column := range p.Hidden {
		if err := p.writer.HideColumn(column); err != nil {
			return err
		}
	}
	if p.FreezeRows == 0 {
		return nil
	}
	return p.writer.Freeze(p.FreezeColumns, p.FreezeRows)
}

func (p *Page) setUpRows() (err error) {
	if p.look.Fill != nil {
		p.rows.rows, err = p.look.Fill(p.Name)
	}
	return err
}

// Write adds a row and gives its number.
func (p *Page) Write(entries ...Entry) int { return p.WriteHigh(0, entries...) }

// WriteHigh adds a row of at least a height in points. Every row gets the height that its texts need, for not every
// spreadsheet program works that out when it opens a workbook.
func (p *Page) WriteHigh(height float64, entries ...Entry) int {
	p.Row++
	entries = p.enlarged(entries)
	height = max(height, p.HeightOfRow(entries...))
	p.fill(height)
	if p.err != nil {
		return p.Row
	}
	if record.ViewTitle(p.Mark) != "" && p.Row <= record.MostRows {
		p.view.Mark = p.Mark
		p.said = viewCells(p.said[:0], entries)
		p.view.AddRow(p.Row, p.said)
	}
	if p.look.Fill != nil {
		p.err = p.rows.add(p.look, p.Row, height, entries)
	} else {
		p.err = p.writeRow(height, entries)
	}
	return p.Row
}

// enlarged gives entries in the size in which the page is written.
func (p *Page) enlarged(entries []Entry) []Entry {
	if p.larger == 0 {
		return entries
	}
	entries = slices.Clone(entries)
	for i := range entries {
		if entries[i] != (Entry{}) {
			entries[i].Style.Role = entries[i].Style.Role.larger(p.larger)
		}
	}
	return entries
}

// WriteTexts adds a row of texts of one style that does not wrap, for sheets of very many rows.
func (p *Page) WriteTexts(of Style, texts ...string) {
	p.Row++
	p.Do(func() error { return p.rows.addTexts(p.look, p.Row, heightOf("", 1, of.Role), of, texts) })
}

// viewCells adds what a row says to a list.
func viewCells(cells []record.ViewCell, entries []Entry) []record.ViewCell {
	for i, entry := range entries {
		cell := record.ViewCell{Column: i + 1}
		switch value := entry.Value.(type) {
		case nil:
			continue
		case Live:
			cell.Formula, cell.Form = true, record.FormulaForm(value.Formula, address.Cell)
		default:
			cell.Text = cellText(written(value))
		}
		cells = append(cells, cell)
	}
	return cells
}

// writeRow writes a row through the library, for a workbook that is no more than the library's own.
func (p *Page) writeRow(height float64, entries []Entry) (err error) {
	cells := make([]*xlsx.RowCell, len(entries))
	for i, entry := range entries {
		if entry == (Entry{}) {
			continue
		}
		if cells[i], err = p.cell(entry); err != nil {
			return err
		}
	}
	return p.writer.Write(p.Row, height, p.rows.hidden, cells)
}

func (p *Page) cell(entry Entry) (*xlsx.RowCell, error) {
	id, err := p.look.id(entry.Style)
	cell := &xlsx.RowCell{Style: id, Value: entry.Value}
	if live, isLive := entry.Value.(Live); isLive {
		cell.Formula, cell.Value = live.Formula, live.Value
	}
	switch value := cell.Value.(type) {
	case decimal.Decimal:
		cell.Value = value.InexactFloat64()
	case string:
		cell.Value = cellText(value)
		if value == "" && cell.Formula == "" {
			cell.Value = nil
		}
	}
	return cell, err
}

// Across writes one text over several columns, high enough for all of it: merged cells never fit themselves.
func (p *Page) Across(text string, of Role, from, to int) int {
	wide := p.wide(from, to)
	cells := make([]Entry, to)
	for i := from - 1; i < to; i++ {
		cells[i] = Entry{"", Style{Role: of, Wrap: true}}
	}
	high := p.HeightOf(text, wide, of.larger(p.larger))
	cells[from-1] = Entry{text, Style{Role: of, Wrap: true, Across: true}}
	row := p.WriteHigh(high, cells...)
	p.MergeAcross(row, from, to)
	return row
}

func (p *Page) MergeAcross(row, from, to int) {
	p.Do(func() error {
		return p.writer.Merge(row, from, to)
	})
}

// Spanning writes a row in which one text stands over several columns, from the one it stands in, high enough for all.
func (p *Page) Spanning(height float64, from, to int, entries ...Entry) int {
	wide := p.wide(from, to)
	entries = slices.Grow(entries, max(0, to-len(entries)))
	for len(entries) < to {
		entries = append(entries, Entry{"", entries[from-1].Style})
	}
	if text, isText := entries[from-1].Value.(string); isText {
		height = max(height, p.HeightOf(text, wide, entries[from-1].Style.Role.larger(p.larger)))
	}
	entries[from-1].Style.Across = true
	row := p.WriteHigh(height, entries...)
	p.MergeAcross(row, from, to)
	return row
}

// Skip leaves rows blank.
func (p *Page) Skip(rows int) {
	for range rows {
		p.Row++
		p.fill(blankRow)
	}
}

const blankRow = 15.0 // points, the height of a row that nothing is written into

// HideRows keeps the rows that are written from here on from being shown: formulas read them, and people need not.
func (p *Page) HideRows() { p.rows.hidden = true }

// SkipHigh leaves rows blank that have a height in points, whatever height the workbook's other blank rows have: charts
// are placed over them.
func (p *Page) SkipHigh(rows int, height float64) {
	for range rows {
		p.WriteHigh(height)
	}
}

// MostLinks is how many links a sheet gets: a sheet may hold 65,529, and each one added costs a look at all before it.
const MostLinks = 5000

// Link makes a cell of the last row lead to a place in the workbook.
func (p *Page) Link(column int, sheet, cell string) {
	if p.links >= MostLinks {
		return
	}
	p.links++
	p.Do(func() error {
		return p.look.draft.LinkPlace(p.Name, address.Cell(column, p.Row), address.Sheet(sheet)+"!"+cell)
	})
}

// LinkFile makes a cell of the last row lead to another file.
func (p *Page) LinkFile(column int, file string) {
	if p.links >= MostLinks || file == "" {
		return
	}
	p.links++
	p.Do(func() error {
		return p.look.draft.LinkFile(p.Name, address.Cell(column, p.Row), file)
	})
}

// Close finishes the sheet. Nothing may be added to it afterwards.
func (p *Page) Close() error {
	if p.Row > MostRows { // whatever was said of the first row too many says less
		p.err = fmt.Errorf("it would have %d rows, and a sheet holds %d: grade its classes as workbooks of their own", p.Row, MostRows)
	}
	p.Do(func() error { return p.writer.Close() })
	if p.look.Fill != nil {
		p.Do(func() error { p.rows.finish(); return nil })
	}
	if record.ViewTitle(p.Mark) != "" {
		p.view.Mark = p.Mark
		p.look.Views = append(p.look.Views, p.view)
	}
	if p.err != nil {
		return fmt.Errorf("the sheet %q could not be written: %w", p.PageSetup.Name, p.err)
	}
	return nil
}

// Headings writes a row of column headings.
func (p *Page) Headings(texts ...string) int {
	cells := make([]Entry, len(texts))
	for i, text := range texts {
		cells[i] = Entry{text, Style{Role: Heading, Wrap: true}}
	}
	return p.Write(cells...)
}

// NumberHeading is the heading of a column of numbers, which stand to the right.
func NumberHeading(text string) Entry {
	return Entry{text, Style{Role: Heading, Wrap: true, Align: "right"}}
}

// Section opens a table of the sheet.
func (p *Page) Section(title string, columns int, headings ...string) {
	p.Skip(1)
	p.Across(title, Band, 1, columns)
	if len(headings) > 0 {
		p.Headings(headings...)
	}
}

// CloseHidden finishes the sheet and takes its tab off the screen. It can be shown again in any spreadsheet program.
func (p *Page) CloseHidden() error {
	if err := p.Close(); err != nil {
		return err
	}
	p.look.draft.Hide(p.Name)
	return nil
}

// HeightOfRow is the height in points that a row of entries would have, of which hidden columns show nothing.
func (p *Page) HeightOfRow(entries ...Entry) (height float64) {
	for i, entry := range entries {
		if i < len(p.Widths) && !slices.Contains(p.Hidden, i+1) {
			height = max(height, entry.height(p.Widths[i]*p.look.unit))
		}
	}
	return height
}
