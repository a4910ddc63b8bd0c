package kit

import (
	"errors"
	"slices"
	"strings"

	"railbook/rules/address"
	"railbook/workbook/xlsx"
)

// setUpPaper sets letter paper, fitted to its width, with the sheet's name, status and page number on every page.
func (p *Page) setUpPaper() error {
	paper := xlsx.Paper{
		Tab: p.Tab, Landscape: p.Landscape, FullSize: p.FullSize, PagesWide: max(1, p.PagesWide),
		Side: sideMargin, Top: topMargin, Bottom: bottomMargin, Edge: edgeMargin,
		RepeatRows: [2]int{p.RepeatFrom, p.RepeatTo}, RepeatColumns: p.RepeatColumns,
		Zoom: p.Zoom, Protected: p.Protected || p.look.signed,
		Header: `&L&"Arial,Regular"&10 ` + headerText(p.Name) + `&R&"Arial,Bold"&10 ` + headerText(p.Status),
		Footer: `&L&"Arial,Regular"&10 &F&R&"Arial,Regular"&10 ` + headerText(p.Name) + `, page &P`,
	}
	if p.Foot != "" {
		paper.Footer = strings.Replace(paper.Footer, "&R", `&C&"Arial,Regular"&10 `+headerText(p.Foot)+"&R", 1)
	}
	if p.Of != "" {
		paper.Header = `&L&"Arial,Bold"&10 ` + headerText(p.Of) + "\n" + `&"Arial,Regular"` + headerText(p.Name) + `&R&"Arial,Bold"&10 ` + headerText(p.Status)
	}
	if p.OnePage {
		paper.PagesHigh = 1
	}
	if p.FilterRow > 0 && p.FilterTo > p.FilterRow {
		paper.Filtered = address.Span(1, p.FilterRow, p.visibleColumns(), p.FilterTo)
	}
	return p.look.draft.SetPaper(p.Name, paper)
}

// The paper is letter, 8.5 by 11 inches; the margins are in inches.
const (
	shortSide    = 8.5
	longSide     = 11.0
	sideMargin   = 0.5
	topMargin    = 0.75 // room for a header of two lines
	bottomMargin = 0.6
	edgeMargin   = 0.3

	// How wide the columns of a page may be together to be printed in their own size, or near it where a program has not the
	// typeface of a user's workbook and takes a wider one.
	PortraitWidth       = 80.0
	LandscapeWidth      = 108.0
	FreshPortraitWidth  = 88.0 // of a workbook made afresh
	FreshLandscapeWidth = 118.0
)

// room is how many points of rows a printed page holds.
func (p *Page) room() float64 {
	high, wide := longSide, shortSide
	if p.Landscape {
		high, wide = shortSide, longSide
	}
	wide = (wide - 2*sideMargin) * 72 / p.look.unit // of columns that are printed in their own size where the typeface is there
	if p.FullSize {
		return (high - topMargin - bottomMargin) * 72
	}
	sum := p.wide(1, p.printedColumns())
	return (high - topMargin - bottomMargin) * 72 * max(1, sum/(wide*float64(max(1, p.PagesWide))))
}

// wide is how wide the columns from one to another are together, but for those that are hidden.
func (p *Page) wide(from, to int) (wide float64) {
	for column := from; column <= to; column++ {
		if !slices.Contains(p.Hidden, column) {
			wide += p.Widths[column-1]
		}
	}
	return wide
}

// fill counts the points of a row that is written, on the page on which it will be printed.
func (p *Page) fill(height float64) {
	if p.used+height > p.room() {
		p.used = p.repeat
	}
	p.used += height
	p.filled += height
	if p.RepeatFrom > 0 && p.Row >= p.RepeatFrom && p.Row <= p.RepeatTo {
		p.repeat += height
	}
}

// Fits reports whether rows of so many points together fit on the printed page that has been begun.
func (p *Page) Fits(points float64) bool { return p.used+points <= p.room() }

// Keep begins a new printed page where rows of so many points together would not fit on this one.
func (p *Page) Keep(points float64) {
	if !p.Fits(points) && p.used > p.repeat {
		p.BreakPage()
	}
}

// PrintTo prints only what has been written so far, of so many columns.
func (p *Page) PrintTo(columns int) {
	p.Do(func() error { return p.look.draft.PrintTo(p.Name, columns, max(p.Row, 1)) })
}

// visibleColumns is the number of columns before the first hidden one.
func (p *Page) visibleColumns() int {
	columns := len(p.Widths)
	for _, hidden := range p.Hidden {
		columns = min(columns, hidden-1)
	}
	return columns
}

// printedColumns is the number of columns that are printed.
func (p *Page) printedColumns() int {
	if p.Printed > 0 {
		return p.Printed
	}
	return p.visibleColumns()
}

// errMeasured keeps a page from being written.
var errMeasured = errors.New("the page is only measured")

// Holds reports whether what a function writes fits on the printed page that has been begun, in type of its own size.
func (p *Page) Holds(write func(*Page)) bool {
	measured := p.measured(0)
	write(measured)
	return p.used+measured.filled <= p.room()
}

// measured is a page like this one on which rows are only measured, in type that is so many steps larger.
func (p *Page) measured(larger int) *Page {
	return &Page{PageSetup: p.PageSetup, look: p.look, Row: p.Row, larger: larger, err: errMeasured}
}

// FillFrom writes rows in the largest type in which they all fit on the printed page that has been begun, and the same function
// measures them before.
func (p *Page) FillFrom(write func(*Page)) {
	for p.larger = MostLarger; p.larger > 0; p.larger-- {
		measured := p.measured(p.larger)
		if write(measured); p.used+measured.filled <= p.room() {
			break
		}
	}
	write(p)
	p.larger = 0
}

// BreakPage starts a new printed page at the next row.
func (p *Page) BreakPage() {
	p.used = p.repeat
	p.Do(func() error { return p.writer.Break(p.Row + 1) })
}

// headerText makes a text safe in a page header, where & begins a code.
func headerText(text string) string { return strings.ReplaceAll(text, "&", "&&") }

// KeepTogether starts a new page where so many rows of one line would not fit on this one.
func (p *Page) KeepTogether(rows int) { p.Keep(float64(rows) * blankRow) }
