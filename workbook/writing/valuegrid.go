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
	var species []rules.Species
	for _, kind := range p.kindsOfClasses() {
		if !slices.Contains(species, kind.Species) {
			species = append(species, kind.Species)
		}
	}
	grid := grading.LayOutGrid(p.Rules, species)
	page := p.open(plan{
		Name: reading.ValueGridSheet, Mark: reading.ValueGridMark, Widths: gridWidths(grid.Rows),
		Landscape: true, RepeatFrom: 1, RepeatTo: 1, Tab: inputTab,
	})
	for _, row := range grid.Rows {
		cells := make([]entry, len(row))
		for i, cell := range row {
			if cells[i], page.err = gridEntry(cell); page.err != nil {
				return page.close()
			}
		}
		page.write(cells...)
	}
	page.skip(1)
	page.write(entry{"Prices in the workbook follow the tinted and bordered cells at once. Placings do not: grade the workbook again after changing one.", style{Role: note}})
	return page.close()
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

var gridStyles = map[string]style{
	"title":   {Role: title},
	"heading": {Role: heading, Wrap: true},
	"text":    {Role: body},
	"money":   {Role: body, Format: "#,##0.00"},
	"number":  {Role: body},
	"input":   {Role: input, Format: "#,##0.00"},
	"note":    {Role: note},
}

// gridWidths fits each column to the longest of its short texts; titles and notes run over the columns beside them.
func gridWidths(rows [][]grading.GridCell) []float64 {
	var widths []float64
	for _, row := range rows {
		for i, cell := range row {
			for len(widths) <= i {
				widths = append(widths, 10)
			}
			if cell.Style != "title" && cell.Style != "note" {
				widths[i] = min(max(widths[i], float64(len([]rune(cell.Text)))+2), 44)
			}
		}
	}
	return widths
}
