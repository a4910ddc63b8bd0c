package workbook

import (
	"flag"
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"
	"pgregory.net/rapid"

	"railbook/grading"
	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/address"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/intake"
	"railbook/workbook/record"
	"railbook/workbook/result"
	"railbook/workbook/sheets/sheetstest"
)

// slips are wrong cells of the small fair that are held, by column; each figure is invented.
var slips = map[string]struct {
	measure string
	wrong   any
}{
	"D": {"live weight", 130}, "E": {"hot carcass weight", 7800}, "F": {"measured fat", 4},
	"G": {"ribeye area", 136}, "H": {"kidney, pelvic and heart fat", 25}, "I": {"marbling", "S? 40"},
}

// A correction by decision gives the same figures and places as a workbook that had the right value from the start, and
// grading again with nothing changed writes nothing.
func TestCorrectionEqualsRightFromTheStart(t *testing.T) {
	if testing.Short() {
		t.Skip("thirty fairs graded three times over")
	}
	path := smallFair(t)
	right, err := Grade(path, Options{})
	if err != nil {
		t.Fatal(err)
	}
	want := figuresOf(right.Results)
	sheetstest.CheckSome(t, func(r *rapid.T) {
		folder := t.TempDir()
		wrong := fmt.Sprintf("%s/wrong.xlsx", folder)
		slipped := map[string]string{} // tag and measure → the right value
		edit(t, path, wrong, func(file *excelize.File) {
			for range rapid.IntRange(1, 3).Draw(r, "slips") {
				row := rapid.IntRange(2, 13).Draw(r, "row")
				column := rapid.SampledFrom([]string{"D", "E", "F", "G", "H", "I"}).Draw(r, "column")
				tag, _ := file.GetCellValue("Sheet1", fmt.Sprintf("A%d", row))
				cell := fmt.Sprintf("%s%d", column, row)
				if _, already := slipped[tag]; already {
					continue
				}
				value, _ := file.GetCellValue("Sheet1", cell)
				slipped[tag] = value
				put(t, file, "Sheet1", cell, slips[column].wrong)
				slipped[tag+slips[column].measure] = value
			}
		})
		first, err := Grade(wrong, Options{})
		if err != nil {
			r.Fatal(err)
		}
		decided := 0
		edit(t, first.Path, first.Path, func(file *excelize.File) { decided = correctAll(t, file, slipped) })
		second, err := Grade(first.Path, Options{Date: "2025-08-21"})
		if err != nil {
			r.Fatal(err)
		}
		if difference := cmp.Diff(want, figuresOf(second.Results)); difference != "" {
			r.Fatalf("%d decisions on %v (-right from the start +corrected):\n%s", decided, slipped, difference)
		}
		again, err := Grade(second.Path, Options{})
		if err != nil {
			r.Fatal(err)
		}
		if !again.Same {
			r.Fatalf("grading %s again was taken for a change", second.Path)
		}
	})
}

// correctAll gives each held slip its right value on the review sheet, and accepts whatever else is asked.
func correctAll(t *testing.T, file *excelize.File, slipped map[string]string) (decided int) {
	t.Helper()
	for _, row := range reviewRows(t, file) {
		if row.at(record.KeyRowColumn) != "finding" {
			continue
		}
		decision := map[string]string{record.InitialsColumn: "HQ", record.DecisionColumn: string(validate.Accept)}
		if value, ours := slipped[row.at("Tag")+row.at(record.KeyMeasureColumn)]; ours {
			decision[record.DecisionColumn], decision[record.CorrectedColumn] = string(validate.Correct), value
			decided++
		}
		row.write(decision)
	}
	return decided
}

// figuresOf lists every place and figure of the results, carcass by carcass.
func figuresOf(results *result.Results) map[string]string {
	list := make(map[string]string)
	add := func(class placing.ClassPlacing, graded *grading.Graded, place string) {
		words := place
		for _, column := range grading.Columns(class.Species, class.Basis) {
			value, _ := graded.Figure(column.Measure)
			words += " | " + value.Text
		}
		list[class.Class+" "+graded.Tag] = words
	}
	for _, class := range results.Placings.Classes {
		for _, placed := range class.Placed {
			add(class, placed.Graded, fmt.Sprint(placed.Place))
		}
		for _, notPlaced := range class.NotPlaced {
			add(class, notPlaced.Graded, notPlaced.Reason)
		}
	}
	return list
}

