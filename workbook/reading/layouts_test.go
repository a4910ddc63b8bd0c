package reading_test

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"railbook/grading"
	"railbook/rules"
	"railbook/workbook/parts"
	"railbook/workbook/reading"
)

const layouts = "../../testdata/layouts"

// expected is one line of a layout's expected reading: tag, class, measure, value, unit.
type expected struct{ tag, class, measure, value string }

func readExpected(t *testing.T, path string) []expected {
	t.Helper()
	file, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var list []expected
	for _, row := range rows[1:] {
		list = append(list, expected{row[0], row[1], row[2], row[3]})
	}
	return list
}

func readFile(t *testing.T, path string) *reading.Result {
	t.Helper()
	book, err := parts.Open(path, parts.OpenOptions{})
	if err != nil {
		t.Fatal(err)
	}
	result, err := reading.Read([]*parts.Book{book}, rules.Default(), reading.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return result
}

// TestLayouts reads every sheet of testdata/layouts, no two of which are of one mould, and compares with the reading that
// was written down by hand when the sheet was drawn.
func TestLayouts(t *testing.T) {
	paths, err := filepath.Glob(filepath.Join(layouts, "*.expected.csv"))
	if err != nil || len(paths) < 20 {
		t.Fatalf("%d layouts, %v", len(paths), err)
	}
	for _, path := range paths {
		stem := strings.TrimSuffix(path, ".expected.csv")
		t.Run(filepath.Base(stem), func(t *testing.T) {
			candidates, _ := filepath.Glob(stem + ".*")
			candidates = slices.DeleteFunc(candidates, func(name string) bool { return name == path })
			if len(candidates) != 1 {
				t.Fatalf("expected one sheet beside %s, found %v", path, candidates)
			}
			compareLayout(t, readFile(t, candidates[0]), readExpected(t, path))
		})
	}
}

func compareLayout(t *testing.T, result *reading.Result, lines []expected) {
	t.Helper()
	wanted := map[*grading.Carcass]map[rules.Measure]bool{}
	open := map[*grading.Carcass]bool{}
	for _, line := range lines {
		if line.measure == "finding" {
			if !says(result, line.value) {
				t.Errorf("nothing is said about %s", line.value)
			}
			continue
		}
		carcass := findCarcass(result, line)
		if carcass == nil {
			t.Errorf("no carcass with tag %q in class %q", line.tag, line.class)
			continue
		}
		if wanted[carcass] == nil {
			wanted[carcass] = map[rules.Measure]bool{}
		}
		if line.measure == "anything else" {
			open[carcass] = true
			continue
		}
		wanted[carcass][rules.Measure(line.measure)] = true
		compareReading(t, carcass, line)
	}
	for _, carcass := range result.Carcasses {
		if wanted[carcass] == nil {
			t.Errorf("carcass %q at %s is not expected", carcass.Tag, carcass.Place)
		}
		for measure, value := range carcass.Readings {
			if !wanted[carcass][measure] && !open[carcass] && !namesAnimal(measure) {
				t.Errorf("tag %s: %s = %q is not expected", carcass.Tag, measure, value.Value.Text)
			}
		}
	}
}

func namesAnimal(measure rules.Measure) bool {
	definition, _ := rules.Define(measure)
	return definition.Kind == rules.KindText
}

func says(result *reading.Result, cell string) bool {
	sheet, name, _ := strings.Cut(cell, "!")
	for _, finding := range result.Findings {
		if finding.At.Sheet == sheet && finding.At.Cell == name {
			return true
		}
	}
	return false
}

func findCarcass(result *reading.Result, line expected) *grading.Carcass {
	for _, carcass := range result.Carcasses {
		if slices.Contains(strings.Split(line.tag, "|"), carcass.Tag) && (line.class == "*" || carcass.Class == line.class) {
			return carcass
		}
	}
	return nil
}

func compareReading(t *testing.T, carcass *grading.Carcass, line expected) {
	t.Helper()
	value, found := carcass.Readings[rules.Measure(line.measure)]
	if !found { // worked out from what was read: two sides, or a dot count
		value.Value, found = grading.Grade(carcass, rules.Default()).Figure(rules.Measure(line.measure))
	}
	switch {
	case line.value == "*":
	case line.value == "unreadable":
		if !found || !value.Unreadable {
			t.Errorf("tag %s: %s should be unreadable, is %q", carcass.Tag, line.measure, value.Value.Text)
		}
	case !found || value.Unreadable:
		t.Errorf("tag %s: %s = %q was not read (as written %q)", carcass.Tag, line.measure, line.value, value.Written)
	case value.Value.Text != line.value && !equalNumbers(value.Value.Number, line.value):
		t.Errorf("tag %s: %s = %q (%s), expected %q", carcass.Tag, line.measure, value.Value.Text, value.Value.Number, line.value)
	}
}

func equalNumbers(number decimal.Decimal, text string) bool {
	wanted, err := decimal.NewFromString(text)
	return err == nil && wanted.Equal(number)
}
