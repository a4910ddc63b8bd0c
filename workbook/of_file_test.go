package workbook

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"

	"railbook/validate"
	"railbook/workbook/result"
	"railbook/workbook/xlsx"
)

// What is missing, damaged or in another form in the file and no carcass depends on is a Note in the results and in what is checked.
// It stays through every revision and the signature, the terminal says it once, and no carcass, figure or place is other for it.
func TestHarmlessDamageIsANoteThatStays(t *testing.T) {
	whole := partsOfFile(t, smallFair(t))
	inAnotherForm := func(change func(parts map[string]string)) map[string]string {
		parts := map[string]string{}
		for name, text := range whole {
			parts[name] = text
		}
		change(parts)
		return parts
	}
	type noted struct{ code, sheet, words string }
	type outcome struct {
		state   string
		results *result.Results
	}
	var undamaged *outcome
	for _, fair := range []struct {
		name  string
		parts map[string]string
		notes []noted
	}{
		{name: "whole", parts: whole},
		{
			name: "damaged and missing",
			parts: inAnotherForm(func(parts map[string]string) {
				parts["xl/theme/theme1.xml"] = `<a:theme xmlns:a="x"><`
				delete(parts, "docProps/app.xml")
				parts["xl/worksheets/_rels/sheet1.xml.rels"] = `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">` +
					`<Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/printerSettings" Target="../printerSettings/printerSettings1.bin"/></Relationships>`
			}),
			notes: []noted{
				{xlsx.PartDamaged, "", "xl/theme/theme1.xml"},
				{xlsx.PartMissing, "", "docProps/app.xml"},
				{xlsx.PartMissing, "Sheet1", "xl/printerSettings/printerSettings1.bin"},
			},
		},
		{
			// The two names of the Strict form are from memory.
			name: "Strict",
			parts: inAnotherForm(func(parts map[string]string) {
				for name, text := range parts {
					text = strings.ReplaceAll(text, "http://schemas.openxmlformats.org/spreadsheetml/2006/main", "http://purl.oclc.org/ooxml/spreadsheetml/main")
					parts[name] = strings.ReplaceAll(text, "http://schemas.openxmlformats.org/officeDocument/2006/relationships", "http://purl.oclc.org/ooxml/officeDocument/relationships")
				}
			}),
			notes: []noted{{xlsx.StrictForm, "", "ordinary Excel workbook"}},
		},
	} {
		t.Run(fair.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "fair.xlsx")
			if err := os.WriteFile(path, packageOf(t, fair.parts), 0o600); err != nil {
				t.Fatal(err)
			}
			of := func(findings []validate.Finding) (found []validate.Finding) {
				return slices.DeleteFunc(slices.Clone(findings), func(finding validate.Finding) bool {
					return !slices.Contains([]string{xlsx.PartDamaged, xlsx.PartMissing, xlsx.StrictForm}, finding.Code)
				})
			}
			hold := func(results *result.Results) {
				t.Helper()
				found := of(results.Findings)
				if len(found) != len(fair.notes) {
					t.Errorf("noted: %+v", found)
				}
				for _, want := range fair.notes {
					if !slices.ContainsFunc(found, func(is validate.Finding) bool {
						return is.Level == validate.Note && is.Carcass == nil && is.At.Cell == "" && is.Code == want.code && is.At.Sheet == want.sheet && strings.Contains(is.Message, want.words)
					}) {
						t.Errorf("not noted: %+v", want)
					}
				}
			}
			checked, err := Examine(path, Options{})
			if err != nil {
				t.Fatal(err)
			}
			hold(checked)
			first, err := Grade(path, Options{})
			if err != nil {
				t.Fatal(err)
			}
			hold(first.Results)
			for _, finding := range of(first.Results.Findings) {
				if strings.Count(strings.Join(first.Warnings, "\n"), finding.Message) != 1 {
					t.Errorf("not said once on the terminal: %s\n%q", finding.Message, first.Warnings)
				}
			}
			if again, err := Grade(first.Path, Options{}); err != nil || !again.Same || len(again.Warnings) != 0 {
				t.Errorf("graded again unchanged: %+v, %v", again, err)
			}
			edit(t, first.Path, first.Path, func(file *excelize.File) { put(t, file, "Sheet1", "E5", 791) })
			second, err := Grade(first.Path, Options{})
			if err != nil {
				t.Fatal(err)
			}
			hold(second.Results)
			if len(second.Warnings) != 0 {
				t.Errorf("said again: %q", second.Warnings)
			}
			signed, err := Sign(second.Path, "Hedda Quince", "2025-08-22", Options{})
			if err != nil {
				t.Fatal(err)
			}
			log := loggedNotes(t, signed.Path)
			for _, want := range fair.notes {
				if strings.Count(log, want.words) != 1 {
					t.Errorf("the Error log of the signed workbook says %q not once:\n%s", want.words, log)
				}
			}
			damagedSince := partsOfFile(t, signed.Path)
			if damagedSince["docProps/core.xml"] == "" {
				t.Fatal("the signed workbook has no properties that could be damaged")
			}
			damagedSince["docProps/core.xml"] = "<"
			damagedPath := filepath.Join(t.TempDir(), "signed.xlsx")
			if err := os.WriteFile(damagedPath, packageOf(t, damagedSince), 0o600); err != nil {
				t.Fatal(err)
			}
			for _, path := range []string{signed.Path, damagedPath} {
				verified, err := Verify(path, Options{})
				if err != nil || len(verified.Differences) != 0 || verified.Partly != "" {
					t.Errorf("verified: %+v, %v", verified, err)
				}
			}
			is := &outcome{stateSHA256(second.Results), signed.Results}
			if undamaged == nil {
				undamaged = is
			}
			if is.state != undamaged.state {
				t.Error("the state that is compared when grading again is another one")
			}
			if diff := cmp.Diff(slices.Collect(undamaged.results.Outcomes), slices.Collect(is.results.Outcomes)); diff != "" {
				t.Errorf("places and figures:\n%s", diff)
			}
			for i, carcass := range is.results.Carcasses {
				if carcass.Status.State != undamaged.results.Carcasses[i].Status.State {
					t.Errorf("tag %s: %v", carcass.Tag, carcass.Status)
				}
			}
		})
	}
}

// loggedNotes gives the notes of the Error log as a person reads them.
func loggedNotes(t *testing.T, path string) string {
	t.Helper()
	file, err := excelize.OpenFile(path)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := file.GetRows("Error log")
	if err != nil {
		t.Fatal(err)
	}
	var text strings.Builder
	for _, row := range rows {
		if len(row) > 0 && row[0] == "Note" {
			text.WriteString(strings.Join(row, " ") + "\n")
		}
	}
	return text.String()
}
