package writing

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"
	"github.com/xuri/excelize/v2"
)

// plan is what must be known of a sheet before its first row is written: a stream of rows cannot go back.
type plan struct {
	Name, Mark    string // as in package reading
	Title         string // of the first row; empty: no title rows are written
	Subtitle      string // of the second row
	Status        string // "Provisional" or "Signed", printed on every page
	Widths        []float64
	Hidden        []int // columns, from 1
	Landscape     bool
	OnePage       bool // printed on a single page, made as small as that takes
	RepeatFrom    int  // the rows repeated on every printed page; 0: none
	RepeatTo      int
	FreezeRows    int
	FreezeColumns int
	FilterRow     int // the heading row that gets filter buttons; 0: none
	FilterTo      int // the last row filtered
	Protected     bool
	Zoom          float64 // percent on the screen; 0: the program's own
	Tab           string
}

// page is one of our sheets while it is filled, row by row from the top. Its first error stays and is returned by
// close, so that a sheet can be written as straight lines.
type page struct {
	plan
	look    *look
	file    *excelize.File
	stream  *excelize.StreamWriter
	rows    rowsXML
	row     int // the last row written
	pageTop int // the last row before the printed page that was begun last
	links   int
	err     error
}

// entry is one cell of a page.
type entry struct {
	value any // string, decimal.Decimal, int, live or nil
	style style
}

// live is a value with the formula that gives it.
type live struct {
	formula string
	value   any
}

// sheetMaker adds an empty sheet of ours and gives the name it got.
type sheetMaker func(name, mark string) (string, error)

// openPage makes a sheet and sets up everything that must stand before its rows.
func openPage(make sheetMaker, look *look, wanted plan) *page {
	p := &page{plan: wanted, look: look, file: look.file}
	p.Name, p.err = make(wanted.Name, wanted.Mark)
	p.do(p.setUpPaper)
	p.do(p.setUpView)
	if p.err != nil {
		return p
	}
	p.stream, p.err = p.file.NewStreamWriter(p.Name)
	p.do(p.setUpColumns)
	p.do(p.setUpRows)
	if wanted.Title != "" {
		p.write(entry{wanted.Title, style{Role: title}})
		p.across(wanted.Subtitle, subtitle, 1, p.visibleColumns())
	}
	return p
}

func (p *page) do(step func() error) {
	if p.err == nil {
		p.err = step()
	}
}

// setUpPaper sets letter paper, fitted to its width, with the sheet's name, status and page number on every page.
func (p *page) setUpPaper() error {
	if p.FilterRow > 0 && p.FilterTo > p.FilterRow {
		span := fmt.Sprintf("A%d:%s%d", p.FilterRow, columnName(p.visibleColumns()), p.FilterTo)
		if err := p.file.AutoFilter(p.Name, span, nil); err != nil {
			return err
		}
	}
	fit := true
	if err := p.file.SetSheetProps(p.Name, &excelize.SheetPropsOptions{FitToPage: &fit, TabColorRGB: &p.Tab}); err != nil {
		return err
	}
	paper, orientation, wide, high := 1, "portrait", 1, 0
	if p.Landscape {
		orientation = "landscape"
	}
	if p.OnePage {
		high = 1
	}
	layout := &excelize.PageLayoutOptions{Size: &paper, Orientation: &orientation, FitToWidth: &wide, FitToHeight: &high}
	if err := p.file.SetPageLayout(p.Name, layout); err != nil {
		return err
	}
	side, top, edge, centred := 0.5, 0.75, 0.35, true
	margins := &excelize.PageLayoutMarginsOptions{
		Left: &side, Right: &side, Top: &top, Bottom: &top, Header: &edge, Footer: &edge, Horizontally: &centred,
	}
	if err := p.file.SetPageMargins(p.Name, margins); err != nil {
		return err
	}
	if err := p.file.SetSheetDimension(p.Name, ""); err != nil {
		return err
	}
	if err := p.nameForPrinting(); err != nil {
		return err
	}
	return p.file.SetHeaderFooter(p.Name, &excelize.HeaderFooterOptions{
		OddHeader: `&L&"Arial,Regular"&8` + headerText(p.Name) + `&R&"Arial,Bold"&8` + headerText(p.Status),
		OddFooter: `&L&"Arial,Regular"&8&F&R&"Arial,Regular"&8Page &P of &N`,
	})
}

