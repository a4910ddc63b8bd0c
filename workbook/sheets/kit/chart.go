package kit

import (
	"railbook/rules/address"
	"railbook/workbook/xlsx"
)

// NewChart begins a chart in our look, without its series.
func NewChart(kind xlsx.ChartKind, title, across, up string) xlsx.Chart {
	return xlsx.Chart{
		Kind: kind, Title: title, TitleSize: 12, Legend: "none", Width: chartWidth, Height: chartHeight,
		Across:   xlsx.Axis{Title: across, TitleSize: HeadingSize, LabelSize: HeadingSize},
		Up:       xlsx.Axis{Title: up, TitleSize: HeadingSize, LabelSize: HeadingSize, Grid: true},
		Typeface: typeface, Ink: inkColour, Frame: RuleColour,
	}
}

// Draw draws a chart over the page, its upper left corner in a cell.
func (p *Page) Draw(cell string, chart xlsx.Chart) {
	p.Do(func() error { return p.look.draft.AddChart(p.Name, cell, chart) })
}

func CellRange(sheet string, column, from, to int) string {
	if from == to {
		return address.Sheet(sheet) + "!" + address.Fixed(column, from)
	}
	return address.Sheet(sheet) + "!" + address.FixedSpan(column, from, column, to)
}

// What a chart covers of its sheet.
const (
	chartWidth     = 448 // pixels, of which the library counts 8 for each letter of a column
	chartHeight    = 242 // so that it ends within its rows, of which the library counts 18 pixels each
	ChartRows      = 14  // rows of the sheet that a chart covers
	ChartRowHeight = 15  // points, of the blank rows under a chart
)
