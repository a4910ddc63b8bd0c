package workbook_test

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook"
	"railbook/workbook/result"

	"github.com/shopspring/decimal"
)

// TestOffices reads every sheet that draw_offices.py drew with the whole program and compares the readings, who is on hold
// and what is said with what a careful clerk would make of it, as the files beside the sheet say.
func TestOffices(t *testing.T) {
	files, err := filepath.Glob("../testdata/layouts/*.findings.csv")
	if err != nil || len(files) == 0 {
		t.Fatalf("no sheets: %v", err)
	}
	for _, file := range files {
		stem := strings.TrimSuffix(file, ".findings.csv")
		t.Run(filepath.Base(stem), func(t *testing.T) {
			t.Parallel()
			if wrong := clerkAgainst(t, stem); len(wrong) > 0 {
				t.Error(strings.Join(wrong, "\n"))
			}
		})
	}
}

// clerkAgainst gives what differs between the program and the clerk.
func clerkAgainst(t *testing.T, stem string) (wrong []string) {
	paths, _ := filepath.Glob(stem + ".[xct]*")
	results, err := workbook.Examine(paths[0], workbook.Options{Species: speciesOfOffice[filepath.Base(stem)]})
	if err != nil {
		return []string{err.Error()}
	}
	said := clerkLines(t, stem+".findings.csv")
	wrong = readingsAgainst(results, clerkLines(t, stem+".expected.csv"))
	wrong = append(wrong, findingsAgainst(results, said)...)
	return append(wrong, placesAgainst(results, said)...)
}

// speciesOfOffice is what the office says on the command line for a sheet that does not say it.
var speciesOfOffice = map[string]rules.Species{"inspector-comments": rules.Beef}

func clerkLines(t *testing.T, path string) [][]string {
	t.Helper()
	file, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	lines, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return lines[1:]
}

func readingsAgainst(results *result.Results, lines [][]string) (wrong []string) {
	listed := map[*grading.Carcass]map[string]bool{}
	for _, line := range lines {
		tag, class, name, value := line[0], line[1], line[2], line[3]
		at := slices.IndexFunc(results.Carcasses, func(carcass *result.Result) bool {
			return carcass.Tag == tag && (class == "*" || carcass.Class == class)
		})
		if at < 0 {
			wrong = append(wrong, "no carcass with tag "+tag+" in class "+class+"; there are "+tagsAndClasses(results))
			continue
		}
		graded := results.Carcasses[at]
		if listed[graded.Carcass] == nil {
			listed[graded.Carcass] = map[string]bool{}
		}
		listed[graded.Carcass][name] = true
		id := measure.Standard().ByName(name)
		definition, _ := measure.Define(id)
		got, ok := graded.Figure(id)
		wanted, err := decimal.NewFromString(value)
		asNumber := err == nil && definition.Kind != measure.KindText && definition.Kind != measure.KindDate
		if !ok || asNumber && !got.Number.Equal(wanted) || !asNumber && got.Text != value {
			wrong = append(wrong, "tag "+tag+", "+name+": want "+value+", got "+got.Text+" "+got.Number.String())
		}
	}
	for _, graded := range results.Carcasses {
		if listed[graded.Carcass] == nil {
			wrong = append(wrong, "a carcass that is none: tag "+graded.Tag+" at "+graded.Place.String())
			continue
		}
		for id, reading := range graded.Readings() {
			definition, _ := measure.Define(id)
			if definition.Kind != measure.KindText && !listed[graded.Carcass][id.String()] {
				wrong = append(wrong, "tag "+graded.Tag+": read "+id.String()+" "+reading.Written+", which was not expected")
			}
		}
	}
	return slices.Compact(wrong)
}

// ofWholeSheet reports whether a finding is about every carcass of its sheet.
func ofWholeSheet(finding validate.Finding) bool {
	return finding.Tag == "" && finding.Carcass == nil && len(finding.Others) == 0 && finding.At.Sheet != ""
}

func tagsAndClasses(results *result.Results) string {
	var seen []string
	for _, graded := range results.Carcasses {
		seen = append(seen, graded.Tag+" in "+graded.Class)
	}
	return strings.Join(seen, ", ")
}

// findingsAgainst gives what was not said, and the holds of which the clerk knows nothing.
func findingsAgainst(results *result.Results, said [][]string) (wrong []string) {
	fits := func(finding validate.Finding, line []string) bool {
		sheet, cell, _ := strings.Cut(line[1], "!")
		return string(finding.Level) == line[0] && (sheet == "" || finding.At.Sheet == sheet) && (cell == "" || finding.At.Cell == cell) &&
			(line[2] == "" || finding.Tag == line[2] || ofWholeSheet(finding) || slices.ContainsFunc(finding.Others, func(carcass *grading.Carcass) bool { return carcass.Tag == line[2] })) &&
			strings.Contains(strings.ToLower(finding.Code+" "+finding.Message+" "+finding.Hint), strings.ToLower(line[3]))
	}
	for _, line := range said {
		if !slices.ContainsFunc(results.Findings, func(finding validate.Finding) bool { return fits(finding, line) }) {
			wrong = append(wrong, "not said: "+strings.Join(line, " | "))
		}
	}
	for _, finding := range results.Findings {
		if finding.Level == validate.Hold && !slices.ContainsFunc(said, func(line []string) bool { return fits(finding, line) }) {
			wrong = append(wrong, "said without need: "+finding.Code+": "+finding.Message)
		}
	}
	return wrong
}

// placesAgainst holds that a carcass is placed unless the clerk holds it.
func placesAgainst(results *result.Results, said [][]string) (wrong []string) {
	placed := map[*grading.Graded]bool{}
	for _, class := range results.Placings.Classes {
		for _, standing := range class.Placed {
			placed[standing.Graded] = true
		}
	}
	for _, graded := range results.Carcasses {
		held := slices.ContainsFunc(said, func(line []string) bool { return line[0] == "hold" && line[2] == graded.Tag })
		if held == placed[graded.Graded] {
			wrong = append(wrong, "tag "+graded.Tag+": placed though on hold, or left out though nothing is wrong")
		}
	}
	return wrong
}
