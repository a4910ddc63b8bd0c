package intake_test

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/workbook/intake"
	"railbook/workbook/xlsx"

	"github.com/shopspring/decimal"
)

const layouts = "../../testdata/layouts"

// TestLayouts reads every sheet of testdata/layouts and compares it with the reading worked out by hand beside it. The
// form of the expected files is described in draw.py there.
func TestLayouts(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(layouts, "*"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no layouts: %v", err)
	}
	read := 0
	for _, file := range files {
		name := filepath.Base(file)
		if strings.HasSuffix(name, ".expected.csv") || ofOffice(file) || strings.HasSuffix(name, ".py") || strings.HasPrefix(name, "__") {
			continue
		}
		read++
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			compareLayout(t, file, expectedLines(t, strings.TrimSuffix(file, filepath.Ext(file))+".expected.csv"))
		})
	}
	if read < 30 {
		t.Errorf("only %d layouts were found", read)
	}
}

// ofOffice reports whether a file belongs to the sheets of draw_offices.py, which the whole program is tested on.
func ofOffice(file string) bool {
	stem, _, _ := strings.Cut(filepath.Base(file), ".")
	_, err := os.Stat(filepath.Join(layouts, stem+".findings.csv"))
	return err == nil
}

type expectedLine struct{ tag, class, measure, value string }

func expectedLines(t *testing.T, path string) []expectedLine {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(strings.NewReader(string(text))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var lines []expectedLine
	for _, row := range rows[1:] {
		lines = append(lines, expectedLine{row[0], row[1], row[2], row[3]})
	}
	return lines
}

func compareLayout(t *testing.T, path string, lines []expectedLine) {
	opened, err := xlsx.Open(path, xlsx.OpenOptions{})
	if err != nil {
		t.Fatal(err)
	}
	book := rules.Default()
	result, err := intake.Read([]*xlsx.Book{opened}, book, intake.Options{})
	if err != nil {
		t.Fatal(err)
	}
	listed := map[*grading.Carcass]map[string]bool{}
	for _, line := range lines {
		if line.measure == "finding" {
			wantFinding(t, result, line.value)
			continue
		}
		carcass := carcassOf(t, result, line)
		if carcass == nil {
			continue
		}
		if listed[carcass] == nil {
			listed[carcass] = map[string]bool{"tag": true, "class": true, "species": true, "basis": true, "old tag": true, "electronic tag": true}
		}
		listed[carcass][line.measure] = true
		compareValue(t, grading.Grade(carcass, book), line)
	}
	for _, carcass := range result.Carcasses {
		if listed[carcass] == nil {
			t.Errorf("a carcass that is none: tag %q at %v", carcass.Tag, carcass.Place)
			continue
		}
		for id, reading := range carcass.Readings() {
			if !listed[carcass][id.String()] && !listed[carcass]["anything else"] {
				t.Errorf("tag %s: read %s = %q at %v, which was not expected", carcass.Tag, id, reading.Written, reading.Place)
			}
		}
	}
}

func carcassOf(t *testing.T, result *intake.Result, line expectedLine) *grading.Carcass {
	t.Helper()
	for _, carcass := range result.Carcasses {
		for _, tag := range strings.Split(line.tag, "|") {
			if carcass.Tag != tag || line.class != "*" && carcass.Class != line.class {
				continue
			}
			return carcass
		}
	}
	var seen []string
	for _, carcass := range result.Carcasses {
		seen = append(seen, carcass.Tag+" in "+carcass.Class)
	}
	t.Errorf("no carcass with tag %s in class %q; there are %s", line.tag, line.class, strings.Join(seen, ", "))
	return nil
}

func compareValue(t *testing.T, graded *grading.Graded, line expectedLine) {
	t.Helper()
	id := measure.Standard().ByName(line.measure)
	value, ok := graded.Figure(id)
	switch {
	case line.measure == "anything else" || line.value == "*" && ok:
	case line.value == "unreadable":
		if written, found := graded.Written(id); ok || !found || !written.Unreadable {
			t.Errorf("tag %s, %s: want unreadable, got %v (%q)", line.tag, id, value, written.Written)
		}
	case !ok:
		t.Errorf("tag %s, %s: want %s, but there is none", line.tag, id, line.value)
	default:
		definition, _ := measure.Define(id)
		wanted, err := decimal.NewFromString(line.value)
		asNumber := err == nil && definition.Kind != measure.KindText && definition.Kind != measure.KindDate
		if asNumber && !value.Number.Equal(wanted) || !asNumber && value.Text != line.value {
			t.Errorf("tag %s, %s: want %s, got %s (%q)", line.tag, id, line.value, value.Number, value.Text)
		}
	}
}

func wantFinding(t *testing.T, result *intake.Result, place string) {
	t.Helper()
	sheet, cell, _ := strings.Cut(place, "!")
	for _, finding := range result.Findings {
		if finding.At.Sheet == sheet && finding.At.Cell == cell {
			return
		}
	}
	t.Errorf("nothing is said about %s", place)
}
