package xlsx

import (
	"cmp"

	"github.com/xuri/excelize/v2"
)

// ChartKind is how a chart draws its values.
type ChartKind uint8

// The kinds of charts.
const (
	ColumnChart  ChartKind = iota // columns side by side
	StackedChart                  // columns that stand on one another
	DotChart                      // dots or a line, each value over another
)

// Chart is a chart drawn from cells.
type Chart struct {
	Kind          ChartKind
	Title         string // empty: none
	Across, Up    Axis
	Series        []Series
	Legend        string // "top", "bottom", or "none"
	ShowValues    bool   // each column is labelled with its value
	Gap           uint   // between columns, in percent of their width; 0: as the program has it
	Width, Height uint   // pixels
	Typeface, Ink string // of all texts; the ink is a colour such as 262626
	TitleSize     float64
	Frame         string // the colour of the line round it
}

// Axis is one axis of a chart. Sizes are in points.
type Axis struct {
	Title                string // empty: none
	TitleSize, LabelSize float64
	Grid                 bool     // lines across the chart at its labels
	Step                 float64  // from one label to the next; 0: as the program has it
	Lowest, Highest      *float64 // nil: as the program has it
}

// Series are the values of one look: where their name stands, and what is drawn on each axis.
type Series struct {
	Name, Across, Up string
	Colour           string  // of columns, dots or the line; a column without one is left out, so that others stand on it
	Marker           string  // of dots: "diamond", "square", "triangle" or "circle"
	Size             int     // of dots, in points; 0: as we usually draw them
	Line             float64 // points, of a line through all, which has no dots then; 0: none
	Dashed           bool    // the line is broken
}

// AddChart draws a chart, its upper left corner in a cell.
func (d *Draft) AddChart(sheet, cell string, chart Chart) error {
	uncoloured := false
	drawn := &excelize.Chart{
		Type:       map[ChartKind]excelize.ChartType{ColumnChart: excelize.Col, StackedChart: excelize.ColStacked, DotChart: excelize.Scatter}[chart.Kind],
		VaryColors: &uncoloured,
		Dimension:  excelize.ChartDimension{Width: chart.Width, Height: chart.Height},
		Title:      chart.title(chart.Title, chart.TitleSize),
		Legend:     excelize.ChartLegend{Position: chart.Legend},
		PlotArea:   excelize.ChartPlotArea{ShowVal: chart.ShowValues},
		XAxis:      chart.axis(chart.Across),
		YAxis:      chart.axis(chart.Up),
		Border:     excelize.LineOptions{Type: excelize.LineSolid, Width: 0.5, Fill: solid(chart.Frame)},
	}
	if chart.Gap > 0 {
		drawn.GapWidth = &chart.Gap
	}
	for _, series := range chart.Series {
		drawn.Series = append(drawn.Series, chart.series(series))
	}
	return d.file.AddChart(sheet, cell, drawn)
}

func solid(colour string) excelize.Fill {
	return excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{colour}}
}

func (c *Chart) title(text string, size float64) excelize.ChartTitle {
	if text == "" {
		return excelize.ChartTitle{}
	}
	font := &excelize.Font{Family: c.Typeface, Size: size, Bold: true, Color: c.Ink}
	return excelize.ChartTitle{Paragraph: []excelize.RichTextRun{{Text: text, Font: font}}}
}

func (c *Chart) axis(axis Axis) excelize.ChartAxis {
	return excelize.ChartAxis{
		Title: c.title(axis.Title, axis.TitleSize), Font: excelize.Font{Family: c.Typeface, Size: axis.LabelSize, Color: c.Ink},
		MajorGridLines: axis.Grid, MajorUnit: axis.Step, Minimum: axis.Lowest, Maximum: axis.Highest,
	}
}

const dotSize = 6 // points

func (c *Chart) series(series Series) excelize.ChartSeries {
	drawn := excelize.ChartSeries{Name: series.Name, Categories: series.Across, Values: series.Up}
	switch {
	case c.Kind != DotChart && series.Colour == "":
		drawn.Fill = excelize.Fill{Type: "pattern"}
	case c.Kind != DotChart:
		drawn.Fill = solid(series.Colour)
	case series.Line > 0:
		drawn.Line = excelize.LineOptions{Type: excelize.LineSolid, Width: series.Line}
		drawn.Marker = excelize.ChartMarker{Symbol: "none"}
		if series.Dashed {
			drawn.Line.Dash = excelize.LineDashDash
		}
		if series.Colour != "" {
			drawn.Fill = solid(series.Colour) // the library takes a line's colour from here
		}
	default:
		drawn.Line = excelize.LineOptions{Type: excelize.LineNone}
		fill := solid(series.Colour)
		drawn.Marker = excelize.ChartMarker{Symbol: series.Marker, Size: cmp.Or(series.Size, dotSize), Fill: fill, Border: excelize.LineOptions{Type: excelize.LineSolid, Width: 0.5, Fill: fill}}
	}
	return drawn
}