// Two carcasses with one tag: the one whose row the judge corrects gets the other tag, wherever the rows stand by then, and
// grading again does not correct the other one too.
func TestTagCorrectedOnOneOfTwo(t *testing.T) {
	orders := map[string]func([][]string) [][]string{
		"as they were": func(rows [][]string) [][]string { return rows },
		"a row above": func(rows [][]string) [][]string {
			return append([][]string{append([]string{"A200"}, rows[0][1:]...)}, rows...)
		},
		"turned round": func(rows [][]string) [][]string {
			turned := slices.Clone(rows)
			slices.Reverse(turned)
			return turned
		},
	}
	for name, order := range orders {
		t.Run(name, func(t *testing.T) {
			path := smallFair(t)
			edit(t, path, path, func(file *excelize.File) { put(t, file, "Sheet1", "A5", "A103") }) // it was A104, of Exhibitor D
			first, err := Grade(path, Options{})
			if err != nil {
				t.Fatal(err)
			}
			edit(t, first.Path, first.Path, func(file *excelize.File) {
				decideAt(t, file, "Sheet1", "A5", "A104")
				rows, err := file.GetRows("Sheet1")
				if err != nil {
					t.Fatal(err)
				}
				for number, row := range order(rows[1:13]) {
					for column, value := range row[:10] {
						cell := address.Cell(column+1, number+2)
						put(t, file, "Sheet1", cell, value)
					}
				}
			})
			second, err := Grade(first.Path, Options{})
			if err != nil {
				t.Fatal(err)
			}
			for _, carcass := range second.Results.Read.Carcasses {
				if carcass.Tag == "A104" != (carcass.ReadingOf(measure.Exhibitor).Value.Text == "Exhibitor D") {
					t.Errorf("tag %s is of %s", carcass.Tag, carcass.ReadingOf(measure.Exhibitor).Value.Text)
				}
			}
			moved := second.Results.Changes[len(second.Results.Changes)-1].Moved
			if !strings.Contains(moved, "A103 (Light steers): ") || !strings.Contains(moved, "A104 (Light steers): ") {
				t.Errorf("both carcasses were on hold, and the correction is said to have moved %s", moved)
			}
			third, err := Grade(second.Path, Options{})
			if err != nil {
				t.Fatal(err)
			}
			if !third.Same {
				t.Error("nothing was changed, and it was graded again")
			}
		})
	}
}

// decideAt corrects the finding at a cell.
func decideAt(t *testing.T, file *excelize.File, sheet, cell, value string) {
	t.Helper()
	for _, row := range reviewRows(t, file) {
		if row.at(record.KeyCellColumn) == cell && row.at(record.KeySheetColumn) == sheet {
			row.write(map[string]string{
				record.DecisionColumn: string(validate.Correct), record.CorrectedColumn: value, record.InitialsColumn: "HQ",
			})
			return
		}
	}
	t.Fatalf("nothing was found at %s of %s", cell, sheet)
}

