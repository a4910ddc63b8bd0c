package writing

import (
	"slices"
	"strconv"

	"github.com/shopspring/decimal"

	"railbook/grading"
	"railbook/rules/measure"
	"railbook/workbook/parts"
	"railbook/workbook/reading"
)

// gradedHeadingRow is where the headings of the Graded sheet stand, under its title and a note.
const gradedHeadingRow = 4

// gradedSheet is the sheet for carcasses whose own sheet has no room at its right: what was read and, from it, the
// computed columns.
type gradedSheet struct {
	*columns
	inputs  []measure.ID
	shown   []grading.Column
	read    map[measure.ID]string // the letters of the columns of what was read
	letters map[measure.ID]string // of the computed columns
}

// writeGraded writes the carcasses of some blocks on a sheet of their own.
func (c *columns) writeGraded(blocks []reading.Block) error {
	var carcasses []*grading.Carcass
	for _, block := range blocks {
		carcasses = append(carcasses, block.Carcasses...)
	}
	if len(carcasses) == 0 {
		return nil
	}
	g := c.planGraded(carcasses)
	press := newPress(c.Results)
	widths := g.widths()
	page := press.open(plan{
		Name: reading.GradedSheet, Mark: reading.GradedMark, Title: "Graded: " + press.status(),
		Subtitle: plural(len(carcasses), "carcass", "carcasses"), Widths: widths, Landscape: true, Tab: firstTab,
		RepeatFrom: gradedHeadingRow, RepeatTo: gradedHeadingRow, FreezeRows: gradedHeadingRow, FreezeColumns: 2,
	})
	page.across("These carcasses stand where nothing can be added to their right. What was read of them is repeated here in the units of the formulas.", note, 1, len(widths))
	page.headings(g.headings()...)
	for _, carcass := range carcasses {
		page.write(g.entries(c.graded[carcass], page.row+1)...)
	}
	return page.close()
}

// planGraded settles which columns the sheet has: tag, class, where it was read, what was read, and the computed ones.
func (c *columns) planGraded(carcasses []*grading.Carcass) *gradedSheet {
	kinds := kindsIn(carcasses)
	g := &gradedSheet{columns: c, shown: c.columnsFor(kinds, carcasses), read: make(map[measure.ID]string), letters: make(map[measure.ID]string)}
	for _, id := range inputsFor(kinds) {
		if slices.ContainsFunc(carcasses, func(one *grading.Carcass) bool { _, read := one.Readings[id]; return read }) {
			g.inputs = append(g.inputs, id)
		}
	}
	for i, id := range g.inputs {
		g.read[id] = columnName(4 + i)
	}
	for i, column := range g.shown {
		g.letters[column.Measure] = columnName(4 + len(g.inputs) + i)
	}
	return g
}

func (g *gradedSheet) headings() []string {
	list := []string{headingOf(measure.Tag), headingOf(measure.ClassName), "Read from"}
	for _, id := range g.inputs {
		list = append(list, headingOf(id))
	}
	for _, column := range g.shown {
		list = append(list, column.Heading)
	}
	return append(list, placeHeading, flagHeading)
}

func (g *gradedSheet) widths() []float64 {
	list := []float64{9, 22, 14}
	for range g.inputs {
		list = append(list, 11)
	}
	for _, column := range g.shown {
		list = append(list, widthOf(column))
	}
	return append(list, placeWidth, flagWidth)
}

// entries gives the cells of one carcass.
func (g *gradedSheet) entries(graded *grading.Graded, row int) []entry {
	plain, wrapped := style{Role: body}, style{Role: body, Wrap: true}
	list := []entry{{graded.Tag, plain}, {graded.Class, wrapped}, {graded.Place.Sheet + " " + graded.Place.Cell, wrapped}}
	for _, id := range g.inputs {
		list = append(list, readEntry(graded, id))
	}
	at := &gradedReferences{gradedSheet: g, graded: graded, row: row}
	for _, column := range g.shown {
		if g.onHold(graded.Carcass) {
			list = append(list, entry{"", plain})
			continue
		}
		list = append(list, at.computed(column))
	}
	place := entry{"", plain}
	if placed, ok := g.placed[graded]; ok {
		place.value = placed.Place
	}
	return append(list, place, entry{g.flag(graded), wrapped})
}

// readEntry shows what was read of a measure in its own unit; what could not be understood as it is written.
func readEntry(graded *grading.Graded, id measure.ID) entry {
	read, found := graded.Readings[id]
	switch {
	case !found:
		return entry{"", style{Role: body}}
	case read.Unreadable:
		return entry{read.Written, style{Role: body, Wrap: true}}
	case wordy(id):
		return entry{read.Value.Text, style{Role: body, Wrap: true}}
	}
	return entry{read.Value.Number, style{Role: body, Format: "General_)"}}
}

// gradedReferences tells the formulas of one row of the sheet where things stand.
type gradedReferences struct {
	*gradedSheet
	graded *grading.Graded
	row    int
	lost   bool
}

// computed gives the cell of a computed column: a live formula with its value where there is one.
func (r *gradedReferences) computed(column grading.Column) entry {
	cell, ok := shown(r.graded, column)
	if !ok {
		return entry{"", style{Role: body}}
	}
	drawn := entry{cell.Value, style{Role: body, Wrap: true}}
	if cell.Kind == parts.Number {
		number, err := decimal.NewFromString(cell.Value)
		if err != nil {
			return drawn
		}
		drawn = entry{number, style{Role: body, Format: formatOf(column)}}
		if cell.Format != "" {
			drawn.style.Format = cell.Format
		}
	}
	r.lost = false
	if formula, has := r.graded.Formula(column.Measure, r); has && !r.lost {
		drawn.value = live{formula: formula, value: drawn.value}
	}
	return drawn
}

// Cell gives the cell in which the sheet repeats what was read.
func (r *gradedReferences) Cell(id measure.ID) string {
	if _, ok := r.graded.Reading(id); !ok || wordy(id) {
		return ""
	}
	return r.at(r.read[id])
}

// Column gives the cell of a computed column in this row.
func (r *gradedReferences) Column(id measure.ID) string { return r.at(r.letters[id]) }

func (r *gradedReferences) at(letters string) string {
	if letters == "" {
		return ""
	}
	return letters + strconv.Itoa(r.row)
}

// Range gives a range of the Value grid sheet.
func (r *gradedReferences) Range(name string) string {
	area, found := r.ranges[name]
	r.lost = r.lost || !found
	return area
}
