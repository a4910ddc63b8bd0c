package intake

import (
	"slices"

	"github.com/sourcegraph/conc/iter"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/workbook/xlsx"
)

// countedHeading is a column of places, pens or numbers in a row, whose values may fit many a measure and mean none.
var countedHeading = phrase.NewPattern(`(?i)\b(?:pens?|lots?|loads?|stalls?|pages?|lines?|rows?|orders?|draw|seq\w*|items?|head|hd|no|number|place|placing|rank|ribbon|days?|age|price|sale|bid|amount|paid)\b|#`)

// writtenAs reports whether the cells below a heading look like marbling or maturity, where their values are to speak alone:
// degrees in letters, or marbling in hundreds.
func (tr *tableReader) writtenAs(kind measure.Kind, heading *column) bool {
	if kind == measure.KindNumber {
		return true
	}
	for _, animal := range tr.animals {
		cell := tr.table.page.lineNumbered(animal.line).at(heading.number)
		if nothing(cell) || formulaText(cell) || hasLetter(cell.Raw) && cell.Kind == xlsx.Text {
			continue
		}
		if kind != measure.KindMarbling || len(cell.Raw) != len("430") {
			return false
		}
	}
	return true
}

// unheaded gives the columns under no heading that hold something on the line of an animal.
func (tr *tableReader) unheaded() (list []column) {
	if tr.table.page.form {
		return nil
	}
	for _, animal := range tr.animals {
		for _, cell := range tr.table.page.lineNumbered(animal.line).cells {
			number := cell.Column
			if number < tr.table.first || number > tr.table.last || tr.headed[number] || nothing(cell) ||
				slices.ContainsFunc(list, func(known column) bool { return known.number == number }) {
				continue
			}
			list = append(list, column{number: number, at: position{tr.table.bottom, number}})
		}
	}
	slices.SortFunc(list, func(a, b column) int { return a.number - b.number })
	return list
}

// fittingUnheaded gives, for each measure that the grades need and that no heading was recognised for, the cell above the one
// column without a heading whose values can be it.
func (tr *tableReader) fittingUnheaded() map[measure.ID]string {
	species := tr.mainSpecies()
	columns := tr.unheaded()
	fitting := map[measure.ID]string{}
	if len(columns) == 0 {
		return fitting
	}
	for _, id := range grading.Inputs(species, tr.basis) {
		definition, _ := measure.Define(id)
		if definition.Kind != measure.KindNumber && definition.Kind != measure.KindMarbling && definition.Kind != measure.KindMaturity || tr.hasColumn(id) || definition.Unit == "dots" {
			continue
		}
		found := 0
		for i := range columns {
			if column := &columns[i]; tr.writtenAs(definition.Kind, column) && tr.valuesFit(column, rules.Heading{Species: species, Measure: id}, species) {
				fitting[id] = tr.table.page.place(column.at).Cell
				found++
			}
		}
		if found > 1 {
			delete(fitting, id)
		}
	}
	return fitting
}

// fittingUnread gives, for each measure that the grades need and that no heading was recognised for, the headings of the
// unread columns whose values can be it: nothing is called absent that may stand there unread.
func (tr *tableReader) fittingUnread() map[measure.ID][]string {
	species := tr.mainSpecies()
	inputs := grading.Inputs(species, tr.basis)
	columns := iter.Map(inputs, func(id *measure.ID) []string { return tr.unreadFor(*id, species) })
	fitting := map[measure.ID][]string{}
	for i, id := range inputs {
		if len(columns[i]) > 0 {
			fitting[id] = append(fitting[id], columns[i]...)
		}
	}
	return fitting
}

// unreadFor gives the headings of the unread columns whose values can be a measure that no heading was recognised for.
func (tr *tableReader) unreadFor(id measure.ID, species rules.Species) (headings []string) {
	definition, _ := measure.Define(id)
	switch definition.Kind {
	case measure.KindNumber, measure.KindMarbling, measure.KindMaturity:
	default:
		return nil
	}
	if tr.hasColumn(id) || definition.Unit == "dots" {
		return nil
	}
	for i := range tr.table.columns {
		column := &tr.table.columns[i]
		if len(column.meaning.candidates) == 0 && !countedHeading.MatchString(column.text) && !nameHeading.MatchString(column.text) &&
			column.text != "" && tr.writtenAs(definition.Kind, column) && tr.valuesFit(column, rules.Heading{Species: species, Measure: id}, species) {
			headings = append(headings, column.text)
		}
	}
	return headings
}
