package workbook

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"railbook/workbook/sheets/sheetstest"
)

// unknownCase is one carcass of which something is missing or doubted, with the computed columns that are blank for it, what its flag
// must say, and what its card says all the same.
type unknownCase struct {
	cells map[string]any // in place of the sound carcass's
	blank []string
	flag  []string
	card  []string
}

// unknownSheet is one sheet of carcasses of a species: the sound carcass, and the cases by tag.
type unknownSheet struct {
	name     string
	headings []string
	sound    []any
	cases    map[string]unknownCase
}

var (
	beefYield   = []string{"Yield grade", "Whole yield grade", "Cutability %", "Retail cuts per day of age"}
	beefMoney   = []string{"Price $/cwt", "Value $", "Value $/day"}
	beefGain    = []string{"Average daily gain", "Carcass gain lb/day", "Value $/day"}
	leanColumns = []string{"Lean lb", "Lean %", "Lean equation"}
)

var unknownSheets = []unknownSheet{
	{
		name: "Steers",
		headings: []string{
			"Tag", "Class", "Live wt", "HCW", "Fat", "REA", "KPH", "Marbling", "Maturity", "Sex", "Dark cutter", "Dark cutter lowering", "Condemned",
			"Birth date", "Start date", "Start weight", "Weigh-in date", "Kill date",
		},
		sound: []any{
			"", "Steers", 1300, 810, .42, 13.4, 2.5, "Small 40", "A60", "steer", "", "", "", "2024-03-12", "2024-12-14", 620, "2025-06-30", "2025-07-08",
		},
		cases: map[string]unknownCase{
			"bull": {
				cells: map[string]any{"Sex": "bull"},
				blank: append([]string{"Quality grade"}, beefMoney...),
				flag:  []string{"No quality grade, price, value or value per day on feed: a bull has no quality grade"},
				card:  []string{"Yield grade", "Marbling score"},
			},
			"heavy": { // a weight ten times too high
				cells: map[string]any{"HCW": 8100},
				blank: slices.Concat([]string{"Dressing %", "Ribeye per cwt", "Carcass weight per day of age", "Carcass gain lb/day"}, beefYield, beefMoney),
				flag:  []string{"On hold: hot carcass weight out of range", "Blank until then: dressing percent"},
				card:  []string{"Quality grade", "Adjusted fat"},
			},
			"marbling": {
				cells: map[string]any{"Marbling": "Plenty"},
				blank: append([]string{"Marbling score", "Quality grade"}, beefMoney...),
				flag:  []string{"the marbling cannot be read"},
				card:  []string{"Yield grade"},
			},
			"ribeye": {
				cells: map[string]any{"REA": ""},
				blank: slices.Concat([]string{"Ribeye per cwt"}, beefYield, beefMoney),
				flag:  []string{"no ribeye area"},
				card:  []string{"Quality grade"},
			},
			"condemned": {
				cells: map[string]any{"Condemned": "yes"},
				blank: beefMoney,
				flag:  []string{"On hold: carcass condemned", "Blank until then: price, value, value per day on feed"},
				card:  []string{"Yield grade", "Quality grade"},
			},
			"dark": { // marked as none, and lowered for it all the same
				cells: map[string]any{"Dark cutter": "no", "Dark cutter lowering": "1/3"},
				blank: append([]string{"Quality grade"}, beefMoney...),
				flag:  []string{"Blank until then: quality grade"},
				card:  []string{"Yield grade"},
			},
			"nostart": {
				cells: map[string]any{"Start weight": ""},
				blank: beefGain,
				flag:  []string{"No average daily gain, carcass gain per day or value per day on feed: no start weight"},
				card:  []string{"Yield grade", "Quality grade"},
			},
			"nodates": {
				cells: map[string]any{"Start weight": "", "Birth date": "", "Start date": "", "Weigh-in date": "", "Kill date": ""},
				blank: append([]string{"Weight per day of age", "Carcass weight per day of age", "Retail cuts per day of age"}, beefGain...),
				flag:  []string{"no start date", "no birth date"},
			},
			"late": { // a start date typed a year late
				cells: map[string]any{"Start date": "2025-12-14"},
				blank: append([]string{"Weight per day of age"}, beefGain...),
				flag:  []string{"On hold: date out of order"},
				card:  []string{"Yield grade", "Quality grade"},
			},
		},
	},
	{
		name:     "Hogs",
		headings: []string{"Tag", "Class", "Live wt", "HCW", "10th rib fat", "Last rib fat", "LMA", "Muscling score", "Skinned"},
		sound:    []any{"", "Hogs", 270, 200, .7, .8, 7.2, 2, "no"},
		cases: map[string]unknownCase{
			"tenth": {
				cells: map[string]any{"10th rib fat": ""},
				blank: leanColumns,
				flag:  []string{"On hold: value missing", "No lean weight, fat-free lean percent or lean equation: no tenth-rib fat"},
				card:  []string{"Pork carcass grade"},
			},
			"lastrib": {
				cells: map[string]any{"Last rib fat": 8},
				blank: []string{"Pork carcass grade"},
				flag:  []string{"On hold: last-rib fat out of range", "Blank until then: pork carcass grade"},
				card:  []string{"Lean %"},
			},
			"skinned": {
				cells: map[string]any{"Skinned": "yes"},
				blank: leanColumns,
				flag:  []string{"the lean equations are for a carcass with its skin on"},
				card:  []string{"Pork carcass grade"},
			},
			"live": {
				cells: map[string]any{"Live wt": 2700},
				blank: []string{"Dressing %"},
				flag:  []string{"Blank until then: dressing percent"},
				card:  []string{"Lean %", "Pork carcass grade"},
			},
		},
	},
	{
		name:     "Lambs",
		headings: []string{"Tag", "Class", "Live wt", "HCW", "Fat", "REA", "Body wall", "Leg score", "Flank streaking", "Maturity"},
		sound:    []any{"", "Lambs", 130, 68, .2, 3, .8, 12, "Modest 20", "A50"},
		cases: map[string]unknownCase{
			"leg": {
				cells: map[string]any{"Leg score": 120},
				blank: []string{"Conformation score", "Quality grade"},
				flag:  []string{"On hold: leg score out of range", "Blank until then: conformation score, quality grade"},
				card:  []string{"Yield grade"},
			},
			"fat": {
				cells: map[string]any{"Fat": ""},
				blank: []string{"Adjusted fat, in", "Yield grade", "Whole yield grade", "Cutability %"},
				flag:  []string{"On hold: value missing"},
				card:  []string{"Quality grade"},
			},
			"wall": { // no thicker than the fat that is part of it
				cells: map[string]any{"Body wall": .18},
				blank: []string{"Cutability %"},
				flag:  []string{"On hold: body wall"},
				card:  []string{"Quality grade"},
			},
		},
	},
	{
		name:     "Goats",
		headings: []string{"Tag", "Class", "Live wt", "HCW", "REA", "Body wall"},
		sound:    []any{"", "Goats", 85, 40, 1.8, .5},
		cases: map[string]unknownCase{
			"nowall": {
				cells: map[string]any{"Body wall": ""},
				blank: []string{"Cutability %"},
				flag:  []string{"On hold: value missing", "No cutability: no body wall thickness"},
			},
			"eye": {
				cells: map[string]any{"REA": 18},
				blank: []string{"Cutability %"},
				flag:  []string{"On hold: ribeye area out of range", "Blank until then: cutability"},
			},
		},
	},
}

