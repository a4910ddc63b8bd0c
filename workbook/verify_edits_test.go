package workbook

import (
	"flag"
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync/atomic"
	"testing"

	"github.com/xuri/excelize/v2"

	"railbook/rules"
	"railbook/validate"
	"railbook/workbook/record"
	"railbook/workbook/sheets/sheetstest"
	"railbook/workbook/sheets/sheetstest/python"
)

// fewOfDemo writes a demo with the first few carcasses of each class only, and with their entries.
func fewOfDemo(t *testing.T, name string, few int) string {
	t.Helper()
	from := filepath.Join("..", "testdata", "demo", name)
	results, err := Examine(from, Options{})
	if err != nil {
		t.Fatal(err)
	}
	kept := make(map[string]bool) // by tag
	inClass := make(map[string]int)
	drop := make(map[string]map[int]bool) // rows by sheet
	dropRow := func(sheet string, row int) {
		if drop[sheet] == nil {
			drop[sheet] = make(map[int]bool)
		}
		drop[sheet][row] = true
	}
	for _, block := range results.Read.Blocks {
		for i, carcass := range block.Carcasses {
			if inClass[carcass.Class]++; inClass[carcass.Class] <= few {
				kept[carcass.Tag] = true
			} else {
				dropRow(block.Sheet, block.Lines[i])
			}
		}
	}
	path := filepath.Join(t.TempDir(), name)
	edit(t, from, path, func(file *excelize.File) {
		if rows, err := file.GetRows("Entries"); err == nil {
			for number, row := range rows {
				if len(row) > 1 && strings.Trim(row[0], "0123456789") == "" && row[0] != "" && !kept[row[0]] {
					dropRow("Entries", number+1)
				}
			}
		}
		for sheet, rows := range drop {
			for _, row := range slices.Backward(slices.Sorted(maps.Keys(rows))) {
				if err := file.RemoveRow(sheet, row); err != nil {
					t.Fatal(err)
				}
			}
		}
	})
	return path
}