// A decision about one sheet as a whole is not taken for one about another sheet that has the same said of it.
func TestDecisionStaysWithItsSheet(t *testing.T) {
	path := smallFair(t)
	edit(t, path, path, func(file *excelize.File) {
		put(t, file, "Sheet1", "E1", "Carcass wt") // hot or chilled, which each sheet is asked
		if _, err := file.NewSheet("Sheet2"); err != nil {
			t.Fatal(err)
		}
		rows, err := file.GetRows("Sheet1")
		if err != nil {
			t.Fatal(err)
		}
		for number, row := range rows {
			if number > 0 {
				row[0], row[1] = "B"+row[0], "Heifers"
			}
			for column, value := range row {
				cell := address.Cell(column+1, number+1)
				put(t, file, "Sheet2", cell, value)
			}
		}
	})
	first, err := Grade(path, Options{})
	if err != nil {
		t.Fatal(err)
	}
	edit(t, first.Path, first.Path, func(file *excelize.File) {
		decideAt(t, file, "Sheet2", "E1", "")
	})
	for path := first.Path; ; {
		again, err := Grade(path, Options{})
		if err != nil {
			t.Fatal(err)
		}
		for _, decision := range again.Results.Decisions {
			if decision.Found.Sheet != "Sheet2" {
				t.Fatalf("in %s the decision is said to be about %v", again.Path, decision.Found)
			}
		}
		if again.Same {
			return
		}
		path = again.Path
	}
}

// decideRow fills in the row of the finding at a cell, whatever stands there already.
func decideRow(t *testing.T, path, cell string, choice validate.Choice, value, remark string) {
	t.Helper()
	edit(t, path, path, func(file *excelize.File) {
		decideAt(t, file, "Sheet1", cell, "typed")
		cells, err := file.SearchSheet(record.JudgeReviewSheet, "typed")
		if err != nil || len(cells) != 1 {
			t.Fatalf("%v, %v", cells, err)
		}
		column, row, _ := excelize.CellNameToCoordinates(cells[0])
		for i, text := range []string{string(choice), value, "HQ", remark} {
			into := address.Cell(column-1+i, row)
			put(t, file, record.JudgeReviewSheet, into, text)
		}
	})
}

// reasonOf gives why a carcass has no place; empty where it has one.
func reasonOf(t *testing.T, results *result.Results, tag string) string {
	t.Helper()
	for _, class := range results.Placings.Classes {
		for _, notPlaced := range class.NotPlaced {
			if notPlaced.Tag == tag {
				return notPlaced.Reason
			}
		}
	}
	return ""
}

func gradedAgain(t *testing.T, path string) *Outcome {
	t.Helper()
	outcome, err := Grade(path, Options{Date: "2025-08-21"})
	if err != nil {
		t.Fatal(err)
	}
	return outcome
}

// What the judge leaves out stays out whether its finding is open, corrected, or gone because somebody retyped the cell, and
// takes part again when the decision is taken back.
func TestWhatTheJudgeLeavesOutStaysOut(t *testing.T) {
	path := smallFair(t)
	edit(t, path, path, func(file *excelize.File) { put(t, file, "Sheet1", "G5", 136) }) // of A104
	outcome := gradedAgain(t, path)
	if got := reasonOf(t, outcome.Results, "A104"); !strings.HasPrefix(got, "on hold: ") {
		t.Fatalf("before any decision: %q", got)
	}
	steps := []struct {
		name   string
		change func(path string)
		want   string
	}{
		{"corrected", func(path string) { decideRow(t, path, "G5", validate.Correct, "13.6", "") }, ""},
		{"left out after the correction", func(path string) { decideRow(t, path, "G5", validate.LeaveOut, "", "bruised") }, "left out by the judge (HQ): bruised"},
		{"retyped since", func(path string) {
			edit(t, path, path, func(file *excelize.File) { put(t, file, "Sheet1", "G5", 13.2) })
		}, "left out by the judge (HQ): bruised"},
		{"taken back in", func(path string) {
			edit(t, path, path, func(file *excelize.File) {
				cells, err := file.SearchSheet(record.JudgeReviewSheet, "bruised")
				if err != nil || len(cells) != 1 {
					t.Fatalf("%v, %v", cells, err)
				}
				column, row, _ := excelize.CellNameToCoordinates(cells[0])
				for i := range 4 {
					into := address.Cell(column-i, row)
					put(t, file, record.JudgeReviewSheet, into, "")
				}
			})
		}, ""},
	}
	for _, step := range steps {
		step.change(outcome.Path)
		outcome = gradedAgain(t, outcome.Path)
		if got := reasonOf(t, outcome.Results, "A104"); got != step.want {
			t.Fatalf("%s: %q, want %q", step.name, got, step.want)
		}
	}
}

