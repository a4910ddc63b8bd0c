package rulebook

import (
	"bytes"
	"fmt"
	"strings"

	"railbook/rules"
	"railbook/rules/measure"
	"railbook/workbook/intake"
	"railbook/workbook/sheets/kit"

	"github.com/xuri/excelize/v2"
)

// The sheets of a rulebook workbook that only explain.
const (
	guideSheet    = "Guide"
	measuresSheet = "Measures"
)

// NewRulebookFile gives a workbook that holds nothing but the guide of a rulebook, for WriteRulebook to fill.
func NewRulebookFile() ([]byte, error) {
	file := excelize.NewFile()
	defer file.Close()
	if err := file.SetSheetName("Sheet1", guideSheet); err != nil {
		return nil, err
	}
	if err := writeGuide(file); err != nil {
		return nil, err
	}
	var text bytes.Buffer
	err := file.Write(&text)
	return text.Bytes(), err
}

// writeGuide explains every sheet and column on the first sheet.
func writeGuide(file *excelize.File) error {
	same := func(name, _ string) (string, error) { return name, nil }
	widths := []float64{22, 83}
	p := kit.OpenPage(same, kit.NewLook(file, false), kit.Plan{
		Name: guideSheet, Title: "The board's rulebook", Subtitle: "How to read and change it",
		Status: "Rulebook", Widths: widths, Tab: kit.FirstTab,
	})
	p.Skip(1)
	for _, words := range guideWords {
		p.Across(words, kit.Body, 1, len(widths))
	}
	for _, sheet := range rules.Plans() {
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

// measuresHeadingRow is the heading row of the Measures sheet.
const measuresHeadingRow = 4

// measuresRange is where the Measures sheet lists the measures' names, for drop-downs.
func measuresRange(table *measure.Table) string {
	first := measuresHeadingRow + 1
	return fmt.Sprintf("%s!$A$%d:$A$%d", measuresSheet, first, first+len(table.Definitions())-1)
}

// addMeasuresSheet lists every measure.
func addMeasuresSheet(make kit.SheetMaker, look *kit.Look, table *measure.Table) error {
	widths := []float64{28, 18, 10, 12, 60}
	p := kit.OpenPage(make, look, kit.Plan{
		Name: measuresSheet, Mark: intake.MeasuresMark, Title: "Measures", Subtitle: "Every measure the rulebook can name, and what it means",
		Status: "Rulebook", Widths: widths, Landscape: true, Tab: kit.WorkingTab, RepeatFrom: measuresHeadingRow, RepeatTo: measuresHeadingRow, FreezeRows: measuresHeadingRow,
	})
	p.Skip(1)
	p.Headings("Measure", "Species", "Unit", "Read or computed", intake.MeaningHeading)
	for _, definition := range table.Definitions() {
		p.Write(
			kit.Entry{Value: definition.Name, Style: kit.Style{Role: kit.Strong, Wrap: true}},
			kit.Entry{Value: speciesOf(definition), Style: kit.Style{Role: kit.Body, Wrap: true}},
			kit.Entry{Value: definition.Unit, Style: kit.Style{Role: kit.Body}},
			kit.Entry{Value: readOrComputed(definition), Style: kit.Style{Role: kit.Body}},
			kit.Entry{Value: definition.Meaning, Style: kit.Style{Role: kit.Body, Wrap: true}})
	}
	return p.Close()
}

func speciesOf(definition measure.Definition) string {
	if len(definition.Species) == 0 {
		return "every species"
	}
	return strings.Join(definition.Species, ", ")
}

func readOrComputed(definition measure.Definition) string {
	if definition.Computed {
		return "computed"
	}
	return "read"
}
