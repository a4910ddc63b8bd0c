package workbook

import (
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/address"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/result"
	"railbook/workbook/sheets/sheetstest"

	"github.com/shopspring/decimal"
	"github.com/xuri/excelize/v2"
	"pgregory.net/rapid"
)

// plausible are figures that nothing is said of, by the headings of a rail sheet; invented.
var plausible = map[string]map[string]any{
	"Market steers": {
		"Live weight, lb": 1250, "Carcass weight, lb": 780, "Measured fat, in": 0.4, "Ribeye area, sq in": 13.6, "KPH %": 2.5,
		"Marbling": "Small 40", "Maturity": "A60",
	},
	"Market hogs": {
		"Live weight, lb": 268, "Carcass weight, lb": 198, "Tenth-rib fat, in": 0.75, "Last-rib fat, in": 0.95,
		"Loin muscle area, sq in": 6.6, "Muscling score": 2,
	},
	"Market lambs": {
		"Live weight, lb": 132, "Carcass weight, lb": 68, "Measured fat, in": 0.2, "Body wall thickness, in": 0.9,
		"Ribeye area, sq in": 2.7,
	},
	"Market goats": {"Live weight, lb": 84, "Carcass weight, lb": 40, "Ribeye area, sq in": 1.55, "Body wall thickness, in": 0.45},
}

// blankFor writes a rail sheet for a roster in a folder of its own and gives its path.
func blankFor(t testing.TB, roster string, sheet SheetOptions) string {
	t.Helper()
	folder := t.TempDir()
	sheet.Roster = filepath.Join(folder, "roster.csv")
	if err := os.WriteFile(sheet.Roster, []byte(roster), 0o600); err != nil {
		t.Fatal(err)
	}
	blank, err := WriteBlankSheet(Options{}, sheet)
	if err != nil {
		t.Fatal(err)
	}
	return blank.Path
}

// fillLine fills in a line of a rail sheet and gives the cells by their headings.
func fillLine(file *excelize.File, line int, figures map[string]any) (map[string]string, error) {
	sheet := file.GetSheetName(0)
	rows, err := file.GetRows(sheet)
	if err != nil {
		return nil, err
	}
	cells, above := make(map[string]string), 8
	if strings.HasPrefix(strings.Join(rows[above], ""), "Class: ") {
		above++
	}
	for number, heading := range rows[7] {
		cell := address.Cell(number+1, above+line)
		cells[heading] = cell
		if figure, given := figures[heading]; given {
			if err := file.SetCellValue(sheet, cell, figure); err != nil {
				return nil, err
			}
		}
	}
	return cells, nil
}

// A figure that a cell of the rail sheet warns of is one that grading asks about; of any other it says nothing.
func TestEntryLimitsGiveTheVerdictOfGrading(t *testing.T) {
	if testing.Short() {
		t.Skip("slow: grades a workbook for each figure")
	}
	blanks := make(map[string]string)
	for class := range plausible {
		blanks[class] = blankFor(t, "Tag,Exhibitor,Class\n0401,Rowan Candlewick,"+class+"\n0402,Hazel Tinderbox,"+class+"\n0403,Umber Gatepost,"+class+"\n", SheetOptions{})
	}
	folder := t.TempDir()
	sheetstest.CheckSome(t, func(t *rapid.T) {
		class := rapid.SampledFrom(slices.Sorted(maps.Keys(plausible))).Draw(t, "class")
		heading := rapid.SampledFrom(slices.Sorted(maps.Keys(plausible[class]))).Draw(t, "heading")
		file, err := excelize.OpenFile(blanks[class])
		if err != nil {
			t.Fatal(err)
		}
		defer file.Close()
		rule := ruleUnder(t, file, heading)
		if rule == nil {
			t.Skip("no limits")
		}
		low, high := decimal.RequireFromString(rule.Formula1), decimal.RequireFromString(rule.Formula2)
		bound := rapid.SampledFrom([]decimal.Decimal{low, high}).Draw(t, "bound")
		value := bound.Add(decimal.New(rapid.Int64Range(-3, 3).Draw(t, "away"), -2))
		for line := 1; line <= 3; line++ {
			figures := maps.Clone(plausible[class])
			if line == 1 {
				figures[heading] = value.InexactFloat64()
			}
			if _, err := fillLine(file, line, figures); err != nil {
				t.Fatal(err)
			}
		}
		path := filepath.Join(folder, "filled.xlsx")
		if err := file.SaveAs(path); err != nil {
			t.Fatal(err)
		}
		results, err := Examine(path, Options{})
		if err != nil {
			t.Fatal(err)
		}
		id := headed(t, results, heading)
		stands := value.GreaterThanOrEqual(low) && value.LessThanOrEqual(high)
		switch {
		case stands && askedAbout(results, id):
			t.Fatalf("%s, %s %s: the cell does not warn, and grading says that it is out of range (limits %v to %v)", class, heading, value, low, high)
		case !stands && !carcassAsked(results):
			t.Fatalf("%s, %s %s: the cell warns, and grading asks nothing (limits %v to %v)", class, heading, value, low, high)
		}
	})
}

