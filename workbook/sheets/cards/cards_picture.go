package cards

import (
	"strings"

	"railbook/grading"
	"railbook/rules/address"
	"railbook/rules/measure"
	"railbook/workbook/sheets/kit"
	"railbook/workbook/xlsx"

	"github.com/shopspring/decimal"
)

// picture is the drawing of the terms that add up to a figure: a column for each, standing where the one before it ended.
// Columns that add, that take off and the sum differ in darkness, and every column's label carries its sign.
type picture struct {
	title       string
	whole       bool // the axis goes in whole grades
	anchor      string
	rows        int // of the sheet that it stands beside
	labels      []any
	base        []any // what a column stands on, left white
	adds, takes []any
	sum         []any
}

const (
	addsColour    = "77726A"
	takesColour   = "CFC8BC"
	sumColour     = "262626"
	pictureColumn = 2 // it stands in the columns from here on, counted from 0
	minus         = "-"
	// besideText keeps a number to the right of its cell away from the text of the next.
	besideText = "\u00a0\u00a0\u00a0"

	termHeight = 42.0 // points of a row beside the picture, which is as high as its rows: large enough to be read at a glance
)

// terms writes the addends of the yield grade, or of what the species has in its place, with their picture beside them.
func (c *card) terms() {
	id, figure, terms := c.summed()
	if terms == nil {
		return
	}
	definition, _ := measure.Define(id)
	places := placesThatAddUp(figure, terms)
	c.page.Across("Where the "+id.String()+" comes from", kit.Band, 1, cardColumns)
	c.whole = id == measure.YieldGrade
	c.title = definition.Heading
	switch {
	case c.whole:
		c.title += ": less is better"
	case definition.Unit != "":
		c.title = strings.TrimSuffix(c.title, " "+definition.Unit) + ", " + definition.Unit
	}
	c.anchor = address.Cell(pictureColumn+1, c.page.Row+1)
	running := decimal.Zero
	for _, term := range terms {
		number := term.Value.Number
		c.termRow(kit.Body, c.termWords(term), signedNumber(number, places, term.Measure != measure.None))
		next := running.Add(number)
		c.column(termLabel(term)+"\n"+signedNumber(number, places, term.Measure != measure.None)+goodOrBad(term, c.whole), decimal.Min(running, next), number)
		running = next
	}
	total := figure.Value.Number.StringFixed(places)
	c.termRow(kit.Strong, "Together: "+id.String(), total)
	c.labels, c.base = append(c.labels, definition.Heading+"\n"+total), append(c.base, decimal.Zero)
	c.adds, c.takes, c.sum = append(c.adds, nil), append(c.takes, nil), append(c.sum, figure.Value.Number)
}

// summed is the first figure of the species, grades before others, that is a sum of several terms.
func (c *card) summed() (measure.ID, grading.Figure, []grading.Term) {
	measures := append([]measure.ID{measure.YieldGrade}, grading.Computes(c.Species, c.Basis)...)
	for _, id := range measures {
		figure := c.FigureOf(id)
		definition, _ := measure.Define(id)
		if terms := c.Terms(id); definition.Computed && figure.Missing == "" && len(terms) > 1 {
			return id, figure, terms
		}
	}
	return measure.None, grading.Figure{}, nil
}

// placesThatAddUp is the least number of decimals at which the terms as printed add up to the figure as printed.
func placesThatAddUp(figure grading.Figure, terms []grading.Term) int32 {
	const most = 6
	for places := int32(2); places < most; places++ {
		sum := decimal.Zero
		for _, term := range terms {
			sum = sum.Add(term.Value.Number.Round(places))
		}
		printed := figure.Value.Number.Round(places)
		if sum.Equal(printed) && printed.Floor().Equal(figure.Value.Number.Floor()) {
			return places
		}
	}
	return most
}

