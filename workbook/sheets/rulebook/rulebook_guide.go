package rulebook

import (
	"fmt"
	"strconv"
	"strings"

	"railbook/rules"
	"railbook/rules/measure"
	"railbook/workbook/sheets/kit"
	"railbook/workbook/xlsx"
)

// guideSheet is the sheet of a rulebook workbook that only explains.
const guideSheet = "Guide"

// NewRulebookFile gives a workbook that holds nothing but the guide of a rulebook, for WriteRulebook to fill.
func NewRulebookFile() ([]byte, error) {
	draft := xlsx.NewDraft()
	if err := writeGuide(draft); err != nil {
		return nil, err
	}
	return draft.Bytes()
}

// writeGuide explains every sheet and column on the first sheet.
func writeGuide(draft *xlsx.Draft) error {
	widths := []float64{22, 83}
	p := kit.OpenPage(draft.NewSheet, kit.UsersLook(draft), kit.PageSetup{
		Name: guideSheet, Title: "The board's rulebook", Subtitle: "How to read and change it",
		Status: "Rulebook", Widths: widths, Tab: kit.FirstTab,
	})
	p.Skip(1)
	for _, words := range guideWords {
		p.Across(words, kit.Body, 1, len(widths))
	}
	for _, sheet := range rules.Layouts() {
		p.Skip(1)
		p.Write(kit.Entry{Value: sheet.Name, Style: kit.Style{Role: kit.Band}}, kit.Entry{Value: "", Style: kit.Style{Role: kit.Band}})
		p.Link(1, sheet.Name, "A1")
		p.Across(sheet.Purpose, kit.Body, 1, len(widths))
		for _, column := range sheet.Columns {
			p.Write(
				kit.Entry{Value: column.Heading, Style: kit.Style{Role: kit.Strong, Wrap: true}}, kit.Entry{Value: column.Meaning, Style: kit.Style{Role: kit.Body, Wrap: true}})
		}
	}
	return p.Close()
}

var guideWords = []string{
	"Each sheet after this one is a plain table: one line, one rule. The tinted cells are those in which the board decides. Lines may be added below the last one, and a line is taken out by clearing it.",
	"Some cells have a list to choose from: select the cell and press its arrow. Select a heading to see what its column means. The sheet Measures, at the end, lists every measure by the name to use.",
	"When you have changed something, save the file and run \"railbook rulebook check\" with its name. It names every fault by its sheet and cell. A rulebook with a fault is never used in part.",
	"Prices in a rulebook are for teaching and are no offer. Grades are estimates; the inspector, the official grader, the judge and the fair's own rules come first.",
}

// measuresRange is where the Measures sheet lists the measures' names, for drop-downs.
func measuresRange(table *measure.Table) string {
	first := HeadingRow + 1
	listed := len(measure.Standard().Definitions()) + len(table.Own())
	return fmt.Sprintf("%s!$A$%d:$A$%d", rules.MeasuresTable, first, first+listed-1)
}

// listedMeasures gives the lines of the Measures sheet that list what the program knows.
func listedMeasures() (lines [][]string) {
	for _, definition := range measure.Standard().Definitions() {
		lines = append(lines, []string{
			definition.Name, speciesOf(definition), definition.Unit, strconv.Itoa(definition.Decimals), readOrComputed(definition), definition.Meaning,
		})
	}
	return lines
}

// listedEntries are the cells of a line that only lists.
func (s rulebookSheet) listedEntries(line []string) (entries []kit.Entry) {
	for number, text := range line {
		style := kit.Style{Role: kit.Body, Wrap: true, Align: alignOf(s.layout.Columns[number])}
		if number == 0 {
			style.Role = kit.Strong
		}
		entries = append(entries, kit.Entry{Value: text, Style: style})
	}
	return entries
}

func speciesOf(definition measure.Definition) string {
	if len(definition.Species) == 0 {
		return "every species"
	}
	return strings.Join(definition.Species, ", ")
}

func readOrComputed(definition measure.Definition) string {
	if definition.Computed {
		return rules.RoleComputed
	}
	return rules.RoleRead
}
