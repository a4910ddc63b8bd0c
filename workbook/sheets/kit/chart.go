package kit

import (
	"github.com/xuri/excelize/v2"

	"railbook/rules/address"
)

func NewChart(kind excelize.ChartType, title, across, up string) *excelize.Chart {
	uncoloured := false
	return &excelize.Chart{
		Type: kind, VaryColors: &uncoloured, Dimension: excelize.ChartDimension{Width: chartWidth, Height: chartHeight},
		Title:  excelize.ChartTitle{Paragraph: ChartText(title, 11)},
		Legend: excelize.ChartLegend{Position: "none"},
		XAxis:  excelize.ChartAxis{Title: excelize.ChartTitle{Paragraph: ChartText(across, 9)}, Font: excelize.Font{Family: typeface, Size: 8, Color: inkColour}},
		YAxis: excelize.ChartAxis{
			Title: excelize.ChartTitle{Paragraph: ChartText(up, 9)}, MajorGridLines: true,
			Font: excelize.Font{Family: typeface, Size: 8, Color: inkColour},
		},
		Border: excelize.LineOptions{Type: excelize.LineSolid, Width: 0.5, Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{RuleColour}}},
	}
}

// ChartText is a text in a chart, in bold type of a size in points.
func ChartText(text string, size float64) []excelize.RichTextRun {
	return []excelize.RichTextRun{{Text: text, Font: &excelize.Font{Family: typeface, Size: size, Bold: true, Color: inkColour}}}
}

func CellRange(sheet string, column, from, to int) string {
	if from == to {
		return address.Sheet(sheet) + "!" + address.Fixed(column, from)
	}
	return address.Sheet(sheet) + "!" + address.FixedSpan(column, from, column, to)
}

// What a chart covers of its sheet.
const (
	chartWidth     = 480 // pixels
	chartHeight    = 278 // so that it ends within its rows, of which the library counts 18 pixels each
	ChartRows      = 16  // rows of the sheet that a chart covers
	ChartRowHeight = 15  // points, of the blank rows under a chart
)
