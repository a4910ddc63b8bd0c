package kit

import (
	"math"
	"strings"
	"unicode/utf8"
)

const highestRow = 409.0 // points; no row may be higher

// height is the height in points that a cell needs in a column so many characters wide.
func (e Entry) height(wide float64) float64 {
	text, isText := e.Value.(string)
	if !isText || !e.Style.Wrap || e.Style.Across {
		text = ""
	}
	return HeightOf(text, wide, e.Style.Role)
}

// heightOf is the height in points of a text wrapped to a width in characters.
func HeightOf(text string, wide float64, of Role) float64 {
	size := sizeOf(of)
	lines := 0
	for paragraph := range strings.SplitSeq(text, "\n") {
		lines += linesOf(paragraph, wide*lettersPerWidth(of))
	}
	return math.Min(float64(lines)*size*1.28+3.5, highestRow)
}

// lettersPerWidth is how many letters of running text fit where one digit of the spreadsheet's own typeface does;
// chosen a little low, for text that is cut off is worse than a line left blank.
func lettersPerWidth(of Role) float64 {
	perLetter := 1.22
	switch of {
	case Strong, Total, Subtitle, Band, Heading, PaperHeading, Listed, Title:
		perLetter = 1.1
	}
	return perLetter * bodySize / sizeOf(of)
}

// linesOf counts the lines of a paragraph broken between words, and within a word that is longer than a line.
func linesOf(paragraph string, letters float64) int {
	lines, used := 1, 0.0
	for word := range strings.FieldsSeq(paragraph) {
		length := float64(utf8.RuneCountInString(word))
		switch {
		case used > 0 && used+1+length <= letters:
			used += 1 + length
			continue
		case used > 0:
			lines++
		}
		for length > letters && letters > 1 {
			length -= math.Floor(letters)
			lines++
		}
		used = length
	}
	return lines
}
