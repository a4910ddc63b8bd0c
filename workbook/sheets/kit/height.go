package kit

import (
	"maps"
	"math"
	"slices"
	"strings"
)

const (
	highestRow = 409.0 // points; no row may be higher

	// A unit of a column's width is a digit of the workbook's own typeface: 7 pixels of 1/96 inch in Calibri 11, which most
	// workbooks have, and 8 in Arial 11, which those have that are made afresh.
	usersUnit = 7 * 0.75 // points
	freshUnit = 8 * 0.75
	// cellPadding is what a program leaves blank beside a cell's text, left and right together, in points.
	cellPadding   = 4.5
	indentPadding = 7.0
	lineHeight    = 1.2 // of a line of text, to its size
	rowPadding    = 3.0 // points
)

// The widths of the letters of our typeface from blank to tilde, in thousandths of its size (the hmtx table of Liberation Sans
// 2.1, which has the widths of Arial).
var regularWidths = [...]int{
	278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556,
	556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556, 1015, 667, 667, 722, 722, 667,
	611, 778, 722, 278, 500, 667, 556, 833, 722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667,
	667, 611, 278, 278, 278, 469, 556, 333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500,
	222, 833, 556, 556, 556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584,
}

var boldWidths = [...]int{
	278, 333, 474, 556, 556, 889, 722, 238, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556,
	556, 556, 556, 556, 556, 556, 556, 333, 333, 584, 584, 584, 611, 975, 722, 722, 722, 722, 667,
	611, 778, 722, 278, 556, 722, 611, 833, 722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667,
	667, 611, 333, 278, 333, 584, 556, 333, 556, 611, 556, 611, 556, 333, 611, 611, 278, 278, 556,
	278, 889, 611, 611, 611, 611, 389, 556, 333, 611, 556, 778, 556, 556, 500, 389, 280, 389, 584,
}

// otherWidth is that of any other letter: as wide as a capital.
const otherWidth = 722

// TextWidth is how wide a text is on one line, in points.
func TextWidth(text string, of Role) float64 {
	widths, sum := &regularWidths, 0
	if isBold(of) {
		widths = &boldWidths
	}
	for _, letter := range text {
		switch {
		case letter >= ' ' && letter <= '~':
			sum += widths[letter-' ']
		case letter == '·' || letter == '’':
			sum += widths['.'-' ']
		default:
			sum += otherWidth
		}
	}
	return float64(sum) * sizeOf(of) / 1000
}

// WidthFor is how wide a column of a user's workbook must be, in its own units, for a text on one line.
func WidthFor(text string, of Role) float64 { return (TextWidth(text, of) + cellPadding) / usersUnit }

// FitWords widens columns, from 1, so that no word of their texts is broken, and leaves the rest of a sum of widths to another
// column.
func FitWords(widthFor func(string, Role) float64, widths []float64, rest int, together float64, texts map[int][]string) {
	const most = 16
	for _, column := range slices.Sorted(maps.Keys(texts)) {
		for _, text := range texts[column] {
			for word := range strings.FieldsSeq(text) {
				widths[column-1] = max(widths[column-1], min(widthFor(word, Body), most))
			}
		}
		together -= widths[column-1]
	}
	widths[rest-1] = together
}

// FreshWidthFor is how wide a column of a workbook made afresh must be.
func FreshWidthFor(text string, of Role) float64 {
	return (TextWidth(text, of) + cellPadding) / freshUnit
}

// height is the height in points that a cell needs in a column so many points wide.
func (e Entry) height(points float64) float64 {
	text, isText := e.Value.(string)
	if !isText || !e.Style.Wrap || e.Style.Across {
		text = ""
	}
	if e.Style.Indent {
		points -= indentPadding
	}
	return heightOf(text, points, e.Style.Role)
}

// HeightOf is the height in points of a text wrapped to a width in the units of columns.
func (p *Page) HeightOf(text string, wide float64, of Role) float64 {
	return heightOf(text, wide*p.look.unit, of)
}

// heightOf is the height in points of a text wrapped to a width in points.
func heightOf(text string, points float64, of Role) float64 {
	if text == "" {
		return math.Min(sizeOf(of)*lineHeight+rowPadding, highestRow)
	}
	lines := 0
	for paragraph := range strings.SplitSeq(text, "\n") {
		lines += linesOf(paragraph, points-cellPadding, of)
	}
	return math.Min(float64(lines)*sizeOf(of)*lineHeight+rowPadding, highestRow)
}

// linesOf counts the lines of a paragraph broken between words, and within a word that is longer than a line.
func linesOf(paragraph string, points float64, of Role) int {
	lines, used, blank := 1, 0.0, TextWidth(" ", of)
	for word := range strings.FieldsSeq(paragraph) {
		length := TextWidth(word, of)
		switch {
		case used > 0 && used+blank+length <= points:
			used += blank + length
			continue
		case used > 0:
			lines++
		}
		for ; length > points && points > sizeOf(of); length -= points - sizeOf(of) {
			lines++
		}
		used = length
	}
	return lines
}
