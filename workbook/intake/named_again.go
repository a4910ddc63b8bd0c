package intake

import (
	"slices"

	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/workbook/xlsx"
)

var (
	// champions are the words of a list of winners, which names animals again.
	champions = phrase.NewPattern(`(?i)\b(?:champ\w*|reserve|grand|winners?|premier|supreme|best (?:of|in|carcass)|honou?rable mention|top (?:three|five|ten|\d+))\b`)
	// pageLine is what a printout puts at the foot of a page: "8/7/2025 pg 2".
	pageLine = phrase.NewPattern(`(?i)\b(?:pg|page|p)\b\.? ?\d+\b`)
)

// namesWinner reports whether a line says what the animal won whose tag stands in the next cell: "Grand Champion", 412.
func (tr *tableReader) namesWinner(filled []xlsx.Cell) bool {
	return tr.kind == carcassTable && len(filled) >= 2 && len(filled) <= 3 && champions.MatchString(clean(filled[0].Raw)) &&
		slices.ContainsFunc(tr.animals, func(entered *animal) bool { return sameTag(entered.Tag) == sameTag(clean(filled[1].Raw)) })
}

// namesAgain reports whether a line without measures only names an animal again that was read above it, as a list of
// champions does.
func (tr *tableReader) namesAgain(row *line, filled []xlsx.Cell, tag string) bool {
	if tr.kind != carcassTable || tag == "" || tr.measuredOnRail(row) || tr.continued(row) != nil ||
		!slices.ContainsFunc(tr.animals, func(other *animal) bool { return sameTag(other.Tag) == sameTag(tag) }) {
		return false
	}
	return tr.winners || slices.ContainsFunc(filled, func(cell xlsx.Cell) bool {
		heading, headed := tr.columnNumbered(cell.Column)
		return cell.Kind == xlsx.Text && champions.MatchString(clean(cell.Raw)) && (!headed || !heading.meaning.is(measure.Exhibitor, measure.Club, measure.Remarks))
	})
}
