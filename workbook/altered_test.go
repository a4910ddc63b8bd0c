package workbook

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"railbook/workbook/record"

	"github.com/xuri/excelize/v2"
)

// alteredSaid gives what is said of sheets that were changed by hand.
func alteredSaid(outcome *Outcome) string {
	var words []string
	for _, finding := range outcome.Results.Findings {
		if finding.Code == record.SheetAltered {
			words = append(words, finding.Message)
		}
	}
	return strings.Join(words, "\n")
}

// What somebody typed over in cells that the program writes is said by sheet and cell and written again, in a workbook that is
// otherwise unchanged too; what people are to fill in is theirs.
func TestCellsOfOursTypedOverAreSaidAndWrittenAgain(t *testing.T) {
	first := gradedAgain(t, smallFair(t))
	heading := func(t *testing.T, file *excelize.File, text string) string {
		cells, err := file.SearchSheet("Sheet1", text)
		if err != nil || len(cells) != 1 {
			t.Fatalf("%v, %v", cells, err)
		}
		return strings.TrimRight(cells[0], "0123456789")
	}
	rowOf := func(t *testing.T, file *excelize.File, sheet, text string) (cell string) {
		cells, err := file.SearchSheet(sheet, text)
		if err != nil || len(cells) == 0 {
			t.Fatalf("%s: %v, %v", text, cells, err)
		}
		return cells[0]
	}
	for name, row := range map[string]struct {
		change func(t *testing.T, file *excelize.File) (at string)
		sheet  string
		words  string
	}{
		"a live formula": {func(t *testing.T, file *excelize.File) string {
			return strings.Fields(put(t, file, "Sheet1", heading(t, file, "Yield grade")+"5", 1.1))[0]
		}, "Sheet1", "computed cell % was typed over"},
		"another formula of the same result": {func(t *testing.T, file *excelize.File) string {
			cell := heading(t, file, "Yield grade") + "5"
			result, _ := file.GetCellValue("Sheet1", cell, excelize.Options{RawCellValue: true})
			if err := file.SetCellFormula("Sheet1", cell, "ROUND("+result+",6)"); err != nil {
				t.Fatal(err)
			}
			return cell
		}, "Sheet1", "computed cell % was typed over"},
		"a formula that reads the row below": {func(t *testing.T, file *excelize.File) string {
			cell := heading(t, file, "Dressing %") + "5"
			formula, _ := file.GetCellFormula("Sheet1", heading(t, file, "Dressing %")+"6")
			if err := file.SetCellFormula("Sheet1", cell, formula); err != nil || formula == "" {
				t.Fatal(formula, err)
			}
			return cell
		}, "Sheet1", "computed cell % was typed over"},
		"a column put in before ours": {func(t *testing.T, file *excelize.File) string {
			if err := file.InsertCols("Sheet1", "F", 1); err != nil {
				t.Fatal(err)
			}
			return ""
		}, "Sheet1", ""},
		"a place": {func(t *testing.T, file *excelize.File) string {
			return strings.Fields(put(t, file, "Sheet1", heading(t, file, "Place")+"6", 1))[0]
		}, "Sheet1", "computed cell % was typed over"},
		"a computed cell deleted": {func(t *testing.T, file *excelize.File) string {
			return strings.Fields(put(t, file, "Sheet1", heading(t, file, "Dressing %")+"7", nil))[0]
		}, "Sheet1", "computed cell % was typed over"},
		"a heading": {func(t *testing.T, file *excelize.File) string {
			return strings.Fields(put(t, file, "Sheet1", heading(t, file, "Place")+"1", "Rank"))[0]
		}, "Sheet1", "computed cell % was typed over"},
		"a draft reason": {func(t *testing.T, file *excelize.File) string {
			cell := rowOf(t, file, record.ReasonsSheet, "A101")
			return strings.TrimLeft(strings.Fields(put(t, file, record.ReasonsSheet, "D"+strings.TrimLeft(cell, "ABC"), "By far the best."))[0], "D")
		}, record.ReasonsSheet, "row % was changed"},
		"the rows of the review": {func(t *testing.T, file *excelize.File) string {
			put(t, file, record.JudgeReviewSheet, "A3", "Fill in nothing.")
			return "3"
		}, record.JudgeReviewSheet, "row % was changed"},
		"the judge's words": {func(t *testing.T, file *excelize.File) string {
			cell := rowOf(t, file, record.ReasonsSheet, "A101")
			put(t, file, record.ReasonsSheet, "E"+strings.TrimLeft(cell, "ABC"), "By far the best.")
			return ""
		}, record.ReasonsSheet, ""},
		"the judge's initials": {func(t *testing.T, file *excelize.File) string {
			put(t, file, record.JudgeReviewSheet, "K4", "HQ")
			return ""
		}, record.JudgeReviewSheet, ""},
		"a value in the data": {func(t *testing.T, file *excelize.File) string {
			put(t, file, "Sheet1", "E5", 791)
			return ""
		}, "Sheet1", ""},
		"two rows of the data exchanged, with ours": {func(t *testing.T, file *excelize.File) string {
			rows, err := file.GetRows("Sheet1")
			if err != nil {
				t.Fatal(err)
			}
			for column := range rows[0] {
				letters, _ := excelize.ColumnNumberToName(column + 1)
				exchangeCells(t, file, "Sheet1", letters+"3", letters+"9")
			}
			return ""
		}, "Sheet1", ""},
	} {
		t.Run(name, func(t *testing.T) {
			edited := t.TempDir() + "/edited.xlsx"
			at := ""
			edit(t, first.Path, edited, func(file *excelize.File) { at = row.change(t, file) })
			again := gradedAgain(t, edited)
			said := alteredSaid(again)
			want := strings.ReplaceAll(row.words, "%", at)
			switch {
			case want == "" && said != "":
				t.Fatalf("said: %s", said)
			case want == "":
				return
			case !strings.Contains(said, want) || !strings.Contains(said, row.sheet):
				t.Fatalf("want %q of sheet %q, and said is: %s", want, row.sheet, said)
			case again.Same:
				t.Fatal("nothing is said to have changed")
			}
			if _, err := Sign(edited, "Hedda Quince", "2025-08-22", Options{}); err == nil || !strings.Contains(err.Error(), want) {
				t.Errorf("signing is not refused for it: %v", err)
			}
			if once := gradedAgain(t, again.Path); !once.Same {
				t.Errorf("written again, it is not the same: %s", alteredSaid(once))
			}
		})
	}
}

