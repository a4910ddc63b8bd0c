package intake

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"railbook/rules"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/xlsx"
)

// sheetOf makes a page of lines with bars between the cells; a plain number is a number, "" nothing.
func sheetOf(name, lines string) *page {
	grid := &xlsx.Grid{}
	for i, line := range strings.Split(strings.Trim(lines, "\n"), "\n") {
		row := xlsx.Row{Number: i + 1}
		for column, text := range strings.Split(line, "|") {
			text = strings.TrimSpace(text)
			switch {
			case text == "":
			case plainNumber(text):
				row.Cells = append(row.Cells, xlsx.Cell{Column: column + 1, Kind: xlsx.Number, Raw: text})
			default:
				row.Cells = append(row.Cells, xlsx.Cell{Column: column + 1, Kind: xlsx.Text, Raw: strings.TrimPrefix(text, "'")})
			}
		}
		grid.Rows = append(grid.Rows, row)
	}
	return newPage("", name, grid, false)
}

func plainNumber(text string) bool {
	return strings.Trim(text, "0123456789.") == "" && (text == "0" || text[0] != '0' || strings.HasPrefix(text, "0."))
}

func readSheets(t testing.TB, options Options, pages ...*page) *Result {
	t.Helper()
	r := newReader(rules.Shipped(), options)
	for _, page := range pages {
		r.scanSheet(page, page.file != "")
	}
	if r.countTables(carcassTable) == 0 {
		t.Fatal(r.noCarcassSheet(nil))
	}
	r.readTables()
	return r.result
}

// tell writes a result down as short lines: the carcasses, what was found, and where the columns were recognised.
func tell(result *Result) string {
	var lines []string
	for _, carcass := range result.Carcasses {
		line := fmt.Sprintf("%s / %s / %s:", carcass.Tag, carcass.Class, carcass.Species)
		for _, definition := range measure.Standard().Definitions() {
			reading, found := carcass.Written(definition.ID)
			if !found || definition.ID == measure.Tag || definition.ID == measure.ClassName {
				continue
			}
			text := reading.Value.Text
			if reading.Unreadable {
				text = "?"
			}
			line += " " + strings.ReplaceAll(definition.Name, " ", "-") + "=" + text
		}
		lines = append(lines, line)
	}
	for _, finding := range result.Findings {
		if finding.Level != validate.Note || finding.Code != "interpreted" {
			lines = append(lines, fmt.Sprintf("%s %s %s %s", finding.Level, finding.Code, finding.At.Cell, finding.Tag))
		}
	}
	return strings.Join(lines, "\n")
}

func expect(t *testing.T, result *Result, wanted string) {
	t.Helper()
	var lines []string
	for _, line := range strings.Split(strings.TrimSpace(wanted), "\n") {
		lines = append(lines, strings.TrimSpace(line))
	}
	if got := strings.Split(tell(result), "\n"); !slices.Equal(trimmed(got), lines) {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(lines, "\n"))
	}
}

func trimmed(lines []string) []string {
	for i := range lines {
		lines[i] = strings.TrimSpace(lines[i])
	}
	return lines
}