// ruleUnder gives the entry limits below a heading; nil where there are none.
func ruleUnder(t *rapid.T, file *excelize.File, heading string) *excelize.DataValidation {
	validations, err := file.GetDataValidations(file.GetSheetName(0))
	if err != nil {
		t.Fatal(err)
	}
	cells, err := fillLine(file, 1, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, validation := range validations {
		if validation.Type == "decimal" && strings.HasPrefix(validation.Sqref, strings.TrimRight(cells[heading], "0123456789")+"9:") {
			return validation
		}
	}
	return nil
}

// headed gives the measure that a heading was read as.
func headed(t *rapid.T, results *result.Results, heading string) measure.ID {
	for _, headed := range results.Read.Blocks[0].Headings {
		if headed.Text == heading {
			return headed.Measure
		}
	}
	t.Fatalf("the heading %q was not read", heading)
	return measure.None
}

// askedAbout reports whether the first carcass's measure is out of its limits.
func askedAbout(results *result.Results, id measure.ID) bool {
	return slices.ContainsFunc(results.Findings, func(finding validate.Finding) bool {
		return finding.Tag == "0401" && finding.Measure == id && strings.HasSuffix(finding.Code, "out of range") && finding.Level != validate.Note &&
			!strings.HasPrefix(finding.Code, "dressing percent") && !strings.HasPrefix(finding.Code, "ribeye per")
	})
}

// carcassAsked reports whether anything is asked about the first carcass. (One wrong cell gives one finding, which may be about
// what follows from it: a carcass weight too high for its live weight is a dressing percent out of range.)
func carcassAsked(results *result.Results) bool {
	return slices.ContainsFunc(results.Findings, func(finding validate.Finding) bool {
		return finding.Tag == "0401" && finding.Level != validate.Note
	})
}

// Whatever plants, judges and contests are called, a sheet's animals stay of its species and basis, and get no class of
// such a name.
func TestNamesAboveTheHeadingsSayNothingOfTheAnimals(t *testing.T) {
	names := []string{"Lamb & Daughters", "Goat Hill", "Hedda Steers", "Market Hog Company", "Ultrasound and Cold Storage", "Open class heifers"}
	for _, species := range rules.SpeciesNames() {
		for _, basis := range []rules.Basis{rules.OnTheRail, rules.LiveScan} {
			path := blankFor(t, fmt.Sprintf("Tag,Exhibitor,Species\n0401,Rowan Candlewick,%s\n0402,Hazel Tinderbox,%s\n", species, species),
				SheetOptions{Ultrasound: basis == rules.LiveScan})
			for _, name := range names {
				answered := answerQuestions(t, path, name)
				results, err := Examine(answered, Options{})
				if err != nil {
					t.Fatal(err)
				}
				for _, carcass := range results.Read.Carcasses {
					if string(carcass.Species) != species || carcass.Basis != basis || carcass.Class != "" {
						t.Errorf("%s, %s, with %q: read as %s, %s, class %q", species, basis, name, carcass.Species, carcass.Basis, carcass.Class)
					}
				}
			}
		}
	}
}

// answerQuestions writes a name beside every question that only people read, and gives the path of the copy.
func answerQuestions(t *testing.T, path, name string) string {
	t.Helper()
	file, err := excelize.OpenFile(path)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	sheet := file.GetSheetName(0)
	for _, question := range []string{"Contest:", "Place:", "Plant:", "Judge:", "Contest scan by:", "Contest scan day:"} {
		found, err := file.SearchSheet(sheet, question)
		if err != nil {
			t.Fatal(err)
		}
		for _, cell := range found {
			put(t, file, sheet, cellAfter(t, file, sheet, cell), name)
		}
	}
	copied := filepath.Join(t.TempDir(), "answered.xlsx")
	if err := file.SaveAs(copied); err != nil {
		t.Fatal(err)
	}
	return copied
}

// cellAfter gives the cell to the right of one, or of the cells it is merged with.
func cellAfter(t *testing.T, file *excelize.File, sheet, cell string) string {
	t.Helper()
	merged, err := file.GetMergeCells(sheet)
	if err != nil {
		t.Fatal(err)
	}
	for _, area := range merged {
		if area.GetStartAxis() == cell {
			cell = area.GetEndAxis()
		}
	}
	column, row, err := excelize.CellNameToCoordinates(cell)
	if err != nil {
		t.Fatal(err)
	}
	after, err := excelize.CoordinatesToCellName(column+1, row)
	if err != nil {
		t.Fatal(err)
	}
	return after
}

// The roster's order is kept, or that of the tags as numbers, or of the plant's own; zeros in front stay.
func TestOrderOfRailSheets(t *testing.T) {
	roster := "Tag,Exhibitor,Class,Rail no.\n0110,Rowan Candlewick,Steers,3\n9,Hazel Tinderbox,Steers,\n0012,Umber Gatepost,Steers,1\nB7,Umber Gatepost,Steers,2\n"
	for order, want := range map[string]string{
		"roster": "0110 9 0012 B7", "": "0110 9 0012 B7", "tag": "9 0012 0110 B7", "rail": "0012 B7 0110 9",
	} {
		file, err := excelize.OpenFile(blankFor(t, roster, SheetOptions{Order: order}))
		if err != nil {
			t.Fatal(err)
		}
		var tags []string
		for line := 10; line <= 13; line++ {
			tag, err := file.GetCellValue(file.GetSheetName(0), fmt.Sprintf("A%d", line))
			if err != nil {
				t.Fatal(err)
			}
			tags = append(tags, tag)
			if format := formatOf(t, file, fmt.Sprintf("A%d", line)); format != "@" {
				t.Errorf("a tag typed over A%d would be a number: its format is %q", line, format)
			}
		}
		if got := strings.Join(tags, " "); got != want {
			t.Errorf("order %q gives %s, want %s", order, got, want)
		}
		file.Close()
	}
}

// What is scanned and what hangs is told by the roster, by the class's name, or by the rulebook's class of that name.
func TestBasisOfEntries(t *testing.T) {
	book := &rules.Rulebook{Classes: []rules.Class{
		{Name: "Futurity", Species: rules.Beef, Basis: rules.LiveScan, Matches: []string{"Class 7"}},
		{Name: "Every other class"},
	}}
	for _, test := range []struct {
		class   string
		species rules.Species
		read    rules.Basis
		all     bool
		want    rules.Basis
	}{
		{"Futurity", rules.Beef, rules.OnTheRail, false, rules.LiveScan},
		{"class 7", rules.Beef, rules.OnTheRail, false, rules.LiveScan},
		{"Futurity", rules.Lamb, rules.OnTheRail, false, rules.OnTheRail},
		{"Light steers", rules.Beef, "", false, rules.OnTheRail},
		{"Ultrasound steers", rules.Beef, rules.OnTheRail, false, rules.LiveScan},
		{"Light steers", rules.Beef, rules.LiveScan, false, rules.LiveScan},
		{"Light steers", rules.Beef, rules.OnTheRail, true, rules.LiveScan},
	} {
		entry := &grading.Carcass{Class: test.class, Species: test.species, Basis: test.read}
		settleBases([]*grading.Carcass{entry}, book, test.all)
		if entry.Basis != test.want {
			t.Errorf("%s %q read as %q: %s, want %s", test.species, test.class, test.read, entry.Basis, test.want)
		}
	}
}

// formatOf gives the number format of a cell of the first sheet; text is @ (ECMA-376 part 1, 18.8.30: number format 49).
func formatOf(t *testing.T, file *excelize.File, cell string) string {
	t.Helper()
	id, err := file.GetCellStyle(file.GetSheetName(0), cell)
	if err != nil {
		t.Fatal(err)
	}
	style, err := file.GetStyle(id)
	switch {
	case err != nil:
		t.Fatal(err)
	case style.CustomNumFmt != nil:
		return *style.CustomNumFmt
	case style.NumFmt == 49:
		return "@"
	}
	return ""
}

// Without names nothing of the roster goes along but tag and class: not in a cell, not in a part of the file.
func TestRailSheetWithoutNames(t *testing.T) {
	path := blankFor(t, "Tag,Exhibitor,Family,Club,Class,Weigh-in wt\n0401,Xanthe Quillfeather,Quillfeather,Wobblestone Club,Steers,1261\n",
		SheetOptions{NoNames: true, PrintNames: true})
	all := unpacked(t, path)
	for _, secret := range []string{"Xanthe", "Quillfeather", "Wobblestone", "1261"} {
		if strings.Contains(all, secret) {
			t.Errorf("the file holds %q", secret)
		}
	}
}