// What every page says of the fair follows its own sheet: a title retyped in the results is graded in, though no figure changes,
// and until then they are neither signed nor published; nor is a signed workbook with another title.
func TestTheHeadOfThePagesFollowsTheSheet(t *testing.T) {
	t.Parallel()
	from := t.TempDir() + "/fair.xlsx"
	titled := func(from, to, title string) {
		edit(t, from, to, func(file *excelize.File) { put(t, file, "Sheet1", "A1", title) })
	}
	edit(t, smallFair(t), from, func(file *excelize.File) {
		if err := file.InsertRows("Sheet1", 1, 2); err != nil {
			t.Fatal(err)
		}
	})
	titled(from, from, "Lindgren County Fair 2025")
	first := gradedAgain(t, from)
	if again := gradedAgain(t, first.Path); !again.Same {
		t.Error("graded again as it is, it is not the same")
	}
	retitled := t.TempDir() + "/retitled.xlsx"
	titled(first.Path, retitled, "Otterbein County Fair 2025")
	if _, err := Sign(retitled, "Hedda Quince", "2025-08-22", Options{}); err == nil || !strings.Contains(err.Error(), "above the headings") {
		t.Errorf("signing is not refused: %v", err)
	}
	again := gradedAgain(t, retitled)
	if again.Same {
		t.Fatal("nothing is said to have changed")
	}
	signed, err := Sign(again.Path, "Hedda Quince", "2025-08-22", Options{})
	if err != nil {
		t.Fatal(err)
	}
	titled(signed.Path, retitled, "Lindgren County Fair 2025")
	if _, err := Publish(retitled, Options{}, PublishOptions{}); err == nil || !strings.Contains(err.Error(), "no longer as it was signed") {
		t.Errorf("publishing is not refused: %v", err)
	}
}

// exchangeCells puts into each of two cells of a column what stands in the other one; a formula reads its own row, as after sorting.
func exchangeCells(t *testing.T, file *excelize.File, sheet, a, b string) {
	t.Helper()
	var values, formulas [2]string
	var numbers [2]bool
	for i, cell := range []string{a, b} {
		values[i], _ = file.GetCellValue(sheet, cell)
		formulas[i], _ = file.GetCellFormula(sheet, cell)
		kind, _ := file.GetCellType(sheet, cell)
		numbers[i] = kind == excelize.CellTypeUnset || kind == excelize.CellTypeNumber
	}
	rowOf := func(cell string) string { return strings.TrimLeft(cell, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") }
	for i, cell := range []string{b, a} {
		var err error
		reads := regexp.MustCompile(`\b([A-Z]{1,2})` + rowOf([]string{a, b}[i]) + `\b`)
		formulas[i] = reads.ReplaceAllString(formulas[i], "${1}"+rowOf(cell))
		formulas[i] = strings.ReplaceAll(formulas[i], "Value grid!", "'Value grid'!") // the library drops the quotes
		switch {
		case formulas[i] != "":
			err = file.SetCellFormula(sheet, cell, formulas[i])
		case values[i] == "":
			err = file.SetCellValue(sheet, cell, nil)
		case numbers[i]:
			err = file.SetCellDefault(sheet, cell, values[i])
		default:
			err = file.SetCellStr(sheet, cell, values[i])
		}
		if err != nil {
			t.Fatal(err)
		}
	}
}

// Which computed cells of a row were typed over: by the signs of the row as it was written and as it stands.
func TestComputedCellsAreToldApart(t *testing.T) {
	row := func(cells ...record.ViewCell) string {
		view := record.View{Mark: record.ColumnsMark + "1"}
		view.AddCells(1, 3, cells)
		return view.Row(1)
	}
	live, place := record.ViewCell{Column: 1, Formula: true}, record.ViewCell{Column: 3, Text: "4"}
	was := row(live, place)
	for name, test := range map[string]struct {
		is   string
		want []int
	}{
		"as it was":                 {row(live, place), nil},
		"a number as another text":  {row(live, record.ViewCell{Column: 3, Text: "4.0"}), nil},
		"another number":            {row(live, record.ViewCell{Column: 3, Text: "5"}), []int{3}},
		"a value over the formula":  {row(record.ViewCell{Column: 1, Text: "3.1"}, place), []int{1}},
		"a formula over the number": {row(live, record.ViewCell{Column: 3, Formula: true}), []int{3}},
		"a formula of a known form": {row(record.ViewCell{Column: 1, Formula: true, Form: "A[0]+B[0]"}, place), nil},
		"in a blank cell":           {row(live, record.ViewCell{Column: 2, Text: "x"}, place), []int{2}},
		"all taken out":             {row(), []int{1, 3}},
	} {
		if got := record.CellsChanged(was, test.is); !slices.Equal(got, test.want) {
			t.Errorf("%s: %v, want %v", name, got, test.want)
		}
	}
}
