package workbook

import (
	"bytes"
	"path/filepath"
	"strings"
	"testing"

	"railbook/rules"
	"railbook/rules/measure"
)

// nextYears writes the default rulebook with Select at another discount and two limits of which one can never decide.
func nextYears(t *testing.T) string {
	t.Helper()
	tables := rules.DefaultTables()
	for _, table := range tables {
		switch table.Name {
		case rules.GridTable:
			for _, row := range table.Rows {
				if row[0].Text == "beef" && row[2].Text == "Select" {
					row[7].Text = "-12.00"
				}
			}
		case rules.SettingsTable:
			for _, row := range table.Rows {
				if row[0].Text == "year" {
					row[2].Text = "2026"
				}
			}
		}
	}
	for i := range tables {
		if tables[i].Name == rules.EligibilityTable {
			for _, limit := range [][]string{
				{"", "beef", "yield grade", "", "3.99", "", "", "", "", "", "not placed", "", "a decision"},
				{"", "beef", "cutability", "51", "", "", "", "", "", "", "not placed", "", "a decision"},
			} {
				var row rules.Row
				for _, text := range limit {
					row = append(row, rules.Cell{Text: text})
				}
				tables[i].Rows = append(tables[i].Rows, row)
			}
		}
	}
	path := filepath.Join(t.TempDir(), "next.xlsx")
	book, err := rulebookWorkbook(path, tables)
	if err != nil {
		t.Fatal(err)
	}
	if err := saveAs(book, path); err != nil {
		t.Fatal(err)
	}
	return path
}

const demoFair = "../testdata/demo/fair.xlsx"

func TestComparingARulebookWithItselfReportsNoChange(t *testing.T) {
	path := newRulebook(t, "rulebook.xlsx", "")
	outcome, err := CompareRulebooks(path, path, []string{demoFair}, Options{Output: filepath.Join(t.TempDir(), "compared.xlsx")})
	if err != nil {
		t.Fatal(err)
	}
	if moved, repriced := outcome.Counts(); moved != 0 || repriced != 0 {
		t.Errorf("%d moved, %d bring another price", moved, repriced)
	}
	if report := outcome.Report(); !strings.Contains(report, "0 stand elsewhere, 0 bring another price.") {
		t.Error(report)
	}
}

func TestComparingRulebooksOnTheDemo(t *testing.T) {
	old, new := newRulebook(t, "rulebook.xlsx", ""), nextYears(t)
	options := Options{Output: filepath.Join(t.TempDir(), "compared.xlsx")}
	outcome, err := CompareRulebooks(old, new, []string{demoFair}, options)
	if err != nil {
		t.Fatal(err)
	}
	report := outcome.Report()
	for _, words := range []string{
		"Default rulebook 2025 against Default rulebook 2026",
		"The limit of yield grade at most 3.99",
		"Decided nothing under Default rulebook 2026",
	} {
		if !strings.Contains(strings.Join(strings.Fields(report), " "), words) {
			t.Errorf("the report does not say %q:\n%s", words, report)
		}
	}
	for _, line := range strings.Split(report, "\n") {
		if len([]rune(line)) > 80 && !strings.HasPrefix(line, "Comparison: ") {
			t.Errorf("wider than a terminal: %q", line)
		}
	}
	if lines := strings.Count(report, "\n"); lines > 26 {
		t.Errorf("%d lines do not fit on a screen", lines)
	}
	for _, class := range outcome.Classes() {
		for _, row := range class.Rows {
			graded := row.Old.FigureOf(measure.QualityGrade).Value.Text
			if row.Repriced() != (row.Old.Price.Valid && strings.HasSuffix(graded, "Select")) {
				t.Errorf("%s is %s and repriced: %v", row.Tag, graded, row.Repriced())
			}
		}
	}
	first := bytesOf(t, options.Output)
	again, err := CompareRulebooks(old, new, []string{demoFair}, options)
	if err != nil || again.Written || !bytes.Equal(first, bytesOf(t, options.Output)) {
		t.Errorf("again: written %v, %v", again.Written, err)
	}
	if _, err := CompareRulebooks(new, old, []string{demoFair}, options); err == nil || !strings.Contains(err.Error(), "nothing was written") {
		t.Errorf("a different comparison in the way: %v", err)
	}
	options.Output = old
	if _, err := CompareRulebooks(old, new, []string{demoFair}, options); err == nil || !strings.Contains(err.Error(), "never written to") {
		t.Errorf("over the rulebook: %v", err)
	}
}

func TestCheckingARulebookFindsTheLimitThatNeverDecides(t *testing.T) {
	faults, err := CheckRulebook(nextYears(t), Options{})
	if err != nil {
		t.Fatal(err)
	}
	found := false
	for _, fault := range faults {
		found = found || fault.Warning && strings.Contains(fault.Message, "yield grade at most 3.99 can never decide") && fault.Place.Sheet == "Eligibility"
	}
	if !found {
		t.Errorf("not said: %v", faults)
	}
}
