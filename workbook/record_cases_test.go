package workbook

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"railbook/validate"
	"railbook/workbook/record"
	"railbook/workbook/result"

	"github.com/xuri/excelize/v2"
)

// lastMoved gives what the last change of a kind is said to have moved.
func lastMoved(t *testing.T, outcome *Outcome, is string) string {
	t.Helper()
	for _, change := range slices.Backward(outcome.Results.Changes) {
		if change.Is == is {
			return change.Moved
		}
	}
	t.Fatalf("no change to %q among %v", is, outcome.Results.Changes)
	return ""
}

// A carcass taken out, or put in, moves the others: the record says by how many places, and whose dollars are gone or new.
func TestWhatCarcassesAddedAndRemovedMoved(t *testing.T) {
	first := gradedAgain(t, fairOf(t, 6))
	best := first.Results.Placings.Classes[0].Placed[0].Tag
	row := map[string]int{"A101": 2, "A102": 3, "A103": 4, "A104": 5, "A105": 6, "A106": 7}[best]
	out := t.TempDir() + "/out.xlsx"
	edit(t, first.Path, out, func(file *excelize.File) {
		if err := file.RemoveRow("Sheet1", row); err != nil {
			t.Fatal(err)
		}
	})
	removed := gradedAgain(t, out)
	said := lastMoved(t, removed, record.Removed)
	second := first.Results.Placings.Classes[0].Placed[1].Tag
	for _, want := range []string{best + " (" + first.Results.Placings.Classes[0].Class + "): value ", " to none, place 1 to not there", second + " (" + first.Results.Placings.Classes[0].Class + "): place 2 to 1"} {
		if !strings.Contains(said, want) {
			t.Errorf("no %q in what the removal moved: %s", want, said)
		}
	}
	in := t.TempDir() + "/in.xlsx"
	edit(t, removed.Path, in, func(file *excelize.File) {
		for column, value := range []any{"A199", first.Results.Placings.Classes[0].Class, "Exhibitor Z", 1230, 770, .31, 14.9, 2, 500, "A60"} {
			letters, _ := excelize.ColumnNumberToName(column + 1)
			put(t, file, "Sheet1", letters+"7", value)
		}
	})
	added := gradedAgain(t, in)
	if said := lastMoved(t, added, record.Added); !strings.Contains(said, "A199 (") || !strings.Contains(said, "value none to ") && !strings.Contains(said, "value $ none to ") || !strings.Contains(said, "place not there to ") {
		t.Errorf("what the addition moved: %s", said)
	}
}

// A price that the board changed is a line of the record, with the dollars of each carcass.
func TestAChangedRulebookSaysItsDollars(t *testing.T) {
	first := gradedAgain(t, fairOf(t, 6))
	edit(t, first.Path, first.Path, func(file *excelize.File) {
		rows, err := file.GetRows(record.ValueGridSheet)
		if err != nil {
			t.Fatal(err)
		}
		for number, row := range rows {
			if len(row) > 5 && row[0] == "base" {
				put(t, file, record.ValueGridSheet, "F"+strconv.Itoa(number+1), 250)
				return
			}
		}
		t.Fatal("no base price on the value grid")
	})
	second := gradedAgain(t, first.Path)
	at := slices.IndexFunc(second.Results.Changes, func(change record.Change) bool { return change.Who == inTheRulebook })
	if at < 0 {
		t.Fatal("the changed price is no change")
	}
	change := second.Results.Changes[at]
	if !strings.HasPrefix(change.Tag, "base price, beef") || change.Is != "250" || change.Was == "" {
		t.Errorf("the line says %s: %s to %s", change.Tag, change.Was, change.Is)
	}
	for _, want := range []string{"value of 6 carcasses, ", " dollars in all: ", "A101 (Light steers) ", "A106 (Heavy steers) "} {
		if !strings.Contains(change.Moved, want) {
			t.Errorf("no %q in what it moved: %s", want, change.Moved)
		}
	}
}

// The links of earlier changes lead to their cells where rows have moved since.
func TestTheLinksOfChangesFollowTheirRows(t *testing.T) {
	first := gradedAgain(t, fairOf(t, 6))
	edit(t, first.Path, first.Path, func(file *excelize.File) { put(t, file, "Sheet1", "E5", 783) })
	second := gradedAgain(t, first.Path)
	edit(t, second.Path, second.Path, func(file *excelize.File) {
		if err := file.InsertRows("Sheet1", 3, 1); err != nil {
			t.Fatal(err)
		}
		put(t, file, "Sheet1", "E3", "")
	})
	third := gradedAgain(t, second.Path)
	for _, change := range third.Results.Changes {
		if change.Is == "783" && change.At.Cell != "E6" {
			t.Errorf("the change is said to stand in %s", change.At.Cell)
		}
	}
}