// Of a carcass that is on hold, or that lacks a figure, only what needs the missing or doubted value is blank, in the sheet and on the
// card, and its flag says why. The other cells hold the same live formulas as those of a sound carcass, which LibreOffice calculates
// alike.
func TestNothingIsBlankButWhatIsUnknown(t *testing.T) {
	outcome, err := Grade(unknownFair(t), Options{})
	if err != nil {
		t.Fatal(err)
	}
	published, err := Publish(outcome.Path, Options{}, PublishOptions{})
	if err != nil {
		t.Fatal(err)
	}
	cards := cardRows(t, published.Cards.Path)
	file, err := excelize.OpenFile(outcome.Path)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	for _, sheet := range unknownSheets {
		rows, err := file.GetRows(sheet.name)
		if err != nil {
			t.Fatal(err)
		}
		for at, row := range rows[1:] {
			if test, known := sheet.cases[row[0]]; known {
				test.holdBeside(t, file, sheet, rows[0], row, at+2)
				for _, heading := range test.card {
					if !onCard(cards["Tag "+row[0]], heading) {
						t.Errorf("%s: no %s on its card:\n%s", row[0], heading, flat(cards["Tag "+row[0]]))
					}
				}
			}
		}
	}
	t.Run("calculated anew", func(t *testing.T) { sameCalculated(t, outcome.Path) })
}

