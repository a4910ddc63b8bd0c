package fair

import (
	"slices"
	"strconv"

	"github.com/shopspring/decimal"

	"railbook/grading"
	"railbook/rules/address"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/workbook/intake"
	"railbook/workbook/record"
	"railbook/workbook/result"
	"railbook/workbook/sheets/kit"
	"railbook/workbook/xlsx"
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
func (c *columns) writeGraded(blocks []intake.Block) error {
	var carcasses []*grading.Carcass
	for _, block := range blocks {
		carcasses = append(carcasses, block.Carcasses...)
	}
	if len(carcasses) == 0 {
		return nil
	}
	g := c.planGraded(carcasses)
	writer := newWriter(c.Results)
	widths := g.widths()
	page := writer.open(kit.PageSetup{
		Name: record.GradedSheet, Mark: record.GradedMark, Title: "Graded: " + writer.Status(),
		Subtitle: phrase.Plural(len(carcasses), "carcass", "carcasses"), Widths: widths, Landscape: true, Tab: kit.FirstTab,
		RepeatFrom: gradedHeadingRow, RepeatTo: gradedHeadingRow, FreezeRows: gradedHeadingRow, FreezeColumns: 2,
	})
	page.Across("These carcasses stand where nothing can be added to their right. What was read of them is repeated here in the units of the formulas.", kit.Note, 1, len(widths))
	page.Headings(g.Headings()...)
	for _, carcass := range carcasses {
		page.Write(g.entries(c.Of(carcass).Graded, page.Row+1)...)
	}
	err := page.Close()
	c.views = append(c.views, writer.Look.Views...)
	return err
}

// planGraded settles which columns the sheet has: tag, class, where it was read, what was read, and the computed ones.
func (c *columns) planGraded(carcasses []*grading.Carcass) *gradedSheet {
	kinds := kindsIn(carcasses)
	g := &gradedSheet{columns: c, shown: c.columnsFor(kinds, carcasses), read: make(map[measure.ID]string), letters: make(map[measure.ID]string)}
	for _, id := range inputsFor(kinds) {
		if slices.ContainsFunc(carcasses, func(carcass *grading.Carcass) bool { _, read := carcass.Written(id); return read }) {
			g.inputs = append(g.inputs, id)
		}
	}
	for i, id := range g.inputs {
		g.read[id] = address.Column(4 + i)
	}
	for i, column := range g.shown {
		g.letters[column.Measure] = address.Column(4 + len(g.inputs) + i)
	}
	return g
}

func (g *gradedSheet) Headings() []string {
	list := []string{result.HeadingOf(measure.Tag), result.HeadingOf(measure.ClassName), "Read from"}
	for _, id := range g.inputs {
		list = append(list, result.HeadingOf(id))
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
func (g *gradedSheet) entries(graded *grading.Graded, row int) []kit.Entry {
	plain, wrapped := kit.Style{Role: kit.Body}, kit.Style{Role: kit.Body, Wrap: true}
	list := []kit.Entry{{Value: graded.Tag, Style: plain}, {Value: graded.Class, Style: wrapped}, {Value: graded.Place.Sheet + " " + graded.Place.Cell, Style: wrapped}}
	for _, id := range g.inputs {
		list = append(list, readEntry(graded, id))
	}
	at := &gradedReferences{gradedSheet: g, graded: graded, row: row}
	doubted := g.doubtedColumns(g.Of(graded.Carcass), g.shown)
	for i, column := range g.shown {
		if doubted != nil && doubted[i] {
			list = append(list, kit.Entry{Value: "", Style: plain})
			continue
		}
		list = append(list, at.computed(column))
	}
	place := kit.Entry{Value: "", Style: plain}
	if placed := g.Of(graded.Carcass).Standing.Placed; placed != nil {
		place.Value = placed.Place
	}
	return append(list, place, kit.Entry{Value: g.flag(graded, g.shown), Style: wrapped})
}

// readEntry shows what was read of a measure in its own unit; what could not be understood as it is written.
func readEntry(graded *grading.Graded, id measure.ID) kit.Entry {
	read, found := graded.Written(id)
	switch {
	case !found:
		return kit.Entry{Value: "", Style: kit.Style{Role: kit.Body}}
	case read.Unreadable:
		return kit.Entry{Value: read.Written, Style: kit.Style{Role: kit.Body, Wrap: true}}
	case wordy(id):
		return kit.Entry{Value: read.Value.Text, Style: kit.Style{Role: kit.Body, Wrap: true}}
	}
	return kit.Entry{Value: read.Value.Number, Style: kit.Style{Role: kit.Body, Format: "General_)"}}
}

// gradedReferences tells the formulas of one row of the sheet where things stand.
type gradedReferences struct {
	*gradedSheet
	graded *grading.Graded
	row    int
	lost   bool
}

// computed gives the cell of a computed column: a live formula with its value where there is one.
func (r *gradedReferences) computed(column grading.Column) kit.Entry {
	cell, ok := shown(r.graded, column)
	if !ok {
		return kit.Entry{Value: "", Style: kit.Style{Role: kit.Body}}
	}
	drawn := kit.Entry{Value: cell.Value, Style: kit.Style{Role: kit.Body, Wrap: true}}
	if cell.Kind == xlsx.Number {
		number, err := decimal.NewFromString(cell.Value)
		if err != nil {
			return drawn
		}
		drawn = kit.Entry{Value: number, Style: kit.Style{Role: kit.Body, Format: formatOf(column)}}
		if cell.Format != "" {
			drawn.Style.Format = cell.Format
		}
	}
	r.lost = false
	if formula, has := r.graded.Formula(column.Measure, r); has && !r.lost {
		drawn.Value = kit.Live{Formula: formula, Value: drawn.Value}
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
