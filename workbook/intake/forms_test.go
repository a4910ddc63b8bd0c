package intake

import (
	"strings"
	"testing"

	"railbook/rules/measure"
)

// A printed form has several pairs of label and value to a line; each value keeps its own place, and what stands beside the
// pairs or between the forms is passed over and said.
func TestForms(t *testing.T) {
	result := readSheets(t, Options{}, sheetOf("Beef cards", `
Quince County carcass cards
Tag:|'0412|Class:|Steers||
HCW|801|Fat|.4||
REA|13.1|KPH|2.5|by HH|
Remarks|dark cutter|||
Condemned||Pen|4||

Tag:|'0413|Class:|Heifers||
HCW|744|Fat||
REA|twelve|KPH|3||
Remarks||||
`))
	expect(t, result, `
0412 / Steers / beef: remarks=dark cutter hot-carcass-weight=801 measured-fat=0.4 ribeye-area=13.1 kidney,-pelvic-and-heart-fat=2.5
0413 / Heifers / beef: hot-carcass-weight=744 ribeye-area=? kidney,-pelvic-and-heart-fat=3
hold unreadable value B10 0413
look remark names a condition B5 0412
note not used`)
	if place := result.Carcasses[0].Place.Cell; place != "B2" {
		t.Errorf("the first carcass is said to stand in %s", place)
	}
	block := &result.Blocks[0]
	if got := block.FormCells(result.Carcasses[1]); len(got) == 0 || !block.Beside {
		t.Errorf("a form has its own cells, and nothing is added to it: %v", got)
	}
	line, _ := block.Line(result.Carcasses[1])
	for _, heading := range block.Headings {
		if heading.Text == "Fat" && block.CellAt(heading, line) != "D9" {
			t.Errorf("the fat that is blank would stand in %s", block.CellAt(heading, line))
		}
	}
	expect(t, readSheets(t, Options{}, sheetOf("Steers", `
Tag|101|HCW|801
Fat|.4|KPH|2
Tag|102|HCW|790
Fat|.45|KPH|2`)), `
101 / Steers / beef: hot-carcass-weight=801 measured-fat=0.4 kidney,-pelvic-and-heart-fat=2
102 / Steers / beef: hot-carcass-weight=790 measured-fat=0.45 kidney,-pelvic-and-heart-fat=2
note class of the sheet`)
}

// TestTwoRibeyeAreasOfOneHeading holds that no --column is advised that could not tell the two apart: on a sheet with a line
// for each side, and where a heading stands twice, with groups above or without.
func TestTwoRibeyeAreasOfOneHeading(t *testing.T) {
	for sheet, option := range map[string]string{
		"Tag|Side|HCW|Fat|REA|KPH\n301|L|402|.4|13.1|2\n301|R|399||13.6|\n": "",
		"Tag|HCW|Fat|REA|KPH|REA\n301|802|.4|13.1|2|13.6\n":                 "",
		"|||Left||Right\nTag|HCW|Fat|REA|KPH|REA\n301|802|.4|13.1|2|13.6\n": "",
		"Tag|HCW|Fat|REA|KPH|Rib eye area\n301|802|.4|13.1|2|13.6\n":        `--column "ribeye area=Rib eye area"`,
	} {
		asked := false
		for _, finding := range readSheets(t, Options{}, sheetOf("Steers", sheet)).Findings {
			if finding.Measure != measure.RibeyeArea {
				continue
			}
			asked = true
			if has := strings.Contains(finding.Message, "--column"); has != (option != "") || !strings.Contains(finding.Message, option) {
				t.Errorf("%s says: %s", sheet, finding.Message)
			}
		}
		if !asked {
			t.Errorf("%s: nothing is asked about the ribeye area", sheet)
		}
	}
}