// holdBeside holds the computed cells of a row against what is unknown of it.
func (u unknownCase) holdBeside(t *testing.T, file *excelize.File, sheet unknownSheet, headings, row []string, number int) {
	t.Helper()
	tag, end := row[0], slices.Index(headings, "Place")
	for at := len(sheet.headings); at < end; at++ {
		cell, _ := excelize.CoordinatesToCellName(at+1, number)
		formula, _ := file.GetCellFormula(sheet.name, cell)
		value := ""
		if at < len(row) {
			value = row[at]
		}
		wanted := slices.Contains(u.blank, headings[at])
		switch {
		case strings.HasPrefix(headings[at], "Price") || strings.HasPrefix(headings[at], "Value"):
			if sheet.name == "Steers" && (value == "") != wanted {
				t.Errorf("%s: %s is %q, to be blank: %v", tag, headings[at], value, wanted)
			}
		case wanted && value+formula != "":
			t.Errorf("%s: %s is %q by %q, want it blank", tag, headings[at], value, formula)
		case !wanted && (value == "" || formula == ""):
			t.Errorf("%s: %s is %q by %q, and nothing of it is unknown", tag, headings[at], value, formula)
		}
	}
	flag := row[len(row)-1]
	for _, words := range u.flag {
		if !strings.Contains(flag, words) {
			t.Errorf("%s: the flag does not say %q: %s", tag, words, flag)
		}
	}
}

// onCard reports whether a card has a row with a figure under a heading.
func onCard(rows [][]string, heading string) bool {
	return slices.ContainsFunc(rows, func(row []string) bool {
		return len(row) > 1 && strings.HasPrefix(row[0], heading) && row[1] != "" && row[1] != "being checked" && row[1] != "not counted" || strings.HasPrefix(strings.Join(row, " "), heading+": ")
	})
}

// unknownFair is a workbook with two sound carcasses of each species and the cases.
func unknownFair(t *testing.T) string {
	t.Helper()
	file := excelize.NewFile()
	defer file.Close()
	for _, sheet := range unknownSheets {
		if _, err := file.NewSheet(sheet.name); err != nil {
			t.Fatal(err)
		}
		if err := file.SetSheetRow(sheet.name, "A1", &sheet.headings); err != nil {
			t.Fatal(err)
		}
		tags := []string{sheet.name + "1", sheet.name + "2"}
		for tag := range sheet.cases {
			tags = append(tags, tag)
		}
		slices.Sort(tags)
		for at, tag := range tags {
			cells := slices.Clone(sheet.sound)
			cells[0] = tag
			for heading, value := range sheet.cases[tag].cells {
				cells[slices.Index(sheet.headings, heading)] = value
			}
			cell, _ := excelize.CoordinatesToCellName(1, at+2)
			if err := file.SetSheetRow(sheet.name, cell, &cells); err != nil {
				t.Fatal(err)
			}
		}
	}
	if err := file.DeleteSheet("Sheet1"); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "unknown.xlsx")
	if err := file.SaveAs(path); err != nil {
		t.Fatal(err)
	}
	return path
}

// sameCalculated holds every cell of the sheets against what LibreOffice makes of it when it calculates everything anew.
func sameCalculated(t *testing.T, path string) {
	t.Helper()
	if os.Getenv("RAILBOOK_LONG") == "" {
		t.Skip("LibreOffice takes seconds: set RAILBOOK_LONG=1")
	}
	anew := sheetstest.Recalculated(t, path)
	for _, sheet := range unknownSheets {
		was, is := shownRows(t, path, sheet.name), shownRows(t, anew, sheet.name)
		for at, row := range was {
			for column, value := range row {
				if at >= len(is) || column >= len(is[at]) && value != "" || column < len(is[at]) && is[at][column] != value {
					t.Errorf("%s, row %d, column %d: %q is calculated otherwise", sheet.name, at+1, column+1, value)
				}
			}
		}
	}
}

func shownRows(t *testing.T, path, sheet string) [][]string {
	t.Helper()
	file, err := excelize.OpenFile(path)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := file.GetRows(sheet)
	if err != nil {
		t.Fatal(err)
	}
	return rows
}