// signedDemo grades a few carcasses of a demo, leaves out what is on hold, accepts what is to be looked at, and signs.
func signedDemo(t *testing.T, name string) string {
	t.Helper()
	outcome := gradedAgain(t, fewOfDemo(t, name, 3))
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

var manyEdits = flag.Int("edits", 0, "how many edits of signed workbooks are verified; 0: a fixed sample, or 500 with RAILBOOK_LONG set")

// Single edits of signed workbooks of three species, as LibreOffice and openpyxl save them: nearly every one is said by exactly
// its own cell, once, and none the wrong way round.
func TestEachEditIsSaidOnce(t *testing.T) {
	t.Parallel()
	edits := 12
	switch {
	case *manyEdits > 0:
		edits = *manyEdits
	case os.Getenv("RAILBOOK_LONG") != "":
		edits = 500
	case testing.Short():
		t.Skip("signs three demos and verifies each many times")
	}
	var signed, bases []string
	for _, name := range []string{"fair.xlsx", "swine.xlsx", "lamb.xlsx"} {
		signed = append(signed, signedDemo(t, name))
	}
	byLibreOffice := sheetstest.Resaved(t, "xlsx", signed...)
	byOpenpyxl := t.TempDir()
	python.Run(t, "import os, sys, openpyxl\nfor path in sys.argv[2:]:\n\topenpyxl.load_workbook(path).save(os.path.join(sys.argv[1], os.path.basename(path)))\n",
		append([]string{byOpenpyxl}, signed...)...)
	for number, path := range signed {
		bases = append(bases, byLibreOffice[number], filepath.Join(byOpenpyxl, filepath.Base(path)))
	}
	untouched := make([]map[Difference]bool, len(bases))
	for b, base := range bases {
		found, err := Verify(base, Options{})
		if err != nil {
			t.Fatal(err)
		}
		untouched[b] = make(map[Difference]bool)
		for _, difference := range found.Differences {
			untouched[b][difference] = true
			if !strings.Contains(difference.Message, "results are gone") {
				t.Errorf("%s was not touched, and verify says %v: %s", filepath.Base(base), difference.At, difference.Message)
			}
		}
	}
	var exact, named, wrongWay atomic.Int64
	planted, folder := make([]plantedEdit, edits), t.TempDir()
	var calculated []string
	for number := range edits {
		planted[number] = plantEdit(t, bases[number%len(bases)], filepath.Join(folder, fmt.Sprintf("%d.xlsx", number)), rand.New(rand.NewPCG(uint64(number), 2025)))
		if number%4 == 0 {
			calculated = append(calculated, planted[number].path)
		}
	}
	again := sheetstest.RecalculatedAll(t, calculated)
	for i, path := range again {
		planted[4*i].path = path
	}
	t.Run("edits", func(t *testing.T) {
		for number := range edits {
			t.Run(fmt.Sprint(number), func(t *testing.T) {
				t.Parallel()
				edit := verifiedEdit(t, planted[number], bases[number%len(bases)], untouched[number%len(bases)])
				for counter, counts := range map[*atomic.Int64]bool{&exact: edit.exact, &named: edit.named, &wrongWay: edit.wrongWay} {
					if counts {
						counter.Add(1)
					}
				}
			})
		}
	})
	t.Logf("of %d edits %d are said by exactly their own cell, %d by it among others, %d the wrong way round", edits, exact.Load(), named.Load()-exact.Load(), wrongWay.Load())
	if wrongWay.Load() > 0 {
		t.Errorf("%d edits are said the wrong way round", wrongWay.Load())
	}
	if edits < 100 { // too few for a share: each is named
		if int(named.Load()) < edits {
			t.Errorf("%d of %d edits are not named", edits-int(named.Load()), edits)
		}
	} else if 100*int(exact.Load()) < 95*edits {
		t.Errorf("%d of %d edits are said by exactly their own cell, want 95 of 100", exact.Load(), edits)
	}
}

// A heading or a title that is typed over is one line, though a whole column is read otherwise for it, or not at all; what
// nothing is read from is none.
func TestAnEditBesideTheDataIsOneLine(t *testing.T) {
	t.Parallel()
	from := filepath.Join(t.TempDir(), "fair.xlsx")
	edit(t, smallFair(t), from, func(file *excelize.File) {
		if err := file.InsertRows("Sheet1", 1, 2); err != nil {
			t.Fatal(err)
		}
		put(t, file, "Sheet1", "A1", "Lindgren County Fair 2025")
		put(t, file, "Sheet1", "A17", "Thanks to all who helped")
		if _, err := file.NewSheet("Notes"); err != nil {
			t.Fatal(err)
		}
		put(t, file, "Notes", "A1", "Ask the plant about the rail")
	})
	signed, err := Sign(gradedAgain(t, from).Path, "Hedda Quince", "2025-08-22", Options{})
	if err != nil {
		t.Fatal(err)
	}
	for name, row := range map[string]struct {
		sheet, cell string
		text        any
		want        string
	}{
		"a heading emptied":                     {"Sheet1", "E3", nil, "when signed and is gone."},
		"the heading of the tags":               {"Sheet1", "A3", "Pen 4", `and is now "Pen 4".`},
		"a heading of another measure":          {"Sheet1", "F3", "KPH %", `and is now "KPH %".`},
		"a heading in other words":              {"Sheet1", "E3", "Hot carcass wt, lb", `and is now "Hot carcass wt, lb".`},
		"the fair's title":                      {"Sheet1", "A1", "Otterbein County Fair", `"Lindgren County Fair 2025" when signed and is now "Otterbein County Fair".`},
		"a line that is said to be passed over": {"Sheet1", "A17", "Thanks to nobody", `and is now "Thanks to nobody".`},
		"a note that nothing is read from":      {"Notes", "A1", "Ask nobody", ""},
	} {
		t.Run(name, func(t *testing.T) {
			edited := filepath.Join(t.TempDir(), "edited.xlsx")
			edit(t, signed.Path, edited, func(file *excelize.File) { put(t, file, row.sheet, row.cell, row.text) })
			found, err := Verify(edited, Options{})
			if err != nil {
				t.Fatal(err)
			}
			switch {
			case row.want == "" && len(found.Differences) > 0:
				t.Errorf("said: %.600v", found.Differences)
			case row.want != "" && (len(found.Differences) != 1 || found.Differences[0].At != rules.Place{Sheet: row.sheet, Cell: row.cell} || !strings.Contains(found.Differences[0].Message, row.want)):
				t.Errorf("%d differences, want one of %s: %.600v", len(found.Differences), row.cell, found.Differences)
			}
		})
	}
}

// saidEdit is how an edit is said.
type saidEdit struct{ exact, named, wrongWay bool }

// plantedEdit is one edit of a signed workbook.
type plantedEdit struct {
	path string
	at   rules.Place
	is   string // what stands there now, and what stood there
	was  string
}

// plantEdit makes one edit of a signed workbook: a filled cell of any sheet that is seen gets a digit more, another number, a text, a
// formula, or nothing.
func plantEdit(t *testing.T, base, path string, random *rand.Rand) (each plantedEdit) {
	t.Helper()
	each.path = path
	edit(t, base, path, func(file *excelize.File) {
		sheets := slices.DeleteFunc(file.GetSheetList(), func(name string) bool { return name == record.StateSheet })
		each.at.Sheet = sheets[random.IntN(len(sheets))]
		each.at.Cell = filled(t, file, each.at.Sheet, random)
		each.was, _ = file.GetCellValue(each.at.Sheet, each.at.Cell)
		switch random.IntN(8) {
		case 0:
			each.is = "71"
			put(t, file, each.at.Sheet, each.at.Cell, 71)
		case 1:
			put(t, file, each.at.Sheet, each.at.Cell, nil)
		case 2:
			each.is = "5"
			put(t, file, each.at.Sheet, each.at.Cell, 5)
			if err := file.SetCellFormula(each.at.Sheet, each.at.Cell, "2+3"); err != nil {
				t.Fatal(err)
			}
		case 3:
			each.is = "not known"
			put(t, file, each.at.Sheet, each.at.Cell, each.is)
		default:
			each.is = each.was + "7"
			put(t, file, each.at.Sheet, each.at.Cell, each.is)
		}
	})
	return each
}

// verifiedEdit verifies an edited workbook. Of every line it says, what was is looked up in the signed workbook, and what is in
// the edited one.
func verifiedEdit(t *testing.T, planted plantedEdit, base string, untouched map[Difference]bool) (said saidEdit) {
	found, err := Verify(planted.path, Options{})
	if err != nil {
		t.Errorf("%v: %v", planted.at, err)
		return said
	}
	differences := slices.DeleteFunc(found.Differences, func(difference Difference) bool { return untouched[difference] })
	own := slices.ContainsFunc(differences, func(difference Difference) bool { return difference.At == planted.at })
	said.named = own || len(differences) == 0 && !ours(planted.at.Sheet) // a title or a remark of the fair's own that nothing is read from
	said.exact = said.named && len(differences) <= 1
	if !said.exact {
		t.Logf("%v, %.40q to %.40q: %d differences: %.400v", planted.at, planted.was, planted.is, len(differences), differences[:min(4, len(differences))])
	}
	signed, edited := openedCells(t, base), openedCells(t, planted.path)
	for _, difference := range differences {
		for _, wrong := range wrongWayRound(difference, signed, edited) {
			said.wrongWay = true
			t.Logf("%v, %.40q to %.40q: %v: %.120s: %.120s", planted.at, planted.was, planted.is, difference.At, difference.Message, wrong)
		}
	}
	return said
}

// cellTexts gives what a file keeps of a cell: its formula, its value, and the value as it is shown.
type cellTexts func(rules.Place) []string

func openedCells(t *testing.T, path string) cellTexts {
	t.Helper()
	file, err := excelize.OpenFile(path, excelize.Options{RawCellValue: true})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = file.Close() })
	return func(at rules.Place) (texts []string) {
		formula, _ := file.GetCellFormula(at.Sheet, at.Cell)
		raw, _ := file.GetCellValue(at.Sheet, at.Cell)
		shown, _ := file.GetCellValue(at.Sheet, at.Cell, excelize.Options{})
		return []string{formula, raw, shown}
	}
}

