package intake

import (
	"strings"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/validate"
	"railbook/workbook/xlsx"
)

// saidOnceFor are the measures that may be said once for a whole table, in a line of its own above the headings: the
// heading, and the answer in the cell beside it.
var saidOnceFor = []measure.ID{measure.KillDate, measure.Skinned}

// readSaidOnce reads what is said once above the table: "Kill date:" with the date beside it, and whether its carcass
// weights are hot or chilled.
func (tr *tableReader) readSaidOnce() {
	tr.saidOnce = map[measure.ID]grading.Reading{}
	for i := range tr.table.page.lines {
		line := &tr.table.page.lines[i]
		if line.number >= tr.table.top || tr.table.top-line.number > 12 {
			continue
		}
		for _, cell := range line.cells {
			text := clean(cell.Raw)
			label, isLabel := strings.CutSuffix(text, ":")
			switch {
			case cell.Kind != xlsx.Text || nothing(cell):
			case isLabel || tr.vocabulary.recognise(text).is(measure.KillDate) && tr.readsAs(measure.KillDate, line.at(cell.Column+1)):
				tr.answerBeside(line, cell.Column, label)
			default:
				tr.saidWithin(text, tr.table.page.place(position{line.number, cell.Column}))
			}
		}
	}
}

var (
	killDateWithin = phrase.NewPattern(`(?i)^(?:kill|killed|harvest|harvested|slaughter|slaughtered)(?: date| day| on)?[: ] *(.*\d.*)$`)
	skinnedWithin  = phrase.NewPattern(`(?i)\bskinned\b`)
	skinnedAnswer  = phrase.NewPattern(`(?i)\bskinned\b\W*[:=?]\s*(.+)$`)
	scaldedWithin  = phrase.NewPattern(`(?i)\b(?:not|un|non)[ -]?skinned\b|\bskin[ -]?on\b|\bscalded\b|\bskinned (?:or|/)`)
)

// saidWithin reads what a line of text says by itself: "Kill date 8/6/2025", "Hogs skinned".
func (tr *tableReader) saidWithin(text string, at rules.Place) {
	if found := killDateWithin.FindStringSubmatch(text); found != nil {
		if cell := (xlsx.Cell{Kind: xlsx.Text, Raw: found[1]}); tr.readsAs(measure.KillDate, cell) {
			reading := tr.questionOnce(measure.KillDate, "").read(cell).reading
			reading.Place, reading.Written = at, text
			tr.saidOnce[measure.KillDate] = reading
		}
	}
	if skinnedWithin.MatchString(text) && !scaldedWithin.MatchString(text) {
		answer := markValue(true)
		if found := skinnedAnswer.FindStringSubmatch(text); found != nil {
			cell := xlsx.Cell{Kind: xlsx.Text, Raw: found[1]}
			if !tr.readsAs(measure.Skinned, cell) {
				return
			}
			answer = tr.questionOnce(measure.Skinned, "").read(cell).reading.Value
		}
		tr.saidOnce[measure.Skinned] = grading.Reading{Value: answer, Place: at, Written: text}
	}
}

// readsAs reports whether a cell can be read as a measure.
func (tr *tableReader) readsAs(id measure.ID, cell xlsx.Cell) bool {
	if nothing(cell) || formulaText(cell) {
		return false
	}
	parsed := tr.questionOnce(id, "").read(cell)
	return parsed.problem == "" && !parsed.absent
}

// questionOnce is what is asked of an answer that is given once for a table.
func (tr *tableReader) questionOnce(id measure.ID, label string) *cellParser {
	definition, _ := measure.Define(id)
	return &cellParser{
		definition: definition, heading: label, text: tr.table.page.text, date1904: tr.table.page.date1904,
		decimalComma: tr.table.page.decimalComma, vocabulary: tr.vocabulary,
	}
}

// answerBeside reads the answer to one question: in the cell after the question's own, or after the cells it is merged
// over.
func (tr *tableReader) answerBeside(row *line, column int, label string) {
	meaning := tr.vocabulary.recognise(label)
	weights := meaning.is(carcassWeights...)
	if !weights && !meaning.is(saidOnceFor...) {
		return
	}
	for _, area := range tr.table.page.areas {
		if area.FirstRow == row.number && area.FirstColumn == column {
			column = area.LastColumn
		}
	}
	column++
	cell := row.at(column)
	if nothing(cell) || formulaText(cell) {
		return
	}
	place := tr.table.page.place(position{row.number, column})
	if weights {
		if said := statedWeights(cell.Raw); said != "" {
			tr.units.weights = said
		}
		return
	}
	for _, id := range saidOnceFor {
		if meaning.is(id) {
			tr.keepSaidOnce(id, label, place, row, column)
		}
	}
}

func (tr *tableReader) keepSaidOnce(id measure.ID, label string, place rules.Place, row *line, number int) {
	p := tr.questionOnce(id, label)
	cell := row.at(number)
	parsed := p.read(cell)
	written := writtenCell(cell, p.date1904)
	switch {
	case parsed.absent:
	case parsed.problem != "":
		tr.find(validate.Finding{
			Level: validate.Look, Code: "unreadable value", At: place, Measure: id, Read: written,
			Message: id.String() + " " + phrase.Quote(written) + ", said once for the whole sheet, " + parsed.problem + ".", Hint: parsed.hint,
		})
	default:
		reading := parsed.reading
		reading.Place, reading.Written = place, written
		tr.saidOnce[id] = reading
		if parsed.note != "" {
			tr.note(&column{number: number, at: position{row.number, number}, text: label}, parsed.note, id, reading)
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
