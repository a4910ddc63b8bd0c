package intake

import (
	"strings"
	"unicode"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/workbook/xlsx"
)

// parsedCell is what one cell was found to say.
type parsedCell struct {
	reading grading.Reading
	absent  bool   // something is written that says there is no value: "n/a"
	note    string // how it had to be interpreted, in words that fit every cell of the column alike; empty for as written
	problem string // why it cannot be read; empty where it can
	code    string // the finding's code where it is not "unreadable value"
	hint    string // the likely true value
	grade   string // a quality grade that stands in brackets behind the value
}

// cellParser is what a cell is read as, and what is known about its column.
type cellParser struct {
	definition   measure.Definition
	scale        scale // the unit of the column's numbers
	heading      string
	decimalComma bool
	text         bool // a text file: a number is text there as a matter of course
	date1904     bool
	marbling     rules.MarblingScale
	species      rules.Species
	vocabulary   *vocabulary
	answers      answers
}

// rightToLeft shows all that comes after it from right to left, digits too (Unicode Standard Annex 9, RLO): what is seen is not what
// is stored.
const rightToLeft = '\u202e'

// read says what a cell means for the measure in question. The cell is not blank.
func (p *cellParser) read(cell xlsx.Cell) parsedCell {
	switch {
	case cell.Kind == xlsx.ErrorValue:
		return parsedCell{problem: "holds the error " + cell.Raw + " in place of a value; mend the formula or type the value", code: "error value"}
	case cell.Kind == xlsx.Blank:
		return parsedCell{
			problem: "holds a formula that was never calculated; open the workbook in a spreadsheet program, save it and grade it again",
			code:    "formula never calculated",
		}
	}
	if cell.Kind == xlsx.Text {
		if strings.ContainsRune(cell.Raw, rightToLeft) && (p.definition.Kind != measure.KindText || isTag(p.definition.ID)) {
			return parsedCell{problem: "holds a mark by which it is shown turned round, 812 as 218; type it again"}
		}
		cell.Raw = clean(cell.Raw)
		if saysNothing(cell.Raw) && p.definition.ID != measure.Consent {
			return parsedCell{absent: true}
		}
	}
	switch p.definition.Kind {
	case measure.KindNumber:
		return p.number(cell)
	case measure.KindDate:
		return p.date(cell)
	case measure.KindMark:
		return p.mark(cell)
	case measure.KindMarbling, measure.KindMaturity, measure.KindGrade, measure.KindLowering:
		return p.words(cell)
	}
	if isTag(p.definition.ID) {
		return readTag(cell, p.definition.ID)
	}
	return p.plainText(cell)
}

// saysNothing reports whether a text only says that there is no value.
func saysNothing(text string) bool {
	switch text {
	case "-", "--", "---", "–", "—", "n/a", "N/A", "na", "NA", "n.a.", "N.A.", ".", "'", "_", "__", "___":
		return true
	}
	return false
}

// plainText reads words: a name, a class, a remark.
func (p *cellParser) plainText(cell xlsx.Cell) parsedCell {
	text := cell.Raw
	if dittoSign(text) && p.definition.ID != measure.Remarks {
		return parsedCell{code: dittoSigns, problem: "stands for what is written above it; write it out, since rows may be sorted"}
	}
	if cell.Kind == xlsx.Number && cell.Date {
		if day, ok := dayOf(cell.Raw, p.date1904); ok {
			text = day.Format("2006-01-02")
		}
	}
	return parsedCell{reading: grading.Reading{Value: measure.Value{Text: text}, Plain: cell.Kind == xlsx.Text || !cell.Date}}
}

// dittoSign reports whether a text only repeats what stands above it.
func dittoSign(text string) bool {
	switch strings.ToLower(strings.Trim(text, " -.")) {
	case `"`, "''", "”", "″", "〃", ",,", "do", "ditto", "same", "same as above", "as above", "see above":
		return true
	}
	return false
}

// nothing reports whether a cell holds nothing a person could see.
func nothing(cell xlsx.Cell) bool {
	switch cell.Kind {
	case xlsx.Blank:
		return !cell.Formula
	case xlsx.Text:
		return clean(cell.Raw) == "" && !cell.Formula
	}
	return false
}

// clean takes the blanks off the ends of a text, the non-breaking ones too, and makes one blank of several. What nobody sees goes: marks
// that join and that turn the direction of writing, and control characters, which no sheet can hold and a terminal would obey.
func clean(text string) string {
	plain := true
	for i := 0; i < len(text); i++ {
		if c := text[i]; c >= 0x7F || c < ' ' || c == ' ' && (i == 0 || i == len(text)-1 || text[i+1] == ' ') {
			plain = false
			break
		}
	}
	if plain {
		return text
	}
	text = strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r):
		case unicode.IsControl(r), r >= '\u202a' && r <= '\u202e', r >= '\u2066' && r <= '\u2069', r == '\ufffe', r == '\uffff',
			r == '\u200b', r == '\u200e', r == '\u200f', r == '\ufeff', r == '\u00ad':
			return -1
		}
		return r
	}, text)
	return strings.Join(strings.Fields(text), " ")
}

// formulaText reports whether a formula gives an empty text on purpose: it is as good as blank.
func formulaText(cell xlsx.Cell) bool {
	return cell.Kind == xlsx.Text && cell.Formula && clean(cell.Raw) == ""
}
