package fair

import (
	"fmt"
	"strconv"

	"railbook/grading"
	"railbook/rules/address"
	"railbook/rules/measure"
	"railbook/workbook/intake"
	"railbook/workbook/record"
	"railbook/workbook/result"
	"railbook/workbook/xlsx"
)

// beside is one block of computed columns to the right of the data.
type beside struct {
	*columns
	block   intake.Block
	shown   []grading.Column
	letters map[measure.ID]string // of the computed columns
	inputs  map[result.KindOfClass][]measure.ID
	rows    map[int]*grading.Graded
	shapes  map[string]*besideShape // those that were met
	shape   []byte                  // of the row being made
	cells   []xlsx.NewCell          // of that row
}

// besideShape is what rows of one shape share.
type besideShape struct {
	text     string
	formulas []bool // which columns have a formula
}

// append adds the columns of one block.
func (c *columns) append(block intake.Block, number int) error {
	first, err := c.Book.FreeColumn(block.Sheet, block.FirstRow, block.LastRow, block.LastColumn+1)
	if err != nil {
		return fmt.Errorf("sheet %q: %w", block.Sheet, err)
	}
	kinds := kindsIn(block.Carcasses)
	b := &beside{
		columns: c, block: block, shown: c.columnsFor(kinds, block.Carcasses), letters: make(map[measure.ID]string),
		inputs: make(map[result.KindOfClass][]measure.ID), rows: make(map[int]*grading.Graded, len(block.Carcasses)), shapes: make(map[string]*besideShape),
	}
	added := xlsx.Appended{
		Sheet: block.Sheet, Mark: record.ColumnsMark + strconv.Itoa(number),
		FirstColumn: first, HeadingRow: block.FirstRow, LastRow: block.LastRow, Row: b.row,
	}
	for i, column := range b.shown {
		b.letters[column.Measure] = address.Column(first + i)
		added.Headings = append(added.Headings, column.Heading)
		added.Formats = append(added.Formats, formatOf(column))
		added.Widths = append(added.Widths, widthOf(column))
	}
	added.Headings = append(added.Headings, placeHeading, flagHeading)
	added.Formats = append(added.Formats, "0"+apart, "")
	added.Widths = append(added.Widths, placeWidth, flagWidth)
	for _, kind := range kinds {
		b.inputs[kind] = grading.Inputs(kind.Species, kind.Basis)
	}
	for i, carcass := range block.Carcasses {
		b.rows[block.Lines[i]] = c.Of(carcass).Graded
	}
	if err := c.Book.PrintTo(block.Sheet, first-1); err != nil { // the sheet prints as it came
		return fmt.Errorf("sheet %q: %w", block.Sheet, err)
	}
	c.views = append(c.views, b.view(added))
	return c.Book.Append(added)
}

// view is the block as it will be written, by which it is told later which cells were typed over. It is drawn before the rows
// are written, so it has its own memory of which of them share their formulas.
func (b *beside) view(added xlsx.Appended) record.View {
	own := *b
	own.shapes, own.cells = make(map[string]*besideShape), nil
	view := record.View{Mark: added.Mark, Sheet: added.Sheet}
	type sharedForm struct {
		shape  string
		column int
	}
	forms := make(map[sharedForm]string) // rows of one shape have formulas of one form
	var headings []record.ViewCell
	for i, heading := range added.Headings {
		headings = append(headings, record.ViewCell{Column: i + 1, Text: heading})
	}
	view.AddCells(added.HeadingRow, len(added.Headings), headings)
	var cells []record.ViewCell // of a row
	for number := added.HeadingRow + 1; number <= min(added.LastRow, record.MostRows); number++ {
		cells = cells[:0]
		for i, cell := range own.row(number) {
			each := record.ViewCell{Column: i + 1, Text: cell.Value, Formula: cell.Formula != "" || cell.Shape != ""}
			shared := sharedForm{cell.Shape, i}
			switch {
			case cell.Formula != "":
				each.Form = record.FormBeside(cell.Formula, number, added.FirstColumn, len(added.Headings), nil)
				forms[shared] = each.Form
			case cell.Shape != "":
				each.Form = forms[shared]
			}
			cells = append(cells, each)
		}
		view.AddCells(number, len(added.Headings), cells)
	}
	return view
}

