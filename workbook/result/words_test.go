package result

import (
	"strings"
	"testing"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/record"

	"github.com/shopspring/decimal"
)

// A provisional workbook says what is open, and not what is settled or noted; a signed one whose it is.
func TestTheStatusSaysWhatIsOpen(t *testing.T) {
	settled := &validate.Decision{Choice: validate.Accept}
	results := &Results{Rules: rules.Default(), Findings: []validate.Finding{
		{Level: validate.Hold},
		{Level: validate.Hold},
		{Level: validate.Hold, Settled: settled},
		{Level: validate.Look},
		{Level: validate.Look, Settled: settled},
		{Level: validate.Look, Settled: settled},
		{Level: validate.Note},
	}}
	if words := results.StatusWords(); !strings.Contains(words, "2 findings on hold and 1 to look at open") || results.Status() != record.Provisional {
		t.Errorf("%s: %s", results.Status(), words)
	}
	results.Run.Status, results.Run.Judge = record.Signed, "Hedda Quince"
	if words := results.StatusWords(); !strings.HasPrefix(words, "Signed by Hedda Quince") || results.Status() != record.Signed {
		t.Errorf("%s: %s", results.Status(), words)
	}
}

// Only a value past what is possible that the judge accepted is listed.
func TestWhatWasAcceptedBeyondThePossible(t *testing.T) {
	of := func(beyond bool, choice validate.Choice) validate.Finding {
		return validate.Finding{Beyond: beyond, Settled: &validate.Decision{Choice: choice}}
	}
	findings := []validate.Finding{of(true, validate.Accept), of(false, validate.Accept), of(true, validate.Correct), {Beyond: true}}
	if accepted := AcceptedBeyond(findings); len(accepted) != 1 || accepted[0] != &findings[0] {
		t.Errorf("%d are listed", len(accepted))
	}
}

// One carcass has a mean, its own figure; none has none.
func TestMeanOfOneAndOfNone(t *testing.T) {
	if _, has := (AddedUp{}).Mean(); has {
		t.Error("none has a mean")
	}
	seven := AddedUp{Count: 1}
	seven.total.Add(decimal.NewFromInt(7))
	if mean, has := seven.Mean(); !has || !mean.Equal(decimal.NewFromInt(7)) {
		t.Errorf("the mean of one is %s, %v", mean, has)
	}
}

// Of a pair the judge leaves out the carcass that the row names, and the other competes.
func TestOfAPairTheOtherIsNotLeftOut(t *testing.T) {
	carcass, other := &grading.Carcass{Tag: "1"}, &grading.Carcass{Tag: "2", Sequence: 1}
	results := &Results{
		Rules:     rules.Default(),
		Carcasses: []*Result{{Graded: grading.Grade(carcass, rules.Default())}, {Graded: grading.Grade(other, rules.Default())}},
		Findings:  []validate.Finding{{Level: validate.Hold, Carcass: carcass, Others: []*grading.Carcass{other}, Settled: &validate.Decision{Choice: validate.LeaveOut}}},
	}
	results.Gather()
	if state := results.Of(carcass).Status.State; state != LeftOut {
		t.Errorf("the carcass that the row names: %v", state)
	}
	if state := results.Of(other).Status.State; state == LeftOut {
		t.Errorf("the other: %v", state)
	}
}

// A scan goes with the one carcass of its tag: two scans of a tag go with none. The days between are counted from the scan on.
func TestAScanGoesWithTheOneCarcassOfItsTag(t *testing.T) {
	book := rules.Default()
	animal := func(sequence int, basis rules.Basis, date measure.ID, day int64) *Result {
		carcass := &grading.Carcass{Tag: "0419", Species: rules.Beef, Basis: basis, Sequence: sequence}
		carcass.SetReading(date, grading.Reading{Value: measure.NumberValue(decimal.NewFromInt(day))})
		return &Result{Graded: grading.Grade(carcass, book)}
	}
	scan, rail := animal(0, rules.LiveScan, measure.WeighInDate, 45500), animal(1, rules.OnTheRail, measure.KillDate, 45512)
	pairs := ScanPairs(&Results{Rules: book, Carcasses: []*Result{scan, rail}})
	if len(pairs) != 1 {
		t.Fatalf("%d pairs", len(pairs))
	}
	if days, known := pairs[0].Days(); !known || days != 12 {
		t.Errorf("%d days, known %v", days, known)
	}
	again := animal(2, rules.LiveScan, measure.WeighInDate, 45501)
	if pairs := ScanPairs(&Results{Rules: book, Carcasses: []*Result{scan, rail, again}}); len(pairs) != 0 {
		t.Errorf("two scans of a tag: %d pairs", len(pairs))
	}
}
