package intake

import (
	"strings"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/workbook/xlsx"
)

// told is what one cell was found to say.
type told struct {
	reading grading.Reading
	absent  bool   // something is written that says there is no value: "n/a"
	note    string // how it had to be interpreted, in words that fit every cell of the column alike; empty for as written
	problem string // why it cannot be read; empty where it can
	code    string // the finding's code where it is not "unreadable value"
	hint    string // the likely true value
	grade   string // a quality grade that stands in brackets behind the value
}

// question is what a cell is read as, and what is known about its column.
type question struct {
	definition   measure.Definition
	scale        scale // the unit of the column's numbers
	heading      string
	decimalComma bool
	text         bool // a text file: a number is text there as a matter of course
	date1904     bool
	marbling     rules.MarblingScale
	species      rules.Species
	vocabulary   *vocabulary
	answers      map[xlsx.Cell]told // what was read before: most columns have few different values
	alike        grading.Alike
}

// mostAnswers is how many answers of a column are kept.
const mostAnswers = 2000

// read says what a cell means for the measure in question. The cell is not blank.
func (q *question) read(cell xlsx.Cell) told {
	cell.Column, cell.Style = 0, 0 // which tell nothing of what is written
	answer, known := q.answers[cell]
	if known {
		return answer
	}
	answer = q.readAnew(cell)
	if q.answers == nil {
		q.answers = map[xlsx.Cell]told{}
	}
	if len(q.answers) < mostAnswers {
		q.answers[cell] = answer
	}
	return answer
}

func (q *question) readAnew(cell xlsx.Cell) told {
	switch {
	case cell.Kind == xlsx.ErrorValue:
		return told{problem: "holds the error " + cell.Raw + " in place of a value; mend the formula or type the value", code: "error value"}
	case cell.Kind == xlsx.Blank:
		return told{
			problem: "holds a formula that was never calculated; open the workbook in a spreadsheet program, save it and grade it again",
			code:    "formula never calculated",
		}
	}
	if cell.Kind == xlsx.Text {
		cell.Raw = clean(cell.Raw)
		if saysNothing(cell.Raw) && q.definition.ID != measure.Consent {
			return told{absent: true}
		}
	}
	switch q.definition.Kind {
	case measure.KindNumber:
		return q.number(cell)
	case measure.KindDate:
		return q.date(cell)
	case measure.KindMark:
		return q.mark(cell)
	case measure.KindMarbling, measure.KindMaturity, measure.KindGrade, measure.KindLowering:
		return q.words(cell)
	}
	if isTag(q.definition.ID) {
		return readTag(cell, q.definition.ID)
	}
	return q.plainText(cell)
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
func (q *question) plainText(cell xlsx.Cell) told {
	text := cell.Raw
	if dittoSign(text) && q.definition.ID != measure.Remarks {
		return told{code: dittoSigns, problem: "stands for what is written above it; write it out, since rows may be sorted"}
	}
	if cell.Kind == xlsx.Number && cell.Date {
		if day, ok := dayOf(cell.Raw, q.date1904); ok {
			text = day.Format("2006-01-02")
		}
	}
	return told{reading: grading.Reading{Value: measure.Value{Text: text}, Plain: cell.Kind == xlsx.Text || !cell.Date}}
}

// dittoSign reports whether a text only repeats what stands above it.
func dittoSign(text string) bool {
	switch strings.ToLower(strings.Trim(text, " -.")) {
	case `"`, "''", "”", "″", "〃", ",,", "do", "ditto", "same", "same as above", "as above", "see above":
		return true
	}
	return false
}
