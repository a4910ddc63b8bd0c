package workbook

import (
	"fmt"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/workbook/record"
	"railbook/workbook/result"
)

// inTheRulebook stands for whoever changed the rulebook: the record names what was changed, not who.
const inTheRulebook = "in the rulebook"

// rulebookChanges gives every cell of the rulebook that differs from the one the workbook was graded by before. Of a table that
// has another number of rows that alone is said.
func rulebookChanges(before, now []rules.Table) (changes []record.Change) {
	for _, table := range now {
		at := slices.IndexFunc(before, func(sheet rules.Table) bool { return sheet.Name == table.Name })
		if at < 0 {
			continue
		}
		was, is := record.FilledRows(before[at]), record.FilledRows(table)
		change := record.Change{At: rules.Place{Sheet: table.Name}, Class: "rulebook", Who: inTheRulebook}
		if len(was) != len(is) {
			change.Tag, change.Was, change.Is = table.Name, phrase.Plural(len(was), "row", "rows"), phrase.Plural(len(is), "row", "rows")
			changes = append(changes, change)
			continue
		}
		for row := range is {
			for column, cell := range is[row] {
				if column < len(was[row]) && was[row][column].Text == cell.Text {
					continue
				}
				heading := table.Rows[0][column].Text
				text := rules.CanonicalCell(table.Name, heading, cell.Text)
				old := ""
				if column < len(was[row]) {
					old = rules.CanonicalCell(table.Name, heading, was[row][column].Text)
				}
				if text != old && !strings.EqualFold(heading, "Source") {
					change.Tag, change.Was, change.Is = rowLabel(is[row], column)+", "+heading, old, text
					changes = append(changes, change)
				}
			}
		}
	}
	return changes
}

// rowLabel names a row of a table by its first texts.
func rowLabel(row rules.Row, but int) string {
	var words []string
	for column, cell := range row {
		if text := strings.TrimSpace(cell.Text); text != "" && column != but && len(words) < 2 {
			words = append(words, text)
		}
	}
	return strings.Join(words, ", ")
}

// sayWhatRulebookMoved says of the first of the new rulebook changes what all of them moved: the carcasses are graded and placed by
// the rulebook before.
func (j *job) sayWhatRulebookMoved(changes []record.Change) {
	if len(changes) == 0 {
		return
	}
	old, _ := rules.Load(j.previous.GradedBy)
	if old == nil {
		return // a rulebook that cannot be used any more moved nothing that could be said
	}
	before := *j.results
	before.Rules, before.Placings = old, placing.Placings{}
	before.Carcasses = result.Graded(j.results.Read.Carcasses, old)
	sum, count := decimal.Zero, 0
	var each []string
	for i, carcass := range before.Carcasses {
		was, had := carcass.Figure(measure.CarcassValue)
		is, has := j.results.Carcasses[i].Figure(measure.CarcassValue)
		if had && has && !was.Number.Equal(is.Number) {
			by := is.Number.Sub(was.Number)
			sum, count = sum.Add(by), count+1
			if len(each) < mostPriced {
				each = append(each, fmt.Sprintf("%s (%s) %s", carcass.Tag, carcass.Class, signed(by)))
			}
		}
	}
	before.Gather()
	before.Place()
	after := standings(j.results)
	var moved []string
	for key, was := range standings(&before) {
		if is, there := after[key]; there && is.place != was.place {
			moved = append(moved, fmt.Sprintf("%s: place %s to %s", is.name, was.place, is.place))
		}
	}
	slices.Sort(moved)
	var words []string
	if count > 0 {
		if more := count - len(each); more > 0 {
			each = append(each, fmt.Sprintf("and %d more", more))
		}
		words = append(words, fmt.Sprintf("value of %s, %s dollars in all: %s", phrase.Plural(count, "carcass", "carcasses"), signed(sum), strings.Join(each, ", ")))
	}
	words = append(words, moved...)
	if len(words) == 0 {
		words = []string{"nothing"}
	}
	changes[0].Moved = strings.Join(words, "; ")
	for i := range changes[1:] {
		changes[i+1].Moved = "see the first line of the rulebook's changes"
	}
}

// mostPriced is of how many carcasses the dollars are said one by one.
const mostPriced = 200

// signed writes a sum with its sign.
func signed(sum decimal.Decimal) string {
	text := sum.StringFixed(2)
	if sum.IsPositive() {
		text = "+" + text
	}
	return text
}
