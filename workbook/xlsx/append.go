package xlsx

import (
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"railbook/rules/address"
	"railbook/workbook/ahead"
)

// Append adds the block to the sheet's XML when the workbook is saved. Nothing else of the sheet changes but the added
// cells, the dimension, the column widths and the conditional format of the flagged cells.
func (b *Book) Append(block Appended) error {
	if b.contents == nil {
		return fmt.Errorf("%s is a text file: columns can't be added to it", filepath.Base(b.Path))
	}
	if last := block.FirstColumn + len(block.Headings) - 1; last > address.LastColumn {
		return fmt.Errorf("sheet %q has no room for %d columns beside the data, which stand up to column %s: take out what stands far to the right, or move the carcasses to a sheet of their own",
			block.Sheet, len(block.Headings), address.Column(min(block.FirstColumn, address.LastColumn+1)-1))
	}
	added, err := b.addition(block.Sheet)
	if err != nil {
		return err
	}
	if err := b.loadLibrary(); err != nil {
		return err
	}
	patch := &appending{block: block}
	if err := patch.styles(b); err != nil {
		return err
	}
	added.blocks = append(added.blocks, patch)
	b.setMark(mark{name: block.Mark, sheet: block.Sheet, area: patch.area()})
	return b.Flag(block.Sheet, block.Flagged)
}

// appending is one block on its way into a sheet.
type appending struct {
	block    Appended
	heading  int   // the style of the headings
	columns  []int // the style of each column's cells
	style    func(format string) int
	failed   error // the first that style met
	data     []byte
	piece    []byte // of the rows
	prefix   string
	shapes   map[columnShape]int
	nextID   int  // of a shared formula
	plain    bool // the sheet has neither comments nor CDATA
	undo     undo
	out      *piecewise
	cellText []byte
	next     func() []byte // the cells of the next row, as they stand in the file
}

func (a *appending) area() Range {
	return Range{a.block.FirstColumn, a.block.HeadingRow, a.block.FirstColumn + len(a.block.Headings) - 1, a.block.LastRow}
}

// sheet gives the sheet's XML with the block in it but without its rows, which go out piece by piece.
func (a *appending) sheet(data []byte, held *listing, out *piecewise) (around []byte, err error) {
	root, list, err := children(data, "")
	if err != nil {
		return nil, err
	}
	text := view(data)
	a.data, a.prefix, a.out, a.undo = data, root.prefix, out, undo{}
	a.shapes = map[columnShape]int{}
	a.plain = held.isPlain(data)
	a.nextID = highestShared(text) + 1
	if held != nil {
		highest, err := held.highestShared()
		if err != nil {
			return nil, err
		}
		a.nextID = max(a.nextID, highest+1)
	}
	at := slices.IndexFunc(list, func(tagged element) bool { return tagged.name == "sheetData" })
	if at < 0 {
		return nil, &damage{root.start, "it has no rows"}
	}
	rows := list[at]
	out.spaces = append(declarations(root.token), declarations(rows.token)...)
	next, stop := ahead.Pull(a.eachRow)
	defer stop()
	a.next = next
	if err := a.sheetData(rows, held); err != nil {
		return nil, err
	}
	edits := []edit{{rows.start, rows.until, emptied(data, rows)}}
	edits = append(edits, a.dimension(list)...)
	edits = append(edits, a.widths(root, list)...)
	return apply(data, edits), a.failed
}

// emptied gives an element without what is in it.
func emptied(data []byte, tagged element) string {
	tag := string(data[tagged.start:tagged.token.end])
	if tagged.closed {
		tag = strings.TrimRight(strings.TrimSuffix(tag, "/>"), " \t\r\n") + ">"
	}
	return tag + "</" + tagged.prefix + tagged.name + ">"
}

// highestShared gives the highest number of a shared formula on a sheet, -1 for none.
func highestShared(text string) int {
	highest := -1
	for {
		at := strings.Index(text, ` si="`)
		if at < 0 {
			return highest
		}
		text = text[at+5:]
		if digits, _, found := strings.Cut(text[:min(len(text), 12)], `"`); found {
			if number, err := strconv.Atoi(digits); err == nil {
				highest = max(highest, number)
			}
		}
	}
}

// sheetData writes the rows of a sheet with the block's cells in them, and adds rows where there are none.
func (a *appending) sheetData(data element, held *listing) error {
	if data.closed {
		a.missingRows(a.block.HeadingRow, a.block.LastRow+1)
		a.undo.noRows = true
		return nil
	}
	previous, wanted := 0, a.block.HeadingRow
	err := held.inside(a.data, data, func(piece []byte, _ int) error {
		a.piece = piece
		return a.rows(&previous, &wanted)
	})
	if err == nil {
		a.missingRows(wanted, a.block.LastRow+1)
	}
	return err
}