// nameForPrinting gives the sheet its repeated rows, which are a defined name of the sheet.
func (p *page) nameForPrinting() error {
	if p.RepeatTo == 0 {
		return nil
	}
	rows := fmt.Sprintf("%s!$%d:$%d", quoteSheet(p.Name), p.RepeatFrom, p.RepeatTo)
	return p.file.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", RefersTo: rows, Scope: p.Name})
}

// printTo prints only what has been written so far, of so many columns.
func (p *page) printTo(columns int) {
	area := fmt.Sprintf("%s!$A$1:$%s$%d", quoteSheet(p.Name), columnName(columns), max(p.row, 1))
	p.do(func() error {
		return p.file.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Area", RefersTo: area, Scope: p.Name})
	})
}

func (p *page) setUpView() error {
	grid := false
	view := &excelize.ViewOptions{ShowGridLines: &grid}
	if p.Zoom > 0 {
		view.ZoomScale = &p.Zoom
	}
	if err := p.file.SetSheetView(p.Name, 0, view); err != nil {
		return err
	}
	if !p.Protected && !p.look.signed {
		return nil
	}
	return p.file.ProtectSheet(p.Name, &excelize.SheetProtectionOptions{
		SelectLockedCells: true, SelectUnlockedCells: true, AutoFilter: true, FormatColumns: true, FormatRows: true,
	})
}

func (p *page) setUpColumns() error {
	for i, width := range p.Widths {
		if err := p.stream.SetColWidth(i+1, i+1, width); err != nil {
			return err
		}
	}
	for _, column := range p.Hidden {
		if err := p.stream.SetColVisible(column, column, false); err != nil {
			return err
		}
	}
	if p.FreezeRows == 0 {
		return nil
	}
	pane := "bottomLeft"
	if p.FreezeColumns > 0 {
		pane = "bottomRight"
	}
	corner := fmt.Sprintf("%s%d", columnName(p.FreezeColumns+1), p.FreezeRows+1)
	return p.stream.SetPanes(&excelize.Panes{
		Freeze: true, XSplit: p.FreezeColumns, YSplit: p.FreezeRows, TopLeftCell: corner, ActivePane: pane,
		Selection: []excelize.Selection{{SQRef: corner, ActiveCell: corner, Pane: pane}},
	})
}

func (p *page) setUpRows() (err error) {
	if p.look.fill != nil {
		p.rows.rows, err = p.look.fill(p.Name)
	}
	return err
}

// visibleColumns is the number of columns before the first hidden one.
func (p *page) visibleColumns() int {
	columns := len(p.Widths)
	for _, hidden := range p.Hidden {
		columns = min(columns, hidden-1)
	}
	return columns
}

// write adds a row and gives its number.
func (p *page) write(entries ...entry) int { return p.writeHigh(0, entries...) }

// writeHigh adds a row of at least a height in points. Every row gets the height that its texts need, for not every
// spreadsheet program works that out when it opens a workbook.
func (p *page) writeHigh(height float64, entries ...entry) int {
	p.row++
	for i, one := range entries {
		if i < len(p.Widths) {
			height = max(height, one.height(p.Widths[i]))
		}
	}
	if p.err != nil {
		return p.row
	}
	if p.look.fill != nil {
		p.err = p.rows.add(p.look, p.row, height, entries)
	} else {
		p.err = p.streamRow(height, entries)
	}
	return p.row
}

// writeTexts adds a row of texts of one style that does not wrap, for sheets of very many rows.
func (p *page) writeTexts(of style, texts ...string) {
	p.row++
	p.do(func() error { return p.rows.addTexts(p.look, p.row, heightOf("", 1, of.Role), of, texts) })
}

// streamRow writes a row through the library, for a workbook that is no more than the library's own.
func (p *page) streamRow(height float64, entries []entry) (err error) {
	cells := make([]any, len(entries))
	for i, one := range entries {
		if cells[i], err = p.cell(one); err != nil {
			return err
		}
	}
	return p.stream.SetRow("A"+fmt.Sprint(p.row), cells, excelize.RowOpts{Height: height})
}

func (p *page) cell(one entry) (any, error) {
	if one == (entry{}) {
		return nil, nil
	}
	id, err := p.look.id(one.style)
	switch value := one.value.(type) {
	case live:
		cell := excelize.Cell{StyleID: id, Formula: value.formula, Value: value.value}
		if number, isNumber := value.value.(decimal.Decimal); isNumber {
			cell.Value = number.InexactFloat64()
		}
		return cell, err
	case decimal.Decimal:
		return excelize.Cell{StyleID: id, Value: value.InexactFloat64()}, err
	case string:
		if value == "" {
			return excelize.Cell{StyleID: id}, err
		}
	}
	return excelize.Cell{StyleID: id, Value: one.value}, err
}

