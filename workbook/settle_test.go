package workbook

import (
	"strings"
	"testing"

	"railbook/grading"
	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/intake"
	"railbook/workbook/record"
	"railbook/workbook/result"
)

// finding and decision are about one cell; each row of a table below changes one thing of them.
func heldFinding() validate.Finding {
	return validate.Finding{
		Level: validate.Hold, Code: "fat thickness out of range", At: rules.Place{Sheet: "Steers", Cell: "E12"},
		Tag: "0404", Class: "Light steers", Measure: measure.MeasuredFat, Read: "6",
	}
}

func acceptance() validate.Decision {
	return validate.Decision{
		Tag: "0404", Class: "Light steers", Measure: measure.MeasuredFat, Code: "fat thickness out of range", Was: "6",
		Choice: validate.Accept, Initials: "HQ", Found: rules.Place{Sheet: "Steers", Cell: "E12"}, Level: validate.Hold, Message: "Too thick.",
	}
}

func aboutNoCarcass(*validate.Decision) *grading.Carcass { return nil }

func TestADecisionSettlesTheFindingItWasMadeAbout(t *testing.T) {
	correct := func(applied bool) func(*validate.Finding, *validate.Decision) {
		return func(_ *validate.Finding, d *validate.Decision) {
			d.Choice, d.Value, d.Applied = validate.Correct, "0.6", applied
		}
	}
	for name, row := range map[string]struct {
		change  func(*validate.Finding, *validate.Decision)
		settled bool
	}{
		"the very same":                    {func(*validate.Finding, *validate.Decision) {}, true},
		"a look":                           {func(f *validate.Finding, _ *validate.Decision) { f.Level = validate.Look }, true},
		"leave out":                        {func(_ *validate.Finding, d *validate.Decision) { d.Choice = validate.LeaveOut }, true},
		"a correction that is in the cell": {correct(true), true},
		"another row of the same sheet":    {func(f *validate.Finding, _ *validate.Decision) { f.At.Cell = "E13" }, true},
		"another sheet, same carcass":      {func(f *validate.Finding, _ *validate.Decision) { f.At.Sheet = "All" }, true},

		"the value has changed since":          {func(f *validate.Finding, _ *validate.Decision) { f.Read = "7" }, false},
		"another carcass":                      {func(f *validate.Finding, _ *validate.Decision) { f.Tag = "0405" }, false},
		"another class":                        {func(f *validate.Finding, _ *validate.Decision) { f.Class = "Heavy steers" }, false},
		"another measure":                      {func(f *validate.Finding, _ *validate.Decision) { f.Measure = measure.RibeyeArea }, false},
		"another kind":                         {func(f *validate.Finding, _ *validate.Decision) { f.Code = "looks copied" }, false},
		"a note":                               {func(f *validate.Finding, _ *validate.Decision) { f.Level = validate.Note }, false},
		"a decision that makes no sense":       {func(_ *validate.Finding, d *validate.Decision) { d.Refused = true }, false},
		"a correction that is not in the cell": {correct(false), false},
		"a look at the value that a correction wrote": {func(f *validate.Finding, d *validate.Decision) {
			correct(true)(f, d)
			f.Level, f.Code, f.Read = validate.Look, "fat to be looked at", "0.6"
		}, true},
		"a look at the value that a correction put into this cell": {func(f *validate.Finding, d *validate.Decision) {
			correct(true)(f, d)
			d.Puts = []validate.Put{{Tag: d.Tag, Class: d.Class, Measure: d.Measure, Is: "0.6"}}
			f.Level, f.Code, f.Read = validate.Look, "fat to be looked at", "0.6"
		}, true},
		"a look at a value that a correction put into another cell": {func(f *validate.Finding, d *validate.Decision) {
			correct(true)(f, d)
			d.Puts = []validate.Put{{Tag: d.Tag, Class: d.Class, Measure: measure.RibeyeArea, Is: "0.6"}}
			f.Level, f.Code, f.Read = validate.Look, "fat to be looked at", "0.6"
		}, false},
		"a whole sheet, and another sheet": {func(f *validate.Finding, d *validate.Decision) {
			f.Tag, d.Tag = "", ""
			f.At.Sheet = "Heifers"
		}, false},
		"a whole sheet, and another file": {func(f *validate.Finding, d *validate.Decision) {
			f.Tag, d.Tag = "", ""
			f.At.File = "roster.csv"
		}, false},
		"a whole sheet, another cell": {func(f *validate.Finding, d *validate.Decision) {
			f.Tag, d.Tag = "", ""
			f.At.Cell = "A1"
		}, true},
	} {
		t.Run(name, func(t *testing.T) {
			finding, decision := heldFinding(), acceptance()
			row.change(&finding, &decision)
			settled := settle([]validate.Finding{finding}, []validate.Decision{decision}, aboutNoCarcass)
			if got := settled[0].Settled != nil; got != row.settled {
				t.Errorf("settled: %v, want %v", got, row.settled)
			}
		})
	}
}

// Of two carcasses with one tag the decision is the one's at whose cell it was made, in whatever order they are found.
func TestADecisionGoesToItsOwnCellFirst(t *testing.T) {
	other, own := heldFinding(), heldFinding()
	other.At.Cell = "E13"
	for _, order := range [][]validate.Finding{{other, own}, {own, other}} {
		for _, finding := range settle(order, []validate.Decision{acceptance()}, aboutNoCarcass) {
			if got, want := finding.Settled != nil, finding.At == own.At; got != want {
				t.Errorf("the finding at %s is settled: %v", finding.At.Cell, got)
			}
		}
	}
}

