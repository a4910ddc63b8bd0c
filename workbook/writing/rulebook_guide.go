package writing

import (
	"bytes"
	"fmt"
	"strings"

	"github.com/xuri/excelize/v2"

	"railbook/rules"
	"railbook/rules/measure"
	"railbook/workbook/reading"
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
	p := openPage(same, newLook(file, false), plan{
		Name: guideSheet, Title: "The board's rulebook", Subtitle: "How to read and change it",
		Status: "Rulebook", Widths: widths, Tab: firstTab,
	})
	p.skip(1)
	for _, words := range guideWords {
		p.across(words, body, 1, len(widths))
	}
	for _, sheet := range rules.Plans() {
		p.skip(1)
		p.write(entry{sheet.Name, style{Role: band}}, entry{"", style{Role: band}})
		p.link(1, sheet.Name, "A1")
		p.across(sheet.Purpose, body, 1, len(widths))
		for _, column := range sheet.Columns {
			p.write(
				entry{column.Heading, style{Role: strong, Wrap: true}}, entry{column.Meaning, style{Role: body, Wrap: true}})
		}
	}
	return p.close()
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
func measuresRange() string {
	first := measuresHeadingRow + 1
	return fmt.Sprintf("%s!$A$%d:$A$%d", measuresSheet, first, first+len(measure.Definitions())-1)
}

// addMeasuresSheet lists every measure.
func addMeasuresSheet(make sheetMaker, look *look) error {
	widths := []float64{28, 18, 10, 12, 60}
	p := openPage(make, look, plan{
		Name: measuresSheet, Mark: reading.MeasuresMark, Title: "Measures", Subtitle: "Every measure the rulebook can name, and what it means",
		Status: "Rulebook", Widths: widths, Landscape: true, Tab: workingTab, RepeatFrom: measuresHeadingRow, RepeatTo: measuresHeadingRow, FreezeRows: measuresHeadingRow,
	})
	p.skip(1)
	p.headings("Measure", "Species", "Unit", "Read or computed", reading.MeaningHeading)
	for _, definition := range measure.Definitions() {
		p.write(
			entry{definition.Name, style{Role: strong, Wrap: true}},
			entry{speciesOf(definition), style{Role: body, Wrap: true}},
			entry{definition.Unit, style{Role: body}},
			entry{readOrComputed(definition), style{Role: body}},
			entry{definition.Meaning, style{Role: body, Wrap: true}})
	}
	return p.close()
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
