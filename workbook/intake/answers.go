package intake

import (
	"slices"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/workbook/ahead"
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

// known reports whether there is an answer.
func (a answer) known() bool { return a.shared != grading.SharedReading{} }

// answersAhead are what the cells of the lines to come say, found while those before them are read: for animals of one species.
type answersAhead struct {
	species rules.Species
	next    func() []answer // of the next line, column by column
	stop    func()
	line    []answer // of the line that is being read
}

// fewestAhead is how many lines are left for another goroutine to be worth its while. It is changed by tests alone.
var fewestAhead = 500

// findAhead begins to find the answers of the lines behind one of them. Cells that are not read by themselves alone have none: those that
// are blank or empty, joined with another or of a side.
func (tr *tableReader) findAhead(after int, species rules.Species) {
	left := tr.table.page.lines[after+1:]
	if tr.ahead != nil || tr.sides != 0 || len(left) < fewestAhead {
		return
	}
	parsers := slices.Clone(tr.parsersFor(species))
	for i := range parsers {
		if parsers[i].parser != nil {
			own := *parsers[i].parser
			own.answers = answers{}
			parsers[i].parser = &own
		}
	}
	tr.ahead = &answersAhead{species: species}
	tr.ahead.next, tr.ahead.stop = ahead.Pull(func(yield func([]answer) bool) {
		for l := range left {
			found := make([]answer, len(parsers))
			for i, under := range parsers {
				cell := left[l].at(under.column.number)
				if under.parser != nil && under.column.behind == 0 && !nothing(cell) && !formulaText(cell) {
					found[i] = under.parser.answer(cell)
				}
			}
			if !yield(found) {
				return
			}
		}
	})
}

// nextLine turns to the answers of the next line.
func (a *answersAhead) nextLine() {
	if a != nil {
		a.line = a.next()
	}
}

// end stops finding answers.
func (a *answersAhead) end() {
	if a != nil {
		a.stop()
	}
}

// of gives the answer of a column of the line that is being read, if it was found.
func (a *answersAhead) of(species rules.Species, column int) (found answer) {
	if a != nil && a.species == species && column < len(a.line) {
		found = a.line[column]
	}
	return found
}