// A correction is made about one value: where the cell says another one by now, it is left alone and the judge is asked.
func TestACorrectionIsNotPutOverAnotherValue(t *testing.T) {
	for retyped, want := range map[float64]struct {
		cell    string
		applied bool
	}{
		136:  {"13.6", true},  // what the decision is about
		13.6: {"13.6", true},  // somebody put the judge's value in already
		12.9: {"12.9", false}, // another value
	} {
		path := smallFair(t)
		edit(t, path, path, func(file *excelize.File) { put(t, file, "Sheet1", "G5", 136) })
		first := gradedAgain(t, path)
		decideRow(t, first.Path, "G5", validate.Correct, "13.6", "")
		edit(t, first.Path, first.Path, func(file *excelize.File) { put(t, file, "Sheet1", "G5", retyped) })
		second := gradedAgain(t, first.Path)
		if got := second.Results.Read.Carcasses[3].ReadingOf(measure.RibeyeArea).Written; got != want.cell {
			t.Errorf("retyped to %v, the cell says %s, want %s", retyped, got, want.cell)
		}
		if got := second.Results.Decisions[0].Applied; got != want.applied {
			t.Errorf("retyped to %v, the correction is applied: %v", retyped, got)
		}
		said := slices.ContainsFunc(second.Results.Findings, func(finding validate.Finding) bool { return finding.Code == record.NotApplied })
		if said == want.applied {
			t.Errorf("retyped to %v, that it was not applied is said: %v", retyped, said)
		}
	}
}

// The carcass that a decision is about: by class and tag, of several by the row it was made at, without a tag by the row alone.
func TestTheCarcassThatADecisionIsAbout(t *testing.T) {
	first := &grading.Carcass{Class: "Steers", Tag: "1"}
	twin := &grading.Carcass{Class: "Steers", Tag: "1", Sequence: 1}
	heifer := &grading.Carcass{Class: "Heifers", Tag: "1", Sequence: 2}
	nameless := &grading.Carcass{Class: "Steers", Sequence: 3}
	read := &intake.Result{
		Carcasses: []*grading.Carcass{first, twin, heifer, nameless},
		Blocks: []intake.Block{{
			Sheet: "Rail", Carcasses: []*grading.Carcass{first, twin, heifer, nameless},
			Lines: []int{2, 3, 4, 5},
		}},
	}
	for name, row := range map[string]struct {
		class, tag string
		at         rules.Place
		want       *grading.Carcass
	}{
		"its own row":            {"Steers", "1", rules.Place{Sheet: "Rail", Cell: "G3"}, twin},
		"the first of two":       {"Steers", "1", rules.Place{Sheet: "Rail", Cell: "G2"}, first},
		"a row of another sheet": {"Steers", "1", rules.Place{Sheet: "Scans", Cell: "G3"}, first},
		"another class":          {"Heifers", "1", rules.Place{Sheet: "Rail", Cell: "G3"}, heifer},
		"no such tag":            {"Steers", "2", rules.Place{Sheet: "Rail", Cell: "G3"}, nil},
		"no tag, its row":        {"Steers", "", rules.Place{Sheet: "Rail", Cell: "G5"}, nameless},
		"no tag, another row":    {"Steers", "", rules.Place{Sheet: "Rail", Cell: "A1"}, nil},
	} {
		if got := carcassOf(read, &validate.Decision{Class: row.class, Tag: row.tag, Found: row.at}); got != row.want {
			t.Errorf("%s: %v", name, got)
		}
	}
}

// decideCell fills in or clears the row of the Judge review sheet that is about a cell.
func decideCell(t *testing.T, path, cell string, choice validate.Choice, value, remark string) {
	t.Helper()
	edit(t, path, path, func(file *excelize.File) {
		for _, row := range reviewRows(t, file) {
			if row.at(record.KeyCellColumn) != cell {
				continue
			}
			initials := "HQ"
			if choice == "" {
				initials = ""
			}
			row.write(map[string]string{
				record.DecisionColumn: string(choice), record.CorrectedColumn: value, record.InitialsColumn: initials, record.RemarkColumn: remark,
			})
			return
		}
		t.Fatalf("%s: no row is about cell %s", path, cell)
	})
}

