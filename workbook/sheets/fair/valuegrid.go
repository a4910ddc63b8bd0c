package fair

import (
	"slices"

	"github.com/shopspring/decimal"

	"railbook/grading"
	"railbook/rules"
	"railbook/workbook/record"
	"railbook/workbook/sheets/kit"
)

// writeValueGrid draws the grid that the price formulas refer to. Its cells stand where package grading laid them, so
// nothing is written above them.
func (p *Writer) writeValueGrid() error {
	grid := grading.LayOutGrid(p.Rules, p.gridSpecies())
	page := p.open(kit.PageSetup{
		Name: record.ValueGridSheet, Mark: record.ValueGridMark, Widths: gridWidths(grid.Rows[:grid.Lookups]),
		Hidden: []int{lookupColumn}, Landscape: true, RepeatFrom: 1, RepeatTo: 1, Tab: kit.InputTab,
	})
	for number, row := range grid.Rows {
		if number == grid.Lookups {
			page.PrintTo(len(page.Widths))
			page.HideRows()
		}
		p.gridRow(page, row)
	}
	return page.Close()
}

// lookupColumn is where the bands begin for the formulas, which the board need not see.
const lookupColumn = 5

// gridSpecies gives the species whose grid is laid out, in the order of the classes.
func (p *Writer) gridSpecies() []rules.Species {
	var species []rules.Species
	for _, kind := range p.KindsOfClasses() {
		if !slices.Contains(species, kind.Species) {
			species = append(species, kind.Species)
		}
	}
	return species
}

func (p *Writer) gridRow(page *kit.Page, row []grading.GridCell) {
	cells := make([]kit.Entry, len(row))
	for i, cell := range row {
		page.Do(func() (err error) {
			cells[i], err = gridEntry(cell)
			if cells[i] == (kit.Entry{}) && i > 0 && row[0].Style == "text" {
				cells[i] = kit.Entry{Value: "", Style: kit.Style{Role: kit.Body}} // so that its line is ruled through
			}
			return err
		})
	}
	if alone(row) && row[0].Style == "heading" {
		page.Across(row[0].Text, kit.Band, 1, len(page.Widths))
		return
	}
	if alone(row) && row[0].Style == "note" {
		page.Across(row[0].Text, kit.Note, 1, len(page.Widths))
		return
	}
	page.Write(cells...)
}

// alone reports whether a row says something in its first cell only.
func alone(row []grading.GridCell) bool {
	return len(row) > 0 && !slices.ContainsFunc(row[1:], func(cell grading.GridCell) bool { return cell.Text != "" })
}

func gridEntry(cell grading.GridCell) (kit.Entry, error) {
	if cell.Text == "" && cell.Style == "" {
		return kit.Entry{}, nil
	}
	drawn := kit.Entry{Value: cell.Text, Style: gridStyles[cell.Style]}
	if !cell.Number || cell.Text == "" {
		return drawn, nil
	}
	number, err := decimal.NewFromString(cell.Text)
	drawn.Value = number
	if cell.Formula != "" {
		drawn.Value = kit.Live{Formula: cell.Formula, Value: number}
	}
	return drawn, err
}

// The narrowest and the widest that a column of the grid becomes, and the widest of its Source column.
const (
	narrowestGridColumn = 8
	widestGridColumn    = 24
	widestSourceColumn  = 56
)

var gridStyles = map[string]kit.Style{
	"title":   {Role: kit.Title},
	"heading": {Role: kit.Heading, Wrap: true},
	"text":    {Role: kit.Body, Wrap: true},
	"money":   {Role: kit.Body, Format: "#,##0.00_)"},
	"number":  {Role: kit.Body, Format: `[<=-1000000]"any below"_);General_)`}, // the start of a band without a lower end
	"input":   {Role: kit.Input, Format: "#,##0.00_)"},
	"note":    {Role: kit.Note},
}

// gridWidths fits each column to its texts up to a width, beyond which they wrap; titles, notes and the headings of
// blocks run over the columns beside them.
func gridWidths(rows [][]grading.GridCell) []float64 {
	widths := []float64{narrowestGridColumn} // a grid of no species is a note
	for _, row := range rows {
		if alone(row) {
			continue
		}
		for i, cell := range row {
			for len(widths) <= i {
				widths = append(widths, narrowestGridColumn)
			}
			if cell.Style != "title" && cell.Style != "note" {
				widest := float64(widestGridColumn)
				if i == len(row)-1 {
					widest = widestSourceColumn
				}
				widths[i] = min(max(widths[i], kit.WidthFor(cell.Text, kit.Body)+1), widest)
			}
		}
	}
	return widths
}
