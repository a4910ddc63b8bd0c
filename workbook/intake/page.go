package intake

import (
	"slices"

	"railbook/rules"
	"railbook/rules/address"
	"railbook/workbook/xlsx"
)

// page is one sheet as the reader sees it: stored rows in order, and what merged cells say in every cell they cover.
// A sheet laid on its side is turned first, so that everything else reads animals downwards.
type page struct {
	file, sheet  string
	lines        []line
	merged       map[position]position // a covered cell → the cell that holds what it says
	areas        []xlsx.Range
	turned       bool
	text         bool // a text file: numbers are text there as a matter of course
	decimalComma bool
	date1904     bool
	hidden       bool         // the sheet itself
	hiddenColumn map[int]bool // by its number on the page
	struck       map[position]bool
	comments     map[int][]comment     // by line, from left to right
	form         bool                  // it is a printed form, made a table
	cells        map[position]position // of a form: where each cell of the table stands in the file
}

// position is a cell by its line and column on the page.
type position struct{ line, column int }

// line is one row of the page.
type line struct {
	number int
	hidden bool
	cells  []xlsx.Cell
}

// mergedReach is how many cells of one merged area are filled with what it says; beyond that it is a banner.
const mergedReach = 4096

func newPage(file, sheet string, grid *xlsx.Grid, text bool) *page {
	p := &page{
		file: file, sheet: sheet, areas: grid.Merged,
		text: text, decimalComma: grid.DecimalComma, date1904: grid.Date1904,
		hiddenColumn: grid.HiddenColumns,
	}
	for _, row := range grid.Rows {
		if len(row.Cells) > 0 {
			p.lines = append(p.lines, line{number: row.Number, hidden: row.Hidden, cells: row.Cells})
		}
	}
	p.coverMerged()
	p.attach(grid)
	return p
}

// attach keeps what is attached to cells rather than written in them: comments, and lines struck through.
func (p *page) attach(grid *xlsx.Grid) {
	if len(grid.Struck) > 0 {
		p.struck = make(map[position]bool, len(grid.Struck))
	}
	for at := range grid.Struck {
		p.struck[position{at.Row, at.Column}] = true
	}
	for at, text := range grid.Comments {
		p.comment(position{at.Row, at.Column}, text)
	}
}

func (p *page) comment(at position, text string) {
	if p.comments == nil {
		p.comments = map[int][]comment{}
	}
	list := append(p.comments[at.line], comment{at, text})
	slices.SortFunc(list, func(a, b comment) int { return a.at.column - b.at.column })
	p.comments[at.line] = list
}

func (p *page) coverMerged() {
	p.merged = map[position]position{}
	for _, area := range p.areas {
		if (area.LastColumn-area.FirstColumn+1)*(area.LastRow-area.FirstRow+1) > mergedReach {
			continue
		}
		first := position{area.FirstRow, area.FirstColumn}
		for row := area.FirstRow; row <= area.LastRow; row++ {
			for column := area.FirstColumn; column <= area.LastColumn; column++ {
				p.merged[position{row, column}] = first
			}
		}
	}
}

// turn gives the page laid on its side: its rows are the sheet's columns.
func (p *page) turn() *page {
	turned := &page{
		file: p.file, sheet: p.sheet, turned: !p.turned,
		text: p.text, decimalComma: p.decimalComma, date1904: p.date1904, hidden: p.hidden, hiddenColumn: map[int]bool{},
	}
	for _, row := range p.lines {
		turned.hiddenColumn[row.number] = row.hidden
	}
	byColumn := map[int][]xlsx.Cell{}
	for _, row := range p.lines {
		for _, cell := range row.cells {
			column := cell.Column
			cell.Column = row.number
			byColumn[column] = append(byColumn[column], cell)
		}
	}
	for number, cells := range byColumn {
		turned.lines = append(turned.lines, line{number: number, hidden: p.hiddenColumn[number], cells: cells})
	}
	slices.SortFunc(turned.lines, func(a, b line) int { return a.number - b.number })
	for _, area := range p.areas {
		turned.areas = append(turned.areas, xlsx.Range{
			FirstColumn: area.FirstRow, FirstRow: area.FirstColumn, LastColumn: area.LastRow, LastRow: area.LastColumn,
		})
	}
	turned.coverMerged()
	if len(p.struck) > 0 {
		turned.struck = make(map[position]bool, len(p.struck))
	}
	for at := range p.struck {
		turned.struck[position{at.column, at.line}] = true
	}
	for _, list := range p.comments {
		for _, comment := range list {
			turned.comment(position{comment.at.column, comment.at.line}, comment.text)
		}
	}
	return turned
}

// at gives the cell of a column; its Kind is Blank where nothing is stored.
func (l *line) at(column int) xlsx.Cell {
	if column-1 < len(l.cells) && column > 0 && l.cells[column-1].Column == column {
		return l.cells[column-1]
	}
	index, found := slices.BinarySearchFunc(l.cells, column, func(cell xlsx.Cell, wanted int) int {
		return cell.Column - wanted
	})
	if !found {
		return xlsx.Cell{Column: column}
	}
	return l.cells[index]
}

// lineNumbered gives the stored line with this number; an empty one where nothing is stored.
func (p *page) lineNumbered(number int) *line {
	index, found := slices.BinarySearchFunc(p.lines, number, func(row line, wanted int) int { return row.number - wanted })
	if !found {
		return &line{number: number}
	}
	return &p.lines[index]
}

// covering gives the cell at a place or, where a merged area covers it, the cell that holds what the area says, with
// its place.
func (p *page) covering(l *line, column int) (xlsx.Cell, position) {
	here := position{l.number, column}
	if len(p.merged) > 0 {
		if first, covered := p.merged[here]; covered && first != here {
			if first.line == l.number {
				return l.at(first.column), first
			}
			return p.lineNumbered(first.line).at(first.column), first
		}
	}
	return l.at(column), here
}

// place names a cell of the page as it stands in the file.
func (p *page) place(at position) rules.Place {
	column, row := p.own(at)
	return rules.Place{File: p.file, Sheet: p.sheet, Cell: address.Cell(column, row)}
}

// own gives where a cell of the page stands in the file.
func (p *page) own(at position) (column, row int) {
	if own, moved := p.cells[at]; moved {
		at = own
	}
	if p.turned {
		return at.line, at.column
	}
	return at.column, at.line
}