// What was on hold before a correction is said to have been on hold; an accepted blank says what it cannot be placed by.
func TestHeldBeforeAndAcceptedWithoutAValue(t *testing.T) {
	path := fairOf(t, 6)
	edit(t, path, path, func(file *excelize.File) {
		put(t, file, "Sheet1", "G3", 136)
		put(t, file, "Sheet1", "F5", nil)
	})
	first := gradedAgain(t, path)
	decideCell(t, first.Path, "G3", validate.Correct, "13.6", "")
	decideCell(t, first.Path, "F5", validate.Accept, "", "not measured")
	second := gradedAgain(t, first.Path)
	if said := lastMoved(t, second, "13.6"); !strings.Contains(said, "A102 (Light steers): ") || !strings.Contains(said, "place on hold to ") {
		t.Errorf("what the correction moved: %s", said)
	}
	if got := reasonOf(t, second.Results, "A104"); !strings.HasPrefix(got, "accepted without ") || !strings.Contains(got, ", so it cannot be placed by ") {
		t.Errorf("the accepted blank says %q", got)
	}
	published, err := Publish(second.Path, Options{}, PublishOptions{})
	if err != nil {
		t.Fatal(err)
	}
	if words := flat(cardRows(t, published.Cards.Path)["Tag A102"]); !strings.Contains(words, "The judge corrected the ribeye area: 136 was written there before.") {
		t.Errorf("the card of the corrected carcass does not say so:\n%s", words)
	}
}

// A tag corrected to digits alone stays a text with its zero.
func TestATagOfDigitsStaysText(t *testing.T) {
	path := fairOf(t, 6)
	edit(t, path, path, func(file *excelize.File) { put(t, file, "Sheet1", "A4", "A102") })
	first := gradedAgain(t, path)
	decideCell(t, first.Path, "A4", validate.Correct, "0428", "")
	second := gradedAgain(t, first.Path)
	edit(t, second.Path, t.TempDir()+"/looked.xlsx", func(file *excelize.File) {
		kind, err := file.GetCellType("Sheet1", "A4")
		if value, _ := file.GetCellValue("Sheet1", "A4"); err != nil || value != "0428" || kind != excelize.CellTypeSharedString && kind != excelize.CellTypeInlineString {
			t.Errorf("the cell says %q, kind %v", value, kind)
		}
	})
	if !slices.ContainsFunc(second.Results.Carcasses, func(carcass *result.Result) bool { return carcass.Tag == "0428" }) {
		t.Error("no carcass has the tag")
	}
}

// The Change record taken out, and the record itself gone: said by name, never "nothing has changed", and signing refuses.
func TestADamagedResultsWorkbookIsSaidByName(t *testing.T) {
	path := fairOf(t, 6)
	first := gradedAgain(t, path)
	edit(t, first.Path, first.Path, func(file *excelize.File) { put(t, file, "Sheet1", "E5", 783) })
	second := gradedAgain(t, first.Path)
	for sheet, want := range map[string]string{record.ChangeSheet: "taken out", record.RunRecordSheet: "taken out", record.StateSheet: "gone"} {
		t.Run(sheet, func(t *testing.T) {
			damaged := t.TempDir() + "/damaged.xlsx"
			edit(t, second.Path, damaged, func(file *excelize.File) {
				if err := file.DeleteSheet(sheet); err != nil {
					t.Fatal(err)
				}
			})
			again := gradedAgain(t, damaged)
			said := slices.ContainsFunc(again.Results.Findings, func(finding validate.Finding) bool {
				return strings.Contains(finding.Message, sheet) && strings.Contains(finding.Message, want)
			})
			if !said || again.Same {
				t.Errorf("said: %v, nothing has changed: %v", said, again.Same)
			}
			if _, err := Sign(damaged, "Hedda Quince", "2025-08-22", Options{}); err == nil {
				t.Error("it is signed")
			}
			edit(t, again.Path, t.TempDir()+"/looked.xlsx", func(file *excelize.File) {
				if index, err := file.GetSheetIndex(sheet); err != nil || index < 0 {
					t.Error("it is not written again")
				}
			})
		})
	}
}

// A review sheet whose visible columns were sorted without the hidden ones is refused by what is visible.
func TestAReviewSortedWithoutItsKeysIsRefused(t *testing.T) {
	path := fairOf(t, 6)
	edit(t, path, path, func(file *excelize.File) {
		put(t, file, "Sheet1", "G3", 136)
		put(t, file, "Sheet1", "G6", 121)
	})
	first := gradedAgain(t, path)
	decideCell(t, first.Path, "G3", validate.Correct, "13.6", "")
	edit(t, first.Path, first.Path, func(file *excelize.File) {
		rows := map[string]reviewRow{}
		for _, row := range reviewRows(t, file) {
			rows[row.at(record.KeyCellColumn)] = row
		}
		row, other := rows["G3"], rows["G6"]
		for column := 1; column <= 14; column++ {
			letters, _ := excelize.ColumnNumberToName(column)
			a, b := letters+strconv.Itoa(row.number), letters+strconv.Itoa(other.number)
			was, _ := file.GetCellValue(record.JudgeReviewSheet, a)
			is, _ := file.GetCellValue(record.JudgeReviewSheet, b)
			put(t, file, record.JudgeReviewSheet, a, is)
			put(t, file, record.JudgeReviewSheet, b, was)
		}
	})
	second := gradedAgain(t, first.Path)
	for _, cell := range []string{"G3", "G6"} {
		for _, change := range second.Results.Changes {
			if change.At.Cell == cell {
				t.Errorf("%s was changed to %s", cell, change.Is)
			}
		}
	}
	if !slices.ContainsFunc(second.Results.Findings, func(finding validate.Finding) bool {
		return finding.Code == record.NotApplied && strings.Contains(finding.Message, "sorted without them")
	}) {
		t.Error("nothing is said of it")
	}
}
