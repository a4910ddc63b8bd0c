package writing

import (
	"fmt"
	"slices"

	"github.com/shopspring/decimal"

	"railbook/grading"
	"railbook/rules"
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
	letter := columnName(at + 1)
	return fmt.Sprintf("%s!$%s$%d:$%s$%d", quoteSheet(choicesSheet), letter, choicesFirstRow, letter, choicesFirstRow+len(list)-1)
}

// choiceSheet writes the long lists. It is hidden, for nobody needs to look at it or to print it.
func (w *railWriter) choiceSheet() error {
	if len(w.lists.lists) == 0 {
		return nil
	}
	columns := max(len(w.lists.lists), 3)
	p := openPage(w.newSheet, w.look, plan{
		Name: choicesSheet, Status: "For the drop-downs", Title: "The words of the drop-downs",
		Subtitle: "The rail sheets take their lists from here. Leave this tab as it is.",
		Widths:   slices.Repeat([]float64{24}, columns), Tab: workingTab,
	})
	p.skip(choicesFirstRow - 1 - p.row)
	longest := 0
	for _, list := range w.lists.lists {
		longest = max(longest, len(list))
	}
	for row := range longest {
		cells := make([]entry, len(w.lists.lists))
		for column, list := range w.lists.lists {
			if row < len(list) {
				cells[column] = entry{list[row], style{Role: body}}
			}
		}
		p.write(cells...)
	}
	if err := p.close(); err != nil {
		return err
	}
	hide(w.file, p.Name)
	return nil
}

// The scores of hogs, lambs and goats that are judged by eye. Pork: pork quality standards poster 2010 (marbling 1 to 6,
// and 10). Muscling: 7 CFR 53.153. Leg: from memory, 15 is High Prime and 1 is Low Cull. Selection: institutional meat
// purchase specifications, Series 11, 2001.
var scores = map[rules.Measure][]string{
	grading.MusclingScore: {"1", "2", "3"},
	grading.LeanColor:     {"1", "2", "3", "4", "5", "6"},
	"pork marbling":       {"1", "2", "3", "4", "5", "6", "10"},
	grading.Firmness:      {"1", "2", "3"},
	grading.Wetness:       {"1", "2", "3"},
	grading.LegScore:      {"15", "14", "13", "12", "11", "10", "9", "8", "7", "6", "5", "4", "3", "2", "1"},
	"selection":           {"1", "2", "3"},
}

var sexes = map[rules.Species][]string{
	rules.Beef: {"steer", "heifer"}, rules.Swine: {"barrow", "gilt"}, rules.Lamb: {"wether", "ewe"}, rules.Goat: {"wether", "doe"},
}

// choicesOf gives the words from which a cell of a measure is chosen; nil where it is a figure or free text.
func (w *railWriter) choicesOf(kind kindOfClass, measure rules.Measure) []string {
	if list, scored := scores[measure]; scored {
		return list
	}
	definition, _ := rules.Define(measure)
	switch definition.Kind {
	case rules.KindMark:
		return []string{"yes", "no"}
	case rules.KindMarbling:
		return inTens(100, 999, grading.FormatMarbling)
	case rules.KindMaturity:
		if kind.Species == rules.Lamb {
			return inTens(100, 299, grading.FormatMaturity)
		}
		return inTens(100, 599, grading.FormatMaturity)
	case rules.KindGrade:
		return rules.GradeWords(kind.Species)
	}
	if measure == rules.Sex {
		return sexes[kind.Species]
	}
	return nil
}

// inTens gives every tenth score of a scale in words.
func inTens(from, to int64, words func(decimal.Decimal) string) []string {
	var list []string
	for score := from; score <= to; score += 10 {
		list = append(list, words(decimal.NewFromInt(score)))
	}
	return list
}
