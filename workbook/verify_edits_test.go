package workbook

import (
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"railbook/rules"
	"railbook/validate"
	"railbook/workbook/record"
	"railbook/workbook/sheets/sheetstest"
)

// signedDemo grades a demo, leaves out what is on hold, accepts what is to be looked at, and signs.
func signedDemo(t *testing.T, name string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	data, err := os.ReadFile(filepath.Join("..", "testdata", "demo", name))
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	outcome := gradedAgain(t, path)
	for range 4 {
		if tally := Count(outcome.Results); tally.Holds+tally.Looks == 0 {
			break
		}
		edit(t, outcome.Path, outcome.Path, func(file *excelize.File) { settleAll(t, file) })
		outcome = gradedAgain(t, outcome.Path)
	}
	signed, err := Sign(outcome.Path, "Hedda Quince", "2025-08-22", Options{})
	if err != nil {
		t.Fatal(err)
	}
	return signed.Path
}

// settleAll leaves out what is on hold and accepts the rest.
func settleAll(t *testing.T, file *excelize.File) {
	t.Helper()
	for _, row := range reviewRows(t, file) {
		if row.at(record.KeyRowColumn) != record.FindingRow || row.at(record.DecisionColumn) != "" {
			continue
		}
		choice := validate.Accept
		if row.at("Level") == "Hold" {
			choice = validate.LeaveOut
		}
		row.write(map[string]string{record.DecisionColumn: string(choice), record.InitialsColumn: "HQ"})
	}
}

var manyEdits = flag.Int("edits", 0, "how many edits of signed workbooks are verified; 0: a fixed sample, or 120 with RAILBOOK_LONG set")

// Single edits of signed workbooks of three species, as LibreOffice and openpyxl save them: nearly every one is said by exactly
// its own cell, once, and none the wrong way round.
func TestEachEditIsSaidOnce(t *testing.T) {
	edits := 12
	switch {
	case *manyEdits > 0:
		edits = *manyEdits
	case os.Getenv("RAILBOOK_LONG") != "":
		edits = 120
	case testing.Short():
		t.Skip("signs three demos and verifies each many times")
	}
	var bases []string
	for _, name := range []string{"fair.xlsx", "swine.xlsx", "lamb.xlsx"} {
		signed := signedDemo(t, name)
		bases = append(bases, sheetstest.Resaved(t, signed, "xlsx"))
		again := filepath.Join(t.TempDir(), name)
		sheetstest.RunPython(t, "import sys, openpyxl\nw = openpyxl.load_workbook(sys.argv[1])\nw.save(sys.argv[2])\n", signed, again)
		bases = append(bases, again)
	}
	untouched := make([]map[Difference]bool, len(bases))
	for b, base := range bases {
		found, err := Verify(base, Options{})
		if err != nil {
			t.Fatal(err)
		}
		untouched[b] = make(map[Difference]bool)
		for _, one := range found.Differences {
			untouched[b][one] = true
			if !strings.Contains(one.Message, "results are gone") {
				t.Errorf("%s was not touched, and verify says %v: %s", filepath.Base(base), one.At, one.Message)
			}
		}
	}
	random := rand.New(rand.NewPCG(15, 2025))
	exact, named, wrongWay := 0, 0, 0
	for number := range edits {
		b := number % len(bases)
		path := filepath.Join(t.TempDir(), "edited.xlsx")
		var at rules.Place
		var was, is string
		edit(t, bases[b], path, func(file *excelize.File) {
			sheets := slices.DeleteFunc(file.GetSheetList(), func(name string) bool { return name == record.StateSheet })
			at.Sheet = sheets[random.IntN(len(sheets))]
			at.Cell = filled(t, file, at.Sheet, random)
			was, _ = file.GetCellValue(at.Sheet, at.Cell)
			is = was + "7"
			put(t, file, at.Sheet, at.Cell, is)
		})
		found, err := Verify(path, Options{})
		if err != nil {
			t.Errorf("%v: %v", at, err)
			continue
		}
		differences := slices.DeleteFunc(found.Differences, func(one Difference) bool { return untouched[b][one] })
		own := slices.ContainsFunc(differences, func(one Difference) bool { return one.At == at })
		switch {
		case len(differences) == 0 && !ours(at.Sheet):
			exact, named = exact+1, named+1 // a title or a remark of the fair's own that nothing is read from
		case own && len(differences) == 1:
			exact, named = exact+1, named+1
		case own:
			named++
		}
		if !own || len(differences) > 1 {
			t.Logf("%v, %q to %q:\n%.700s", at, was, is, found.Report())
		}
		for _, one := range differences {
			if one.At == at && strings.Contains(one.Message, fmt.Sprintf("was %q when", is)) {
				wrongWay++
			}
		}
	}
	t.Logf("of %d edits %d are said by exactly their own cell, %d by it among others, %d the wrong way round", edits, exact, named-exact, wrongWay)
	if wrongWay > 0 {
		t.Errorf("%d edits are said the wrong way round", wrongWay)
	}
	if edits < 100 { // too few for a share: each is named
		if named < edits {
			t.Errorf("%d of %d edits are not named", edits-named, edits)
		}
	} else if 100*exact < 95*edits {
		t.Errorf("%d of %d edits are said by exactly their own cell, want 95 of 100", exact, edits)
	}
}

// ours reports whether a sheet is one of the program's.
func ours(sheet string) bool {
	return slices.Contains([]string{
		record.PlacingsSheet, record.ReasonsSheet, record.JudgeReviewSheet, record.JudgePrintSheet, record.ErrorLogSheet, record.SummarySheet,
		record.ValueGridSheet, record.ChangeSheet, record.RunRecordSheet,
	}, sheet)
}
