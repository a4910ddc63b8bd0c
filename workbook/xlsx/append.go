package xlsx

import (
	"bytes"
	"cmp"
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"railbook/rules/address"
	"railbook/workbook/ahead"

	"github.com/xuri/excelize/v2"
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

type columnShape struct {
	column int
	shape  string
}

func (a *appending) area() Range {
	return Range{a.block.FirstColumn, a.block.HeadingRow, a.block.FirstColumn + len(a.block.Headings) - 1, a.block.LastRow}
}

func (a *appending) styles(b *Book) (err error) {
	a.style = func(format string) int {
		style, err := b.cellStyle("cell " + format)
		a.failed = cmp.Or(a.failed, err)
		return style
	}
	if a.heading, err = b.cellStyle("heading"); err != nil {
		return err
	}
	for i := range a.block.Headings {
		format := ""
		if i < len(a.block.Formats) {
			format = a.block.Formats[i]
		}
		style, err := b.cellStyle("cell " + format)
		if err != nil {
			return err
		}
		a.columns = append(a.columns, style)
	}
	return nil
}

// cellStyle gives the style of headings ("heading") or of cells with a number format ("cell 0.00"), made once each.
func (b *Book) cellStyle(name string) (int, error) {
	if style, made := b.formats[name]; made {
		return style, nil
	}
	style := &excelize.Style{
		Font:      &excelize.Font{Family: b.base.typeface(), Size: 11},
		Alignment: &excelize.Alignment{Vertical: "bottom"},
	}
	if format, isCell := strings.CutPrefix(name, "cell "); !isCell {
		style.Font.Bold = true
		style.Alignment.WrapText = true
		style.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"EBE3D8"}}
		style.Border = []excelize.Border{{Type: "bottom", Style: 1, Color: "5A2A27"}}
	} else if format != "" {
		style.CustomNumFmt = &format
	}
	number, err := b.file.NewStyle(style)
	if err != nil {
		return 0, fmt.Errorf("the format of the added columns can't be made: %w", err)
	}
	if b.formats == nil {
		b.formats = map[string]int{}
	}
	b.formats[name] = number
	return number, nil
}

// typeface gives the name of the workbook's first font, which is that of plain cells.
func (c *contents) typeface() string {
	if _, names, err := children(c.parts[c.styles], "font"); err == nil {
		for _, element := range names {
			if name, _ := element.attribute("val"); element.name == "name" && name != "" && utf16Length(name) < excelize.MaxFontFamilyLength {
				return name
			}
		}
	}
	return "Calibri"
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

// eachRow gives the block's cells of the rows from the headings down, each row once: so they are asked for.
func (a *appending) eachRow(yield func([]byte) bool) {
	for number := a.block.HeadingRow; number <= a.block.LastRow && yield(bytes.Clone(a.cells(number))); number++ {
	}
}

// cells writes the block's cells of one row.
func (a *appending) cells(number int) []byte {
	a.cellText = a.cellText[:0]
	if number == a.block.HeadingRow {
		for i, heading := range a.block.Headings {
			a.cell(a.block.FirstColumn+i, number, a.heading, NewCell{Kind: Text, Value: heading})
		}
		return a.cellText
	}
	for i, cell := range a.block.Row(number) {
		style := a.columns[i]
		if cell.Format != "" && a.style != nil {
			style = a.style(cell.Format)
		}
		a.cell(a.block.FirstColumn+i, number, style, cell)
	}
	return a.cellText
}

// cell writes one cell: a formula with its cached value, or a plain value; nothing for a blank.
func (a *appending) cell(column, row, style int, cell NewCell) {
	formula := cell.Formula != "" || cell.Shape != ""
	if !formula && cell.Kind == Blank {
		return
	}
	text := append(a.cellText, '<')
	text = append(text, a.prefix...)
	text = append(text, `c r="`...)
	text = address.Append(text, column, row)
	text = append(text, '"')
	if style != 0 {
		text = append(text, ` s="`...)
		text = strconv.AppendInt(text, int64(style), 10)
		text = append(text, '"')
	}
	switch {
	case cell.Kind == Text && formula:
		text = append(text, ` t="str"`...)
	case cell.Kind == Text:
		text = append(text, ` t="inlineStr"`...)
	case cell.Kind == Bool:
		text = append(text, ` t="b"`...)
	case cell.Kind == ErrorValue:
		text = append(text, ` t="e"`...)
	}
	text = append(text, '>')
	if formula {
		text = a.formula(text, column, row, cell)
	}
	text = a.cached(text, cell, formula)
	text = append(text, "</"...)
	text = append(text, a.prefix...)
	a.cellText = append(text, "c>"...)
}

// formula writes <f>: the first of its shape with the text, the others with its number alone.
func (a *appending) formula(text []byte, column, row int, cell NewCell) []byte {
	text = append(text, '<')
	text = append(text, a.prefix...)
	if cell.Shape == "" {
		text = append(text, "f>"...)
		text = append(text, escape(cell.Formula)...)
		text = append(text, "</"...)
		text = append(text, a.prefix...)
		return append(text, "f>"...)
	}
	key := columnShape{column, cell.Shape}
	id, shared := a.shapes[key]
	if shared {
		text = append(text, `f t="shared" si="`...)
		text = strconv.AppendInt(text, int64(id), 10)
		return append(text, `"/>`...)
	}
	id = a.nextID
	a.nextID++
	a.shapes[key] = id
	text = fmt.Appendf(text, `f t="shared" ref="%s:%s" si="%d">`, address.Cell(column, row), address.Cell(column, a.block.LastRow), id)
	text = append(text, escape(cell.Formula)...)
	text = append(text, "</"...)
	text = append(text, a.prefix...)
	return append(text, "f>"...)
}

// cached writes <v>, or <is> for a text that is no formula's.
func (a *appending) cached(text []byte, cell NewCell, formula bool) []byte {
	value := cell.Value
	switch cell.Kind {
	case Blank:
		return text
	case Bool:
		value = map[bool]string{true: "1", false: "0"}[strings.EqualFold(value, "TRUE")]
	}
	if cell.Kind == Text && !formula {
		return append(text, withPrefix(a.prefix, `<is><t xml:space="preserve">`+escape(value)+`</t></is>`)...)
	}
	text = append(text, '<')
	text = append(text, a.prefix...)
	text = append(text, "v>"...)
	text = append(text, escape(value)...)
	text = append(text, "</"...)
	text = append(text, a.prefix...)
	return append(text, "v>"...)
}
