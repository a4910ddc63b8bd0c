package fair

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/intake"
	"railbook/workbook/record"
	"railbook/workbook/result"
	"railbook/workbook/sheets/sheetstest"
	"railbook/workbook/xlsx"
)

// writeAll writes every sheet of ours into a new workbook and gives its bytes.
func writeAll(t sheetstest.Tester, results *result.Results) []byte {
	t.Helper()
	into := *results
	into.Book = sheetstest.BlankBook(t)
	into.Gather() // a test may have changed what was found, or who has an award
	if err := Write(&into); err != nil {
		t.Fatal(err)
	}
	data, err := into.Book.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func readBack(t sheetstest.Tester, data []byte) *intake.Previous {
	t.Helper()
	book, err := xlsx.OpenBytes("fair-results.xlsx", data, xlsx.OpenOptions{})
	if err != nil {
		t.Fatal(err)
	}
	previous, err := intake.ReadPrevious(book)
	if err != nil {
		t.Fatal(err)
	}
	if previous == nil {
		t.Fatal("the workbook was not known as one of ours")
	}
	return previous
}

// sameAsWritten compares what was read back with what was written. Where a decision stands and in what order is the
// sheet's own business. The columns beside the data are as the record describes them.
func sameAsWritten(results *result.Results, previous *intake.Previous) string {
	for b := range previous.Beside {
		block := &previous.Beside[b]
		for number := range max(len(block.Was.Rows), block.HeadingAt) {
			if was, is := block.Was.Row(number+1), block.Row(number+1, nil); was != is {
				return fmt.Sprintf("row %d of the columns beside the data was %q and is %q", number+1, was, is)
			}
		}
	}
	want := &intake.Previous{
		Readings: intake.Records(results.Read), Decisions: results.Decisions, Rulings: results.Rulings, Reasons: results.Reasons,
		Changes: results.Changes, Run: results.Run, Kept: results.Decisions,
	}
	return cmp.Diff(want, previous,
		cmpopts.IgnoreFields(validate.Decision{}, "At"), cmpopts.IgnoreFields(intake.Previous{}, "Rulebook", "Sealed", "Asked", "GradedBy", "Beside", "Compared", "KeptRulings", "KeptReasons"), cmpopts.EquateEmpty(),
		cmpopts.SortSlices(func(a, b validate.Decision) bool { return decisionKey(a) < decisionKey(b) }),
		cmpopts.SortSlices(func(a, b placing.Ruling) bool { return fmt.Sprint(a) < fmt.Sprint(b) }))
}

func decisionKey(decision validate.Decision) string {
	decision.At = rules.Place{}
	return fmt.Sprintf("%q", fmt.Sprint(decision))
}

func TestWhatIsWrittenIsReadBack(t *testing.T) {
	results := sheetstest.FairResults(t)
	results.Decisions[2].Message = "The judge's own call." // the words every call gets
	results.Rulings = []placing.Ruling{
		{Class: sheetstest.Heifers, Tag: "410", Place: 2, Initials: "AB", Date: "2025-07-10"},
		{Class: sheetstest.Heifers, Tag: "411", Place: 3, Initials: "AB"},
		{Class: sheetstest.Steers, Tag: "405", Place: 1, Reason: "The best balanced carcass", Initials: "AB"},
	}
	previous := readBack(t, writeAll(t, results))
	if diff := sameAsWritten(results, previous); diff != "" {
		t.Error(diff)
	}
	book, faults := rules.Load(previous.Rulebook)
	if book == nil || book.SHA256 != results.Rules.SHA256 {
		t.Errorf("the rulebook is not the one that was written: %v", faults)
	}
}

// Whatever people write, nothing of it is lost or altered on the way through the workbook.
func TestAnyDecisionsAreReadBack(t *testing.T) {
	if testing.Short() {
		t.Skip("writes and reads thirty workbooks")
	}
	sheetstest.CheckSome(t, func(t *rapid.T) {
		results := sheetstest.FairResults(t)
		results.Reasons = map[string]string{}
		word := rapid.StringOfN(rapid.RuneFrom([]rune("aZ09 .,;:=+-@'\"&<>éß½–#/")), 1, 12, -1).Filter(func(s string) bool { return strings.TrimSpace(s) == s })
		for range rapid.IntRange(0, 5).Draw(t, "reasons") {
			animal := rapid.SampledFrom(sheetstest.Animals).Draw(t, "animal")
			results.Reasons[animal.Class+"\t"+animal.Tag] = word.Draw(t, "words")
		}
		results.Decisions = drawDecisions(t, word)
		results.Findings = nil
		results.Changes = drawChanges(t, word)
		results.Run.Revision = rapid.IntRange(1, 40).Draw(t, "revision")
		results.Run.InputName = word.Draw(t, "name")
		if diff := sameAsWritten(results, readBack(t, writeAll(t, results))); diff != "" {
			t.Fatal(diff)
		}
	})
}

func drawDecisions(t *rapid.T, word *rapid.Generator[string]) []validate.Decision {
	var decisions []validate.Decision
	for range rapid.IntRange(0, 6).Draw(t, "decisions") {
		animal := rapid.SampledFrom(sheetstest.Animals).Draw(t, "animal")
		decision := validate.Decision{
			Tag: animal.Tag, Class: animal.Class, Measure: rapid.SampledFrom([]measure.ID{measure.RibeyeArea, measure.AdjustedFat, measure.HotCarcassWeight}).Draw(t, "measure"),
			Code: word.Draw(t, "code"), Was: word.Draw(t, "was"), Initials: word.Draw(t, "initials"), Remark: word.Draw(t, "remark"),
			Date: rapid.SampledFrom([]string{"", "2025-07-10", "July 10"}).Draw(t, "date"), Found: rules.Place{Sheet: "Kill sheet", Cell: "F9"},
			Level: rapid.SampledFrom([]validate.Level{validate.Hold, validate.Look}).Draw(t, "level"), Message: word.Draw(t, "message"),
			Choice: rapid.SampledFrom([]validate.Choice{validate.Accept, validate.LeaveOut, validate.Correct}).Draw(t, "choice"),
		}
		if decision.Choice == validate.Correct {
			decision.Value = rapid.SampledFrom([]string{"13.6", ".45", "812"}).Draw(t, "value")
			decision.Applied = rapid.Bool().Draw(t, "applied")
		}
		decisions = append(decisions, decision)
	}
	return decisions
}

func drawChanges(t *rapid.T, word *rapid.Generator[string]) []record.Change {
	var changes []record.Change
	for range rapid.IntRange(0, 4).Draw(t, "changes") {
		changes = append(changes, record.Change{
			At: rules.Place{Sheet: "Kill sheet", Cell: "F9"}, Class: word.Draw(t, "class"), Tag: word.Draw(t, "tag"), Measure: measure.RibeyeArea,
			Was: word.Draw(t, "was"), Is: word.Draw(t, "is"), Who: word.Draw(t, "who"), When: word.Draw(t, "when"), Moved: word.Draw(t, "moved"),
		})
	}
	return changes
}