// decidedCell is what a judge has last decided about a slip.
type decidedCell struct {
	choice        validate.Choice
	value, remark string
}

var manySequences = flag.Int("sequences", 0, "how many random sequences of decisions are made; 0: a fixed sample, or 300 with RAILBOOK_LONG set")

// Whatever a judge decides about slips, in whatever order and over however many gradings, the results are those of a workbook
// that had the right values from the start, and the same decisions about what was not corrected.
func TestDecisionsInAnyOrder(t *testing.T) {
	sequences := 4
	switch {
	case *manySequences > 0:
		sequences = *manySequences
	case os.Getenv("RAILBOOK_LONG") != "":
		sequences = 300
	case testing.Short():
		sequences = 2
	}
	right := fairOf(t, carcassesDecided)
	for seed := range sequences {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			t.Parallel()
			decideInOrder(t, right, rand.New(rand.NewPCG(uint64(seed), 2025)))
		})
	}
}

// carcassesDecided is how many carcasses a fair has whose judge decides at random.
const carcassesDecided = 6

// decideInOrder plays a judge who decides about a few slips in any order and changes their mind.
func decideInOrder(t *testing.T, right string, random *rand.Rand) {
	folder := t.TempDir()
	wrong := filepath.Join(folder, "wrong.xlsx")
	cells := map[string]string{} // the right value of each slip
	edit(t, right, wrong, func(file *excelize.File) {
		for _, row := range random.Perm(carcassesDecided)[:1+random.IntN(3)] {
			column := []string{"F", "G", "H", "I"}[random.IntN(4)]
			cell := fmt.Sprintf("%s%d", column, row+2)
			cells[cell], _ = file.GetCellValue("Sheet1", cell)
			put(t, file, "Sheet1", cell, slips[column].wrong)
		}
	})
	names := slices.Sorted(maps.Keys(cells))
	path := gradedAgain(t, wrong).Path
	decided := map[string]decidedCell{}
	var story []string
	for range 3 + random.IntN(5) {
		cell := names[random.IntN(len(names))]
		decision := []decidedCell{
			{validate.Correct, cells[cell], ""},
			{validate.Correct, otherValue(cells[cell]), ""},
			{validate.LeaveOut, "", "bruised"},
			{validate.Accept, "", "measured twice"},
			{},
		}[random.IntN(5)]
		story = append(story, fmt.Sprint(cell, " ", decision))
		decideCell(t, path, cell, decision.choice, decision.value, decision.remark)
		decided[cell] = decision
		path = gradedAgain(t, path).Path
	}
	outcome := gradedAgain(t, path)
	if !outcome.Same {
		t.Errorf("%v: graded again with nothing changed, it is not the same", story)
	}
	start := filepath.Join(folder, "start.xlsx")
	edit(t, wrong, start, func(file *excelize.File) {
		for cell, decision := range decided {
			if decision.choice != validate.Correct {
				continue
			}
			if number, err := strconv.ParseFloat(decision.value, 64); err == nil {
				put(t, file, "Sheet1", cell, number)
			}
		}
	})
	want := gradedAgain(t, start)
	for _, cell := range slices.Sorted(maps.Keys(decided)) {
		if decision := decided[cell]; decision.choice == validate.LeaveOut || decision.choice == validate.Accept {
			decideCell(t, want.Path, cell, decision.choice, "", decision.remark)
		}
	}
	want = gradedAgain(t, want.Path)
	if difference := cmp.Diff(figuresOf(want.Results), figuresOf(outcome.Results)); difference != "" {
		t.Errorf("%v (-right from the start +decided):\n%s", story, difference)
	}
}

// otherValue is another true value.
func otherValue(value string) string {
	number, err := decimal.NewFromString(value)
	if err != nil {
		return value
	}
	return number.Mul(decimal.RequireFromString("1.04")).Round(2).String()
}
