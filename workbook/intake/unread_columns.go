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
	found := map[measure.ID]int{}
	open := tr.openMeasures(species)
	for i := range columns {
		for _, id := range tr.measuresThatFit(&columns[i], open, species) {
			fitting[id] = tr.table.page.place(columns[i].at).Cell
			found[id]++
		}
	}
	for id, times := range found {
		if times > 1 {
			delete(fitting, id)
		}
	}
	return fitting
}

// openMeasures gives the measures that the grades need, that no heading was recognised for and that values alone can be told to be.
func (tr *tableReader) openMeasures(species rules.Species) (list []measure.ID) {
	for _, id := range grading.Inputs(species, tr.basis) {
		definition, _ := measure.Define(id)
		switch definition.Kind {
		case measure.KindNumber, measure.KindMarbling, measure.KindMaturity:
			if !tr.hasColumn(id) && definition.Unit != "dots" {
				list = append(list, id)
			}
		}
	}
	return list
}

// fittingUnread gives, for each measure that the grades need and that no heading was recognised for, the headings of the
// unread columns whose values can be it: nothing is called absent that may stand there unread.
func (tr *tableReader) fittingUnread() map[measure.ID][]string {
	species := tr.mainSpecies()
	open := tr.openMeasures(species)
	measures := iter.Map(tr.table.columns, func(under *column) []measure.ID {
		if under.text == "" || len(under.meaning.candidates) > 0 || countedHeading.MatchString(under.text) || nameHeading.MatchString(under.text) {
			return nil
		}
		return tr.measuresThatFit(under, open, species)
	})
	fitting := map[measure.ID][]string{}
	for i, fit := range measures {
		for _, id := range fit {
			fitting[id] = append(fitting[id], tr.table.columns[i].text)
		}
	}
	return fitting
}

// measuresThatFit gives of some measures those that the values of a column can be.
func (tr *tableReader) measuresThatFit(under *column, ids []measure.ID, species rules.Species) (fit []measure.ID) {
	cells := tr.someCells(under)
	for _, id := range ids {
		definition, _ := measure.Define(id)
		if tr.writtenAs(definition.Kind, under) && tr.valuesFit(cells, rules.Heading{Species: species, Measure: id}, species) {
			fit = append(fit, id)
		}
	}
	return fit
}