// rows writes a piece of the rows. previous is the number of the row before, and wanted that of the next one that gets cells.
func (a *appending) rows(previous, wanted *int) error {
	written, walk := 0, within(a.piece)
	for {
		tag, err := walk.next()
		if err != nil {
			return err
		}
		if tag.kind == endOfPart {
			a.out.Write(a.piece[written:])
			return nil
		}
		if tag.kind != startElement || tag.name != "row" {
			if _, err := walk.skipIfStart(tag); err != nil {
				return err
			}
			continue
		}
		number := *previous + 1
		if given, ok := tag.number("r"); ok {
			number = given
		}
		if number <= *previous {
			return &damage{tag.start, fmt.Sprintf("row %d comes after row %d; open it in Excel or LibreOffice and save it again", number, *previous)}
		}
		*previous = number
		ending, err := walk.skipRow(tag, a.plain)
		if err != nil {
			return err
		}
		if tag.start-written > PieceSize || len(a.out.piece) > PieceSize {
			a.out.Write(a.piece[written:tag.start])
			a.out.between()
			written = tag.start
		}
		end := ending.end
		if number < a.block.HeadingRow || number > a.block.LastRow {
			if number > a.block.LastRow && *wanted <= a.block.LastRow {
				a.out.Write(a.piece[written:tag.start])
				a.missingRows(*wanted, a.block.LastRow+1)
				written, *wanted = tag.start, a.block.LastRow+1
			}
			continue
		}
		a.out.Write(a.piece[written:tag.start])
		a.missingRows(*wanted, number)
		if err := a.row(tag, ending, number); err != nil {
			return err
		}
		written, *wanted = end, number+1
	}
}

// skipIfStart passes over an element that begins here.
func (t *tags) skipIfStart(tag token) (token, error) {
	if tag.kind != startElement {
		return tag, nil
	}
	return t.skip(tag)
}

// missingRows adds rows of ours from one number up to, but not including, another.
func (a *appending) missingRows(from, until int) {
	for number := from; number < until; number++ {
		if cells := a.next(); len(cells) > 0 {
			fmt.Fprintf(a.out, `<%srow r="%d">`, a.prefix, number)
			a.out.Write(cells)
			fmt.Fprintf(a.out, `</%srow>`, a.prefix)
			a.undo.added = append(a.undo.added, number)
			a.out.between()
		}
	}
}

// row writes one row of the user's with the block's cells in it.
func (a *appending) row(row, ending token, number int) error {
	end, closing := ending.end, ending.start
	cells := a.next()
	if len(cells) == 0 {
		a.out.Write(a.piece[row.start:end])
		return nil
	}
	if row.closed {
		a.out.WriteString(strings.TrimSuffix(string(a.piece[row.start:row.end]), "/>") + ">")
		a.out.Write(cells)
		fmt.Fprintf(a.out, `</%srow>`, row.prefix)
		a.undo.opened = append(a.undo.opened, number)
		return nil
	}
	if last, ok := lastCell(view(a.piece[row.end:closing]), row.prefix); ok && a.plain && last < a.block.FirstColumn {
		a.out.Write(a.piece[row.start:closing])
		a.out.Write(cells)
		a.out.Write(a.piece[closing:end])
		return nil
	}
	inside, err := cellsOfRow(nil, view(a.piece[:end]), row)
	if err != nil {
		return err
	}
	area, at := a.area(), row.end
	var covered []edit
	for _, cell := range inside {
		switch {
		case cell.column < area.FirstColumn:
			at = cell.until
		case cell.column <= area.LastColumn && cell.inner > cell.token.end:
			return &damage{cell.start, fmt.Sprintf("cell %s is not empty", address.Cell(cell.column, number))}
		case cell.column <= area.LastColumn:
			covered = append(covered, edit{cell.start, cell.until, ""})
		}
	}
	a.out.Write(a.piece[row.start:at])
	a.out.Write(cells)
	for _, edit := range covered {
		a.out.Write(a.piece[at:edit.from])
		at = edit.to
	}
	a.out.Write(a.piece[at:end])
	return nil
}

// placedCell is a <c> with its column.
type placedCell struct {
	element
	column int
}

// cellsOfRow adds the cells of a row that has just begun to a list.
func cellsOfRow(cells []placedCell, data string, row token) ([]placedCell, error) {
	previous := 0
	walk := tags{data: data, at: row.end, open: []string{row.prefix + row.name}, seen: true}
	_, err := eachChild(&walk, row, func(cell element) error {
		if cell.name != "c" {
			return nil
		}
		column := previous + 1
		if name, given := cell.attribute("r"); given {
			if column, _, given = address.Parse(name); !given {
				return &damage{cell.start, "a cell has no place"}
			}
		}
		previous = column
		cells = append(cells, placedCell{cell, column})
		return nil
	})
	return cells, err
}