// What was decided stays in the error log when its finding is gone: a correction, and what the judge left out, which counts
// whatever became of the finding.
func TestADecisionWithoutItsFindingIsKept(t *testing.T) {
	carcass := &grading.Carcass{Tag: "0404", Class: "Light steers"}
	for name, row := range map[string]struct {
		change  func(*validate.Decision)
		kept    bool
		leftOut bool
	}{
		"a correction in the cell":     {func(d *validate.Decision) { d.Choice, d.Applied = validate.Correct, true }, true, false},
		"a correction not in the cell": {func(d *validate.Decision) { d.Choice = validate.Correct }, false, false},
		"accepted":                     {func(*validate.Decision) {}, false, false},
		"left out":                     {func(d *validate.Decision) { d.Choice = validate.LeaveOut }, true, true},
		"left out after a correction":  {func(d *validate.Decision) { d.Choice, d.Applied = validate.LeaveOut, true }, true, true},
		"left out, but refused":        {func(d *validate.Decision) { d.Choice, d.Refused = validate.LeaveOut, true }, false, false},
		"corrected, but refused":       {func(d *validate.Decision) { d.Choice, d.Applied, d.Refused = validate.Correct, true, true }, false, false},
	} {
		t.Run(name, func(t *testing.T) {
			decision := acceptance()
			row.change(&decision)
			kept := settle(nil, []validate.Decision{decision}, func(*validate.Decision) *grading.Carcass { return carcass })
			if (len(kept) == 1) != row.kept {
				t.Fatalf("%d findings are kept", len(kept))
			}
			results := &result.Results{Findings: kept, Carcasses: []*result.Result{{Graded: &grading.Graded{Carcass: carcass}}}}
			results.Gather()
			if left := results.Carcasses[0].Status.State == result.LeftOut; left != row.leftOut {
				t.Errorf("left out: %v, want %v", left, row.leftOut)
			}
		})
	}
	leaveOut := acceptance()
	leaveOut.Choice = validate.LeaveOut
	if kept := settle(nil, []validate.Decision{leaveOut}, aboutNoCarcass); len(kept) > 0 {
		t.Errorf("a carcass that is no longer there is left out: %v", kept)
	}
	stillFound := heldFinding()
	stillFound.Carcass = carcass
	once := settle([]validate.Finding{stillFound}, []validate.Decision{leaveOut}, func(*validate.Decision) *grading.Carcass { return carcass })
	if len(once) != 1 {
		t.Errorf("one decision about one finding is said %d times", len(once))
	}
}

// Signing waits for open holds and for nothing else that was found.
func TestOpenHoldsKeepFromSigning(t *testing.T) {
	for name, row := range map[string]struct {
		level   validate.Level
		settled bool
		refused bool
	}{
		"open hold":    {validate.Hold, false, true},
		"settled hold": {validate.Hold, true, false},
		"open look":    {validate.Look, false, false},
		"open note":    {validate.Note, false, false},
	} {
		t.Run(name, func(t *testing.T) {
			work := unchangedJob()
			finding := heldFinding()
			finding.Level = row.level
			if row.settled {
				decision := acceptance()
				finding.Settled = &decision
			}
			work.results.Findings = []validate.Finding{finding}
			if got := work.refusal() != nil; got != row.refused {
				t.Errorf("refused: %v, want %v", got, row.refused)
			}
			tally := Count(work.results)
			if want := row.refused; (tally.Holds == 1) != want {
				t.Errorf("%d holds are counted", tally.Holds)
			}
		})
	}
	for _, open := range []bool{true, false} {
		work := unchangedJob()
		work.results.Placings.Classes = []placing.ClassPlacing{{Placed: []placing.Placed{{Entrant: &placing.Entrant{Graded: &grading.Graded{Carcass: &grading.Carcass{}}}, JudgeTie: open}}}}
		if got := work.refusal() != nil; got != open {
			t.Errorf("a tie left to the judge: %v, refused: %v", open, got)
		}
	}
	unused := unchangedJob()
	unused.results.Findings = []validate.Finding{{Level: validate.Look, Code: record.NotApplied, Message: "no initials"}}
	if refusal := unused.refusal(); refusal == nil || !strings.Contains(refusal.Error(), "without effect: no initials") {
		t.Errorf("a decision without effect is passed over: %v", refusal)
	}
	changed := unchangedJob()
	changed.previous.Run.State = "another"
	if changed.refusal() == nil {
		t.Error("what was changed since it was graded is signed")
	}
	signed := unchangedJob()
	signed.previous.Run.Status = record.Signed
	if signed.refusal() == nil {
		t.Error("what is signed already is signed again")
	}
	ungraded := unchangedJob()
	ungraded.previous = nil
	if ungraded.refusal() == nil {
		t.Error("what was never graded is signed")
	}
}

// unchangedJob is a results workbook without a carcass, as it was graded.
func unchangedJob() *job {
	work := &job{results: &result.Results{Read: &intake.Result{}, Rules: rules.Default()}}
	work.previous = &intake.Previous{Run: record.Run{State: stateSHA256(work.results), Status: record.Provisional}}
	return work
}
