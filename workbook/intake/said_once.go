package intake

import (
	"strings"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/validate"
)

// saidOnceFor are the measures that may be said once for a whole table, in a line of its own above the headings: the
// heading, and the answer in the cell beside it.
var saidOnceFor = []measure.ID{measure.KillDate, measure.Skinned}

// readSaidOnce reads what is said once above the table: "Kill date:" with the date beside it, and whether its carcass
// weights are hot or chilled.
func (tr *tableReader) readSaidOnce() {
	tr.saidOnce = map[measure.ID]grading.Reading{}
	for i := range tr.table.page.lines {
		one := &tr.table.page.lines[i]
		if one.number >= tr.table.top || tr.table.top-one.number > 12 {
			continue
		}
		for _, cell := range one.cells {
			label, isLabel := strings.CutSuffix(clean(cell.Raw), ":")
			if isLabel && !nothing(cell) {
				tr.answerBeside(one, cell.Column, label)
			}
		}
	}
}

// answerBeside reads the answer to one question: in the cell after the question's own, or after the cells it is merged
// over.
func (tr *tableReader) answerBeside(one *line, column int, label string) {
	meaning := tr.vocabulary.recognise(label)
	weights := meaning.is(carcassWeights...)
	if !weights && !meaning.is(saidOnceFor...) {
		return
	}
	for _, area := range tr.table.page.areas {
		if area.FirstRow == one.number && area.FirstColumn == column {
			column = area.LastColumn
		}
	}
	column++
	cell := one.at(column)
	if nothing(cell) || formulaText(cell) {
		return
	}
	place := tr.table.page.place(position{one.number, column})
	if weights {
		if said := statedWeights(cell.Raw); said != "" {
			tr.units.weights = said
		}
		return
	}
	for _, id := range saidOnceFor {
		if meaning.is(id) {
			tr.keepSaidOnce(id, label, place, one, column)
		}
	}
}

func (tr *tableReader) keepSaidOnce(id measure.ID, label string, place rules.Place, one *line, number int) {
	definition, _ := measure.Define(id)
	q := question{
		definition: definition, heading: label, text: tr.table.page.text, date1904: tr.table.page.date1904,
		decimalComma: tr.table.page.decimalComma, vocabulary: tr.vocabulary,
	}
	cell := one.at(number)
	answer := q.read(cell)
	written := writtenCell(cell, q.date1904)
	switch {
	case answer.absent:
	case answer.problem != "":
		tr.find(validate.Finding{
			Level: validate.Look, Code: "unreadable value", At: place, Measure: id, Read: written,
			Message: id.String() + " " + quote(written) + ", said once for the whole sheet, " + answer.problem + ".", Hint: answer.hint,
		})
	default:
		reading := answer.reading
		reading.Place, reading.Written = place, written
		tr.saidOnce[id] = reading
		if answer.note != "" {
			tr.note(&column{number: number, at: position{one.number, number}, text: label}, answer.note, id, reading)
		}
	}
}

// takeSaidOnce gives a carcass what is said once for all of them and not in a cell of its own.
func (tr *tableReader) takeSaidOnce(carcass *grading.Carcass) {
	for id, reading := range tr.saidOnce {
		definition, _ := measure.Define(id)
		if _, own := carcass.Written(id); !own && definition.For(string(carcass.Species)) {
			carcass.SetReading(id, reading)
		}
	}
}