// across writes one text over several columns, high enough for all of it: merged cells never fit themselves.
func (p *page) across(text string, of role, from, to int) int {
	wide := 0.0
	for _, width := range p.Widths[from-1 : to] {
		wide += width
	}
	cells := make([]entry, to)
	for i := from - 1; i < to; i++ {
		cells[i] = entry{"", style{Role: of, Wrap: true}}
	}
	high := heightOf(text, wide, of)
	cells[from-1] = entry{text, style{Role: of, Wrap: true, Across: true}}
	row := p.writeHigh(high, cells...)
	p.mergeAcross(row, from, to)
	return row
}

func (p *page) mergeAcross(row, from, to int) {
	p.do(func() error {
		return p.stream.MergeCell(fmt.Sprintf("%s%d", columnName(from), row), fmt.Sprintf("%s%d", columnName(to), row))
	})
}

// spanning writes a row in which one text stands over several columns, from the one it stands in, high enough for all.
func (p *page) spanning(height float64, from, to int, entries ...entry) int {
	wide := 0.0
	for _, width := range p.Widths[from-1 : to] {
		wide += width
	}
	for len(entries) < to {
		entries = append(entries, entry{"", entries[from-1].style})
	}
	if text, isText := entries[from-1].value.(string); isText {
		height = max(height, heightOf(text, wide, entries[from-1].style.Role))
	}
	entries[from-1].style.Across = true
	row := p.writeHigh(height, entries...)
	p.mergeAcross(row, from, to)
	return row
}

// skip leaves rows blank.
func (p *page) skip(rows int) { p.row += rows }

// skipHigh leaves rows blank that have a height in points, whatever height the workbook's other blank rows have: charts
// are placed over them.
func (p *page) skipHigh(rows int, height float64) {
	for range rows {
		p.writeHigh(height)
	}
}

// mostLinks is how many links a sheet gets: a sheet may hold 65,529, and each one added costs a look at all before it.
const mostLinks = 5000

// link makes a cell of the last row lead to a place in the workbook.
func (p *page) link(column int, sheet, cell string) {
	if p.links >= mostLinks {
		return
	}
	p.links++
	p.do(func() error {
		at := fmt.Sprintf("%s%d", columnName(column), p.row)
		return p.file.SetCellHyperLink(p.Name, at, quoteSheet(sheet)+"!"+cell, "Location")
	})
}

// breakPage starts a new printed page at the next row.
func (p *page) breakPage() {
	p.pageTop = p.row
	p.do(func() error { return p.stream.InsertPageBreak("A" + fmt.Sprint(p.row+1)) })
}

// close finishes the sheet. Nothing may be added to it afterwards.
func (p *page) close() error {
	p.do(func() error { return p.stream.Flush() })
	if p.look.fill != nil {
		p.do(func() error { p.rows.finish(); return nil })
	}
	if p.err != nil {
		return fmt.Errorf("the sheet %q could not be written: %w", p.plan.Name, p.err)
	}
	return nil
}

// headings writes a row of column headings.
func (p *page) headings(texts ...string) int {
	cells := make([]entry, len(texts))
	for i, text := range texts {
		cells[i] = entry{text, style{Role: heading, Wrap: true}}
	}
	return p.write(cells...)
}

// numberHeading is the heading of a column of numbers, which stand to the right.
func numberHeading(text string) entry {
	return entry{text, style{Role: heading, Wrap: true, Align: "right"}}
}

func quoteSheet(name string) string { return "'" + strings.ReplaceAll(name, "'", "''") + "'" }

// headerText makes a text safe in a page header, where & begins a code.
func headerText(text string) string { return strings.ReplaceAll(text, "&", "&&") }

func columnName(column int) string {
	name, err := excelize.ColumnNumberToName(column)
	if err != nil {
		return "A"
	}
	return name
}

// section opens a table of the sheet.
func (p *page) section(title string, columns int, headings ...string) {
	p.skip(1)
	p.across(title, band, 1, columns)
	if len(headings) > 0 {
		p.headings(headings...)
	}
}

// keepTogether starts a new page where so many rows would not fit on this one.
func (p *page) keepTogether(rows int) {
	if p.row-p.pageTop+rows > rowsOfAPage {
		p.breakPage()
	}
}
