package fair

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/address"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/record"
	"railbook/workbook/result"
	"railbook/workbook/sheets/kit"
	"railbook/workbook/sheets/sheetstest"
)

func openResults(t *testing.T, results *result.Results) *excelize.File {
	t.Helper()
	file, err := excelize.OpenReader(bytes.NewReader(writeAll(t, results)))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = file.Close() })
	return file
}

func TestJudgeWalksTheRailByClassAndTag(t *testing.T) {
	results := sheetstest.FairResults(t)
	results.Findings, results.Decisions = nil, nil
	for _, part := range [][2]string{{"B", "10"}, {"A", "7"}, {"B", "9"}, {"B", "2A"}} {
		results.Findings = append(results.Findings, validate.Finding{Level: validate.Look, Class: part[0], Tag: part[1], Code: "x"})
	}
	results.Findings = append(results.Findings, validate.Finding{Level: validate.Note, Class: "A", Tag: "1"})
	var order []string
	for _, row := range (&Writer{Results: results}).reviewRows() {
		order = append(order, row.finding.Class+row.finding.Tag)
	}
	if want := []string{"A7", "B9", "B10", "B2A"}; !slices.Equal(order, want) {
		t.Errorf("the rows come as %q", order)
	}
}

func TestOnlyInputCellsCanBeFilledIn(t *testing.T) {
	file := openResults(t, sheetstest.FairResults(t))
	unlocked := func(cell string) bool {
		id, err := file.GetCellStyle(record.JudgeReviewSheet, cell)
		if err != nil {
			t.Fatal(err)
		}
		look, err := file.GetStyle(id)
		if err != nil {
			t.Fatal(err)
		}
		return look.Protection != nil && !look.Protection.Locked && len(look.Fill.Color) > 0 && len(look.Border) == 4
	}
	row := fmt.Sprint(reviewHeadingRow + 1)
	for column := reviewClass; column < reviewKeys; column++ {
		cell := address.Column(column) + row
		if want := column >= reviewDecision && column < reviewState; unlocked(cell) != want {
			t.Errorf("cell %s: open, tinted and bordered %v, want %v", cell, !want, want)
		}
	}
	for column := reviewKeys; column < reviewKeys+len(reviewKeyHeadings); column++ {
		if visible, err := file.GetColVisible(record.JudgeReviewSheet, address.Column(column)); visible || err != nil {
			t.Errorf("key column %s is seen (%v)", address.Column(column), err)
		}
	}
}

func TestEntriesAreLimited(t *testing.T) {
	validations, err := openResults(t, sheetstest.FairResults(t)).GetDataValidations(record.JudgeReviewSheet)
	if err != nil {
		t.Fatal(err)
	}
	var decision, ribeye bool
	for _, validation := range validations {
		decision = decision || strings.Contains(validation.Formula1, "accept as is,correct to,leave out")
		// Hold limits of the ribeye area: below 4 and above 25 square inches (this project's decision).
		ribeye = ribeye || validation.Type == "decimal" && validation.Formula1 == "4" && validation.Formula2 == "25" && strings.HasPrefix(validation.Sqref, address.Column(reviewCorrected))
	}
	if !decision || !ribeye {
		t.Errorf("drop-down of decisions %v, limits of the ribeye area %v", decision, ribeye)
	}
}

func TestTiesLeftToTheJudgeAreAsked(t *testing.T) {
	results := sheetstest.FairResults(t)
	placed := results.Placings.Classes[1].Placed
	placed[2].Place, placed[3].Place = 3, 3
	placed[2].JudgeTie, placed[3].JudgeTie = true, true
	results.Rulings = []placing.Ruling{{Class: sheetstest.Heifers, Tag: "412", Place: 2, Reason: "too fat", Initials: "AB"}}
	lines := sheetLines(t, writeAll(t, results), record.JudgeReviewSheet)
	asked := fmt.Sprintf("Tied for place 3 with tag %s. The rule leaves it to you: give each its place.", placed[3].Tag)
	if lineWith(lines, placed[2].Tag, asked) == nil {
		t.Error("the tie is not asked")
	}
	if lineWith(lines, "412", record.PlaceCall, "2", "too fat") == nil {
		t.Error("the ruling is not kept")
	}
}

func TestRowsThatFollowOneAnotherAreOneSpan(t *testing.T) {
	if got := kit.RowSpans(11, []int{6, 7, 8, 10, 12, 13}); !slices.Equal(got, []string{"K6:K8", "K10", "K12:K13"}) {
		t.Errorf("got %q", got)
	}
}

func TestAMeasureWithoutLimitsTakesAnyNumber(t *testing.T) {
	lowest, highest := newReviewLimits(rules.Default()).of(rules.Beef, measure.LivePlacing)
	if lowest != "" || highest != "" {
		t.Errorf("limits %q and %q came from nowhere", lowest, highest)
	}
}

// LibreOffice does not wrap a linked cell: what is printed of it is its beginning.
func TestWhereBeginsWithTheCell(t *testing.T) {
	at := rules.Place{Sheet: "Beef carcass rail sheet", Cell: "D9"}
	if words := whereWords(at); words != "D9, Beef carcass rail sheet" {
		t.Errorf("the place is %q", words)
	}
	if words := whereWords(rules.Place{Sheet: "Kill sheet"}); words != "Kill sheet" {
		t.Errorf("the place without a cell is %q", words)
	}
}

// The sheet that every row is about is said once, and where they are of two, in each row. No word of a class is broken.
func TestTheOnlySheetIsSaidOnce(t *testing.T) {
	for _, second := range []string{"Kill sheet", "Scans"} {
		results := sheetstest.FairResults(t)
		results.Decisions, results.Findings = nil, []validate.Finding{
			{Level: validate.Look, Class: "ULTRASOUND STEERS", Tag: "7", At: rules.Place{Sheet: "Kill sheet", Cell: "D9"}},
			{Level: validate.Look, Class: "ULTRASOUND STEERS", Tag: "8", At: rules.Place{Sheet: second, Cell: "D10"}},
		}
		file := openResults(t, results)
		subtitle, _ := file.GetCellValue(record.JudgeReviewSheet, "A2")
		where, _ := file.GetCellValue(record.JudgeReviewSheet, "D6")
		wide, err := file.GetColWidth(record.JudgeReviewSheet, "A")
		if once := strings.HasSuffix(subtitle, "All stand on Kill sheet"); err != nil || once != (second == "Kill sheet") || once != (where == "D9") {
			t.Errorf("beside %s: %q, %q (%v)", second, subtitle, where, err)
		}
		if need := kit.WidthFor("ULTRASOUND", kit.Body); wide < need-0.01 {
			t.Errorf("the classes have %v of %v", wide, need)
		}
	}
}