// quotedText finds the quoted texts of a difference.
var quotedText = regexp.MustCompile(`"(?:[^"\\]|\\.)*"`)

// wrongWayRound says where a difference claims of a cell what was not signed, or what it does not say now.
func wrongWayRound(difference Difference, signed, edited cellTexts) (wrong []string) {
	before, now, both := strings.Cut(difference.Message, " when signed and is ")
	if difference.At.Cell == "" || !both {
		return nil
	}
	said := func(words string, last bool) string {
		texts := quotedText.FindAllString(words, -1)
		if len(texts) == 0 {
			return ""
		}
		text := texts[0]
		if last {
			text = texts[len(texts)-1]
		}
		text, _ = strconv.Unquote(text)
		if strings.Contains(difference.Message, "the judge's decision") { // a decision says more than its cell
			if text, _, _ = strings.Cut(text, ", "); text == string(validate.Withdraw) {
				text = ""
			}
		}
		return text
	}
	check := func(text string, cells []string, what string) {
		for _, cell := range cells {
			if sameCached(strings.TrimPrefix(text, "="), cell, false) || sameFormula(text, cell) {
				return
			}
		}
		wrong = append(wrong, fmt.Sprintf("%s %q, and the cell says %q", what, text, cells))
	}
	if !strings.HasSuffix(before, "was not there") {
		check(said(before, true), signed(difference.At), "was")
	} else {
		check("", signed(difference.At)[1:2], "was")
	}
	if strings.HasPrefix(now, "gone") {
		check("", edited(difference.At)[1:2], "is gone")
	} else {
		check(said(now, false), edited(difference.At), "is")
	}
	return wrong
}

// ours reports whether a sheet is one of the program's.
func ours(sheet string) bool {
	return slices.Contains([]string{
		record.PlacingsSheet, record.ReasonsSheet, record.JudgeReviewSheet, record.ErrorLogSheet, record.SummarySheet,
		record.ValueGridSheet, record.ChangeSheet, record.RunRecordSheet,
	}, sheet)
}