func signedNumber(number decimal.Decimal, places int32, signed bool) string {
	switch {
	case number.IsNegative():
		return minus + number.Abs().StringFixed(places)
	case signed:
		return "+" + number.StringFixed(places)
	}
	return number.StringFixed(places)
}

func (c *card) termWords(term grading.Term) string {
	if term.Measure == measure.None {
		return "To begin with"
	}
	definition, _ := measure.Define(term.Measure)
	value, _ := c.Figure(term.Measure)
	return definition.Heading + ", " + cardFigure(term.Measure, value)
}

func termLabel(term grading.Term) string {
	if term.Measure == measure.None {
		return "Begin"
	}
	definition, _ := measure.Define(term.Measure)
	return definition.Heading
}

// goodOrBad says in words whether a column makes the figure better: of the yield grade, what is taken off does.
func goodOrBad(term grading.Term, lessIsBetter bool) string {
	switch number := term.Value.Number; {
	case term.Measure == measure.None || number.IsZero():
		return ""
	case number.IsNegative() == lessIsBetter:
		return " (better)"
	}
	return " (worse)"
}

func (c *card) termRow(of kit.Role, words, number string) {
	c.page.WriteHigh(termHeight, kit.Entry{Value: words, Style: kit.Style{Role: of, Wrap: true}}, kit.Entry{Value: number + besideText, Style: kit.Style{Role: of, Align: "right"}})
	c.rows++
}

// column adds a column that stands on base and is as high as the term is large.
func (c *card) column(label string, base, number decimal.Decimal) {
	c.labels, c.base, c.sum = append(c.labels, label), append(c.base, base), append(c.sum, nil)
	if number.IsNegative() {
		c.adds, c.takes = append(c.adds, nil), append(c.takes, number.Abs())
		return
	}
	c.adds, c.takes = append(c.adds, number), append(c.takes, nil)
}

// draw writes the figures of the picture below what is printed, and draws it from them.
func (p *picture) draw(page *kit.Page) {
	if len(p.labels) == 0 {
		return
	}
	page.Skip(3)
	page.Write(kit.Entry{Value: "Figures behind the picture (not printed)", Style: kit.Style{Role: kit.Note}})
	top := page.Headings("Column", "Stands on", "Adds", "Takes off", "Together")
	plain := kit.Style{Role: kit.Note}
	for i := range p.labels {
		page.Write(kit.Entry{Value: p.labels[i], Style: plain}, kit.Entry{Value: p.base[i], Style: plain}, kit.Entry{Value: p.adds[i], Style: plain}, kit.Entry{Value: p.takes[i], Style: plain}, kit.Entry{Value: p.sum[i], Style: plain})
	}
	chart := kit.NewChart(xlsx.StackedChart, "", "", p.title)
	chart.Up.TitleSize, chart.Up.LabelSize, chart.Across.LabelSize = kit.HeadingSize, kit.HeadingSize, kit.HeadingSize
	chart.Up.Grid = false
	if p.whole {
		chart.Up.Step = 1
	}
	chart.Width, chart.Height, chart.Gap = p.width(), p.height(), 25
	last := top + len(p.labels)
	for column, colour := range []string{"", addsColour, takesColour, sumColour} {
		chart.Series = append(chart.Series, xlsx.Series{
			Name: kit.CellRange(page.Name, column+2, top, top), Across: kit.CellRange(page.Name, 1, top+1, last),
			Up: kit.CellRange(page.Name, column+2, top+1, last), Colour: colour,
		})
	}
	page.Draw(p.anchor, chart)
}

// The library reckons where a drawing ends with rows of 18 pixels and columns of 8 pixels a letter, whatever they are, and
// writes the end as a cell: so the picture is sized in those to end where its rows and columns do.
const (
	reckonedRow    = 18
	reckonedLetter = 8
)

func (p *picture) width() (wide uint) {
	for _, width := range cardWidths[pictureColumn:] {
		wide += uint(width * reckonedLetter)
	}
	return wide
}

func (p *picture) height() uint { return uint(p.rows * reckonedRow) }