// row gives the cells of one row, good until the next; nil where no carcass stands.
func (b *beside) row(number int) []xlsx.NewCell {
	graded := b.rows[number]
	if graded == nil {
		return nil
	}
	if b.cells == nil {
		b.cells = make([]xlsx.NewCell, len(b.shown)+2)
	}
	cells := b.cells
	clear(cells)
	b.figures(cells, graded, number)
	if placed := b.Of(graded.Carcass).Standing.Placed; placed != nil {
		cells[len(b.shown)] = xlsx.NewCell{Kind: xlsx.Number, Value: strconv.Itoa(placed.Place)}
	}
	if flag := b.flag(graded, b.shown); flag != "" {
		cells[len(b.shown)+1] = xlsx.NewCell{Kind: xlsx.Text, Value: flag}
	}
	return cells
}

// figures fills the computed cells of a row. Rows of one shape share their formulas, which are made once.
func (b *beside) figures(cells []xlsx.NewCell, graded *grading.Graded, number int) {
	doubted := b.doubtedColumns(b.Of(graded.Carcass), b.shown)
	b.shape = b.appendShape(b.shape[:0], graded, number)
	if len(b.shape) > 0 && doubted != nil {
		b.shape = fmt.Append(b.shape, doubted) // rows that leave the same columns blank
	}
	shape, known := b.shapes[string(b.shape)]
	if !known {
		shape = &besideShape{string(b.shape), make([]bool, len(b.shown))}
	}
	at := &besideReferences{beside: b, graded: graded, row: number}
	for i, column := range b.shown {
		cell, ok := shown(graded, column)
		if !ok || doubted != nil && doubted[i] {
			continue
		}
		if known && shape.formulas[i] {
			cell.Shape = shape.text
		} else if !known {
			if formula, has := at.formula(column.Measure); has {
				cell.Formula, cell.Shape, shape.formulas[i] = formula, shape.text, true
			}
		}
		cells[i] = cell
	}
	if !known && shape.text != "" {
		b.shapes[shape.text] = shape
	}
}

// appendShape adds what tells which rows have the same formulas but for the row; nothing where a row has formulas of its own, because
// a measure was read from another row or sheet.
func (b *beside) appendShape(shape []byte, graded *grading.Graded, number int) []byte {
	before := len(shape)
	if shape = graded.AppendShape(shape); len(shape) == before {
		return shape
	}
	for _, id := range b.inputs[result.KindOfClass{Species: graded.Species, Basis: graded.Basis}] {
		read, ok := graded.Reading(id)
		if !ok || !read.Plain && read.Factor == "" {
			shape = append(shape, ',')
			continue
		}
		column, row, _ := address.Parse(read.Place.Cell)
		if read.Place.File != "" || read.Place.Sheet != b.block.Sheet || row != number {
			return shape[:before]
		}
		shape = append(strconv.AppendInt(shape, int64(column), 10), ',')
	}
	return shape
}

// besideReferences tells the formulas of one row where things stand.
type besideReferences struct {
	*beside
	graded *grading.Graded
	row    int
	lost   bool // something was asked for that is not in the workbook: the value is written instead of a formula
}

// formula gives the formula of a computed column; ok is false where the value itself must be written.
func (r *besideReferences) formula(id measure.ID) (text string, ok bool) {
	r.lost = false
	text, ok = r.graded.Formula(id, r)
	return text, ok && !r.lost
}

// Cell gives the cell that was read, or an expression that converts it.
func (r *besideReferences) Cell(id measure.ID) string {
	read, ok := r.graded.Reading(id)
	if !ok || read.Place.File != "" || read.Place.Cell == "" {
		return ""
	}
	cell := read.Place.Cell
	if read.Place.Sheet != r.block.Sheet {
		cell = address.Sheet(read.Place.Sheet) + "!" + cell
	}
	switch {
	case read.Factor != "":
		return "ROUND(" + cell + "*" + read.Factor + ",4)"
	case read.Plain:
		return cell
	}
	return ""
}

// Column gives the cell of a computed column in this row.
func (r *besideReferences) Column(id measure.ID) string {
	letters, written := r.letters[id]
	if !written {
		return ""
	}
	return letters + strconv.Itoa(r.row)
}

// Range gives a range of the Value grid sheet.
func (r *besideReferences) Range(name string) string {
	area, found := r.ranges[name]
	r.lost = r.lost || !found
	return area
}