func TestSheets(t *testing.T) {
	tests := []struct {
		name    string
		options Options
		pages   []*page
		wanted  string
	}{
		{"title is no class", Options{}, []*page{sheetOf("Sheet1", `
Quince County market beef carcass results
Tag|HCW|Fat|REA
'0412|812|.45|13.6
`)}, `0412 /  / beef: hot-carcass-weight=812 measured-fat=0.45 ribeye-area=13.6`},
		{"a heading over three lines", Options{}, []*page{sheetOf("Steers", `
|Hot|Adjusted|Rib
|carcass|fat|eye
Tag|weight|thickness|area
'0412|812|.45|13.6
`)}, `
0412 / Steers / beef: hot-carcass-weight=812 adjusted-fat=0.45 ribeye-area=13.6
note class of the sheet`},
		{"a heading whose first line alone says which weight", Options{}, []*page{sheetOf("Steers", `
|Chilled|Adjusted|Rib
|carcass|fat|eye
Tag|weight|thickness|area
'0412|812|.45|13.6
`)}, `
0412 / Steers / beef: chilled-carcass-weight=812 adjusted-fat=0.45 ribeye-area=13.6
note class of the sheet`},
		{"of a heading over four lines three count", Options{}, []*page{sheetOf("Steers", `
|Adjusted|
|12th|
Carcass|rib|Rib eye
tag|fat|area
'0412|.45|13.6
`)}, `
0412 / Steers / beef: measured-fat=0.45 ribeye-area=13.6
note class of the sheet`},
		{"species unclear", Options{}, []*page{sheetOf("Sheet1", `
Tag|HCW|Fat|REA
412|812|.45|13.6
`)}, `
412 /  / : hot-carcass-weight=812 measured-fat=0.45 ribeye-area=13.6
hold species unclear`},
		{"KPH and weights of cattle", Options{}, []*page{sheetOf("Sheet1", `
Tag|HCW|REA|KPH
'0412|812|13.6|2.5
`)}, `0412 /  / beef: hot-carcass-weight=812 ribeye-area=13.6 kidney,-pelvic-and-heart-fat=2.5`},
		{"KPH and weights of goats", Options{}, []*page{sheetOf("Sheet1", `
Tag|HCW|REA|KPH
'0412|41|1.8|2.5
`)}, `0412 /  / goat: hot-carcass-weight=41 ribeye-area=1.8 kidney-fat=2.5`},
		{"KPH and weights of neither", Options{}, []*page{sheetOf("Sheet1", `
Tag|HCW|REA|KPH
412|170|4.5|2.5
`)}, `
412 /  / : hot-carcass-weight=170 ribeye-area=4.5 kidney,-pelvic-and-heart-fat=2.5
hold species unclear`},
		{"species told", Options{Species: rules.Swine}, []*page{sheetOf("Sheet1", `
Tag|HCW|Fat|REA
412|212|.75|7.2
`)}, `
412 /  / swine: hot-carcass-weight=212 tenth-rib-fat=0.75 loin-muscle-area=7.2
note species as told`},
		{"a sheet measuring other things is joined", Options{}, []*page{sheetOf("Kill floor", `
Steers
Tag|Live|HCW
412|1290|812
413|1244|790
414|1301|845
`), sheetOf("Cooler", `
Carcass no|Fat|REA|KPH
'#413|.3|12.9|2
'#412|.45|13.6|2.5
'#415|.5|13|2.5
`)}, `
412 / Steers / beef: live-weight=1290 hot-carcass-weight=812 measured-fat=0.45 ribeye-area=13.6 kidney,-pelvic-and-heart-fat=2.5
413 / Steers / beef: live-weight=1244 hot-carcass-weight=790 measured-fat=0.3 ribeye-area=12.9 kidney,-pelvic-and-heart-fat=2
414 / Steers / beef: live-weight=1301 hot-carcass-weight=845
415 / Steers / beef: measured-fat=0.5 ribeye-area=13 kidney,-pelvic-and-heart-fat=2.5
note sheets joined
note class of the sheet
note class of the sheet`},
		{"two sheets of the same carcasses", Options{}, []*page{sheetOf("First", `
Tag|Class|HCW|Fat|KPH
412|Steers|812|.45|2
413|Steers|790|.3|2
`), sheetOf("Second", `
Tag|Class|HCW|Fat|KPH
412|Steers|812|.45|2
413|Steers|79O|.3|2
`)}, `
412 / Steers / beef: hot-carcass-weight=812 measured-fat=0.45 kidney,-pelvic-and-heart-fat=2
413 / Steers / beef: hot-carcass-weight=790 measured-fat=0.3 kidney,-pelvic-and-heart-fat=2
hold two sheets of the same carcasses`},
		{"last year's sheet left in the workbook is one question", Options{}, []*page{sheetOf("Steers 2024", `
Tag|HCW|Fat|KPH
1|712|.45|2
2|690|.3|2
3|701|.3|2.5
4|733|.3|2.5
`), sheetOf("Steers 2025", `
Tag|HCW|Fat|KPH
1|812|.4|2
2|790|.35|2
3|801|.3|2
`)}, `
1 / Steers 2025 / beef: hot-carcass-weight=812 measured-fat=0.4 kidney,-pelvic-and-heart-fat=2
2 / Steers 2025 / beef: hot-carcass-weight=790 measured-fat=0.35 kidney,-pelvic-and-heart-fat=2
3 / Steers 2025 / beef: hot-carcass-weight=801 measured-fat=0.3 kidney,-pelvic-and-heart-fat=2
hold sheet set aside
note class of the sheet`},
		{"the first sheet counts where no year is named", Options{}, []*page{sheetOf("Main", `
Tag|Class|HCW|Fat|KPH
1|Steers|812|.4|2
2|Steers|790|.35|2
3|Steers|801|.3|2
`), sheetOf("Other", `
Tag|Class|HCW|Fat|KPH
1|Steers|712|.45|2
2|Steers|690|.3|2
3|Steers|701|.3|2.5
`)}, `
1 / Steers / beef: hot-carcass-weight=812 measured-fat=0.4 kidney,-pelvic-and-heart-fat=2
2 / Steers / beef: hot-carcass-weight=790 measured-fat=0.35 kidney,-pelvic-and-heart-fat=2
3 / Steers / beef: hot-carcass-weight=801 measured-fat=0.3 kidney,-pelvic-and-heart-fat=2
hold two sheets of the same carcasses`},
		{"equal tags in two classes are two animals", Options{}, []*page{sheetOf("Steers", `
Tag|HCW|Fat|KPH
1|812|.45|2
2|790|.3|2
`), sheetOf("Heifers", `
Tag|HCW|Fat|KPH
1|712|.45|2
2|690|.3|2
`)}, `
1 / Steers / beef: hot-carcass-weight=812 measured-fat=0.45 kidney,-pelvic-and-heart-fat=2
2 / Steers / beef: hot-carcass-weight=790 measured-fat=0.3 kidney,-pelvic-and-heart-fat=2
1 / Heifers / beef: hot-carcass-weight=712 measured-fat=0.45 kidney,-pelvic-and-heart-fat=2
2 / Heifers / beef: hot-carcass-weight=690 measured-fat=0.3 kidney,-pelvic-and-heart-fat=2
note class of the sheet
note class of the sheet`},
		{"a roster with its own mistakes", Options{}, []*page{sheetOf("Rail", `
Tag|Class|HCW|Fat|KPH
412|Steers|812|.45|2
413|Steers|790|.3|2
`), sheetOf("Entries", `
Tag|Exhibitor|Class|Weight|Weigh-in wt
412|Aster Gatepost|Heifers||l290
414|Umber Saltbox|Steers||129o
`)}, `
412 / Steers / beef: exhibitor=Aster Gatepost fair-weight=? hot-carcass-weight=812 measured-fat=0.45 kidney,-pelvic-and-heart-fat=2
413 / Steers / beef: hot-carcass-weight=790 measured-fat=0.3 kidney,-pelvic-and-heart-fat=2
hold unreadable value E2 412
look unreadable value E3 414
look class differs from the roster A2 412`},
		{"remarks and marks", Options{}, []*page{sheetOf("Steers", `
Tag|HCW|Fat|KPH|DC|Remarks
1|812|.45|2|x|dark cutter, blood splash
2|790|.3|2||no dark cutters here
3|801|.3|2||retained for vet
4|801|.3|2||held back in the ring|condemned
`)}, `
1 / Steers / beef: remarks=dark cutter, blood splash hot-carcass-weight=812 measured-fat=0.45 kidney,-pelvic-and-heart-fat=2 dark-cutter=yes
2 / Steers / beef: remarks=no dark cutters here hot-carcass-weight=790 measured-fat=0.3 kidney,-pelvic-and-heart-fat=2
3 / Steers / beef: remarks=retained for vet hot-carcass-weight=801 measured-fat=0.3 kidney,-pelvic-and-heart-fat=2
4 / Steers / beef: remarks=held back in the ring hot-carcass-weight=801 measured-fat=0.3 kidney,-pelvic-and-heart-fat=2
note class of the sheet
look remark names a condition F2 1
hold remark names a condition F4 3
hold remark names a condition G5 4
note not used`},
		{"two columns for one measure", Options{}, []*page{sheetOf("Steers", `
Tag|HCW|Hot wt|Fat|KPH
1|812|812|.45|2
2|790|709|.3|2
`)}, `
1 / Steers / beef: hot-carcass-weight=812 measured-fat=0.45 kidney,-pelvic-and-heart-fat=2
2 / Steers / beef: hot-carcass-weight=790 measured-fat=0.3 kidney,-pelvic-and-heart-fat=2
note class of the sheet
hold two values for one measure C3 2`},
		{"a column mapped by hand", Options{Columns: map[measure.ID]string{measure.HotCarcassWeight: "Dr. lbs", measure.RibeyeArea: "Nowhere"}}, []*page{sheetOf("Steers", `
Tag|Dr. lbs|Fat|KPH
1|812|.45|2
`)}, `
1 / Steers / beef: hot-carcass-weight=812 measured-fat=0.45 kidney,-pelvic-and-heart-fat=2
note class of the sheet
look mapped heading not found`},
		{"a misspelt heading", Options{}, []*page{sheetOf("Steers", `
Tag|HCW|Ribeye aera|KPH|Pen
1|812|13.6|2|4
`)}, `
1 / Steers / beef: hot-carcass-weight=812 kidney,-pelvic-and-heart-fat=2
note class of the sheet
look heading not recognised C1
note not used`},
		{"blocks one under another with their own headings", Options{}, []*page{sheetOf("All", `
Market steers
Tag|HCW|Fat|KPH
1|812|.45|2
2|790|.3|2

Market hogs
Tag|Live|HCW|10th rib fat|LEA
7|266|199|.7|7.2
Average||199|.7|7.2
`)}, `
1 / Market steers / beef: hot-carcass-weight=812 measured-fat=0.45 kidney,-pelvic-and-heart-fat=2
2 / Market steers / beef: hot-carcass-weight=790 measured-fat=0.3 kidney,-pelvic-and-heart-fat=2
7 / Market hogs / swine: live-weight=266 hot-carcass-weight=199 tenth-rib-fat=0.7 loin-muscle-area=7.2
note class of the sheet
note class of the sheet`},
		{"an ultrasound sheet", Options{}, []*page{sheetOf("Scan day", `
Tag|Class|Live wt|Scan fat|Scan REA|IMF %
1|Steers|1290|.4|13.1|4.2
`)}, `1 / Steers / beef: live-weight=1290 measured-fat=0.4 ribeye-area=13.1 intramuscular-fat=4.2`},
		{"units in a title and under the headings", Options{}, []*page{sheetOf("Steers", `
All weights in kilograms, cold
Tag|Live wt|Carcass wt|Fat|REA|KPH
|kg|kg|mm|cm2|%
1|610|381|11|88|2.5
`)}, `
1 / Steers / beef: live-weight=1344.8198 chilled-carcass-weight=839.9612 measured-fat=0.4331 ribeye-area=13.64 kidney,-pelvic-and-heart-fat=2.5
note class of the sheet`},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) { expect(t, readSheets(t, test.options, test.pages...), test.wanted) })
	}
}
