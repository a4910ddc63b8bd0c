package railsheet

import (
	"slices"

	"github.com/shopspring/decimal"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/address"
	"railbook/rules/measure"
	"railbook/workbook/result"
	"railbook/workbook/sheets/kit"
)

// choiceLists are the drop-downs' words that are too many for a rule of their own and stand on a sheet.
type choiceLists struct{ lists [][]string }

func newChoiceLists() *choiceLists { return &choiceLists{} }

const (
	choicesSheet    = "Word lists"
	choicesFirstRow = 4
)

// rangeOf gives the range of the sheet on which a list stands.
func (c *choiceLists) rangeOf(list []string) string {
	at := slices.IndexFunc(c.lists, func(other []string) bool { return slices.Equal(list, other) })
	if at < 0 {
		at = len(c.lists)
		c.lists = append(c.lists, list)
	}
	return address.Sheet(choicesSheet) + "!" + address.FixedSpan(at+1, choicesFirstRow, at+1, choicesFirstRow+len(list)-1)
}

// choiceSheet writes the long lists. It is hidden, for nobody needs to look at it or to print it.
func (w *railWriter) choiceSheet() error {
	if len(w.lists.lists) == 0 {
		return nil
	}
	columns := max(len(w.lists.lists), 3)
	p := kit.OpenPage(w.draft.NewSheet, w.look, kit.PageSetup{
		Name: choicesSheet, Status: "For the drop-downs", Title: "The words of the drop-downs",
		Subtitle: "The rail sheets take their lists from here. Leave this tab as it is.",
		Widths:   slices.Repeat([]float64{24}, columns), Tab: kit.WorkingTab,
	})
	p.Skip(choicesFirstRow - 1 - p.Row)
	longest := 0
	for _, list := range w.lists.lists {
		longest = max(longest, len(list))
	}
	for row := range longest {
		cells := make([]kit.Entry, len(w.lists.lists))
		for column, list := range w.lists.lists {
			if row < len(list) {
				cells[column] = kit.Entry{Value: list[row], Style: kit.Style{Role: kit.Body}}
			}
		}
		p.Write(cells...)
	}
	return p.CloseHidden()
}

// choicesOf gives the words from which a cell of a measure is chosen; nil where it is a figure or free text.
func choicesOf(kind result.KindOfClass, id measure.ID) []string {
	asked, _ := rules.RailColumnOf(kind.Species, kind.Basis, id)
	if asked.Choices != nil {
		return asked.Choices
	}
	definition, _ := measure.Define(id)
	switch definition.Kind {
	case measure.KindMark:
		return []string{"yes", "no"}
	case measure.KindMarbling:
		return inTens(asked.From, asked.UpTo, grading.FormatMarbling)
	case measure.KindMaturity:
		return inTens(asked.From, asked.UpTo, grading.FormatMaturity)
	case measure.KindGrade:
		return rules.GradeWords(kind.Species)
	}
	return nil
}

// inTens gives every tenth score of a scale in words; none where the scale has no ends.
func inTens(from, to int64, words func(decimal.Decimal) string) []string {
	if to == 0 {
		return nil
	}
	var list []string
	for score := from; score <= to; score += 10 {
		list = append(list, words(decimal.NewFromInt(score)))
	}
	return list
}
