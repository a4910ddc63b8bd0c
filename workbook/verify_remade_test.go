package workbook

import (
	"iter"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"railbook/rules/measure"
	"railbook/workbook/record"
	"railbook/workbook/result"
	"railbook/workbook/sheets/fair"
)

// forged signs results as Sign does, and says something else in what it writes: as somebody would who knows all that the program
// does. Where the forgery leaves the seal, it is made to fit.
func forged(t *testing.T, graded string, forge func(results *result.Results)) (path string) {
	t.Helper()
	work, err := examine(graded, Options{Date: "2025-08-22"})
	if err != nil {
		t.Fatal(err)
	}
	if work.results.Written, err = work.besideData(); err != nil {
		t.Fatal(err)
	}
	work.results.Hidden = hiddenIn(work.results.Read.Findings)
	work.stamp("Hedda Quince", "2025-08-22")
	seal := work.results.Run.Seal
	if forge(work.results); work.results.Run.Seal == seal {
		work.results.Run.Seal = work.results.State().Seal()
	}
	if err := fair.Write(work.results); err != nil {
		t.Fatal(err)
	}
	path = filepath.Join(t.TempDir(), "forged.xlsx")
	if _, err := work.save(path); err != nil {
		t.Fatal(err)
	}
	return path
}

// withOutcome gives the outcomes with the first of an item changed.
func withOutcome(outcomes iter.Seq[record.SealedLine], item, value string) iter.Seq[record.SealedLine] {
	lines := slices.Collect(outcomes)
	at := slices.IndexFunc(lines, func(line record.SealedLine) bool { return line.Item == item })
	lines[at].Value = value
	return slices.Values(lines)
}

// A record that says what was not read, or what was not computed, is found by making the results again, though all of its sums and its
// seal are right; and a seal that was taken over nothing is found though all else is.
func TestARecordThatFitsItsSealIsNotBelieved(t *testing.T) {
	settled := settledFair(t)
	for about, forgery := range map[string]struct {
		forge func(results *result.Results)
		said  string
	}{
		"a reading": {func(results *result.Results) {
			first := results.Read.Carcasses[0]
			reading, _ := first.Written(measure.HotCarcassWeight)
			reading.Written, reading.Value = "777", measure.Value{Number: decimal.NewFromInt(777), Text: "777"}
			first.SetReading(measure.HotCarcassWeight, reading)
		}, `was "777" when signed`},
		"a figure": {func(results *result.Results) {
			results.Outcomes = withOutcome(results.Outcomes, measure.YieldGrade.String(), "1.01")
		}, `is sealed as "1.01"`},
		"a place":           {func(results *result.Results) { results.Outcomes = withOutcome(results.Outcomes, "place", "9") }, `is sealed as "9"`},
		"a seal of nothing": {func(results *result.Results) { results.Run.Seal = strings.Repeat("0", len(results.Run.Seal)) }, "the seal does not fit"},
		"nothing":           {func(*result.Results) {}, "nothing has changed"},
	} {
		t.Run(about, func(t *testing.T) {
			found, err := Verify(forged(t, settled, forgery.forge), Options{})
			if err != nil {
				t.Fatal(err)
			}
			if report := found.Report(); len(found.Differences) == 0 && about != "nothing" || !strings.Contains(strings.Join(strings.Fields(report), " "), forgery.said) {
				t.Error(report)
			}
		})
	}
}
