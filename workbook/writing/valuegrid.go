package writing

import (
	"slices"

	"github.com/shopspring/decimal"

	"railbook/grading"
	"railbook/rules"
	"railbook/workbook/reading"
)

// writeValueGrid draws the grid that the price formulas refer to. Its cells stand where package grading laid them, so
// nothing is written above them.
func (p *press) writeValueGrid() error {
	grid := grading.LayOutGrid(p.Rules, p.gridSpecies())
	page := p.open(plan{
		Name: reading.ValueGridSheet, Mark: reading.ValueGridMark, Widths: gridWidths(grid.Rows),
		Landscape: true, RepeatFrom: 1, RepeatTo: 1, Tab: inputTab,
	})
	for _, row := range grid.Rows {
		p.gridRow(page, row)
	}
	return page.close()
}

// gridSpecies gives the species whose grid is laid out, in the order of the classes.
func (p *press) gridSpecies() []rules.Species {
	var species []rules.Species
	for _, kind := range p.kindsOfClasses() {
		if !slices.Contains(species, kind.Species) {
			species = append(species, kind.Species)
		}
	}
	return species
}

func (p *press) gridRow(page *page, row []grading.GridCell) {
	cells := make([]entry, len(row))
	for i, cell := range row {
		page.do(func() (err error) {
			cells[i], err = gridEntry(cell)
			return err
		})
	}
	if alone(row) && row[0].Style == "heading" {
		page.across(row[0].Text, band, 1, len(page.Widths))
		return
	}
	page.write(cells...)
}

// alone reports whether a row says something in its first cell only.
func alone(row []grading.GridCell) bool {
	return len(row) > 0 && !slices.ContainsFunc(row[1:], func(cell grading.GridCell) bool { return cell.Text != "" })
}

func gridEntry(cell grading.GridCell) (entry, error) {
	if cell.Text == "" && cell.Style == "" {
		return entry{}, nil
	}
	drawn := entry{cell.Text, gridStyles[cell.Style]}
	if !cell.Number || cell.Text == "" {
		return drawn, nil
	}
	number, err := decimal.NewFromString(cell.Text)
	drawn.value = number
	return drawn, err
}

const widestGridColumn = 38

var gridStyles = map[string]style{
	"title":   {Role: title},
	"heading": {Role: heading, Wrap: true},
	"text":    {Role: body, Wrap: true},
	"money":   {Role: body, Format: "#,##0.00_)"},
	"number":  {Role: body, Format: `[<=-1000000]"any below"_);General_)`}, // the start of a band without a lower end
	"input":   {Role: input, Format: "#,##0.00_)"},
	"note":    {Role: note},
}

// gridWidths fits each column to its texts up to a width, beyond which they wrap; titles, notes and the headings of
// blocks run over the columns beside them.
func gridWidths(rows [][]grading.GridCell) []float64 {
	var widths []float64
	for _, row := range rows {
		if alone(row) {
			continue
		}
		for i, cell := range row {
			for len(widths) <= i {
				widths = append(widths, 10)
			}
			if cell.Style != "title" && cell.Style != "note" {
				widths[i] = min(max(widths[i], float64(len([]rune(cell.Text)))*0.9+2), widestGridColumn)
			}
		}
	}
	return widths
}
