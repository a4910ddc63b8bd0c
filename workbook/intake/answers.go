package intake

import (
	"railbook/grading"
	"railbook/rules/measure"
	"railbook/workbook/xlsx"
)

// answer is what a cell was found to say, its place left out.
type answer struct {
	shared grading.SharedReading // what carcasses keep of it
	// parsed is what more there is to be done about the cell; nil where its value is written as itself and its words name no condition,
	// so that nothing is.
	parsed *parsedCell
}

// answers are those that were found before, by how the cell is stored and then by what is stored: most columns have few different
// values.
type answers struct {
	of    [cellForms]map[string]answer
	count int
}

// mostAnswers is how many answers of a column are kept: one with more different values, such as that of the tags, has few alike.
const mostAnswers = 2000

// cellForms is how many ways there are to store the same text that tell what it says: five kinds, as a date or not, as a percent or not.
const cellForms = 5 << 2

func formOf(cell xlsx.Cell) int {
	form := int(cell.Kind) << 2
	if cell.Date {
		form |= 1
	}
	if cell.Percent {
		form |= 2
	}
	return form
}

// answer gives what a cell says.
func (p *cellParser) answer(cell xlsx.Cell) answer {
	known := &p.answers.of[formOf(cell)]
	found, is := (*known)[cell.Raw]
	if is {
		return found
	}
	found = p.answerAnew(cell)
	if *known == nil {
		*known = map[string]answer{}
	}
	if p.answers.count < mostAnswers {
		(*known)[cell.Raw] = found
		p.answers.count++
	}
	return found
}

func (p *cellParser) answerAnew(cell xlsx.Cell) answer {
	cell, parsed := p.readUndated(cell)
	parsed.reading.Written = writtenCell(cell, p.date1904)
	parsed.reading.Unreadable = parsed.problem != ""
	found := answer{shared: grading.Share(parsed.reading)}
	usual := !parsed.absent && parsed.problem == "" && parsed.note == "" && parsed.grade == "" && p.definition.ID != measure.Remarks
	if !usual || p.definition.Kind == measure.KindText && len(namedInName(parsed.reading.Written)) > 0 {
		found.parsed = &parsed
	}
	return found
}

// asParsed gives what a cell says in full, at its place.
func (a answer) asParsed() parsedCell {
	if a.parsed == nil {
		return parsedCell{reading: a.shared.Reading()}
	}
	return *a.parsed
}
