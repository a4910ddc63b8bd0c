package workbook

import (
	"strings"
	"testing"

	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/record"
	"railbook/workbook/result"
)

// corrected is an earlier correction that is in its cell.
func corrected() validate.Decision {
	decision := acceptance()
	decision.Choice, decision.Value, decision.Applied = validate.Correct, "0.6", true
	decision.Puts = []validate.Put{{Class: decision.Class, Tag: decision.Tag, Measure: decision.Measure, At: decision.Found, Was: "6", Is: "0.6"}}
	return decision
}

// What stands in a row of the review sheet and what was decided before give one decision.
func TestOneDecisionOfARowAndWhatWasDecidedBefore(t *testing.T) {
	for name, row := range map[string]struct {
		change  func(written *validate.Decision)
		cleared bool // the row is there and says nothing
		gone    bool // the row was taken out
		choice  validate.Choice
		puts    int
		applied bool
		why     string
	}{
		"unchanged":             {change: func(*validate.Decision) {}, choice: validate.Correct, puts: 1, applied: true},
		"another value":         {change: func(d *validate.Decision) { d.Value = "0.7" }, choice: validate.Correct, puts: 1},
		"left out instead":      {change: func(d *validate.Decision) { d.Choice, d.Value = validate.LeaveOut, "" }, choice: validate.LeaveOut, puts: 1},
		"initials alone stay":   {change: func(d *validate.Decision) { d.Choice, d.Value = "", "" }, choice: validate.Withdraw, puts: 1, why: "correct to 0.6, by HQ"},
		"withdrawn by name":     {change: func(d *validate.Decision) { d.Choice, d.Value = validate.Withdraw, "" }, choice: validate.Withdraw, puts: 1, why: "correct to 0.6, by HQ"},
		"cleared":               {cleared: true, choice: validate.Withdraw, puts: 1, why: "correct to 0.6, by HQ"},
		"the row was taken out": {gone: true, choice: validate.Correct, puts: 1, applied: true},
	} {
		t.Run(name, func(t *testing.T) {
			kept := []validate.Decision{corrected()}
			asked := []validate.Decision{acceptance()}
			var written []validate.Decision
			if row.change != nil {
				decision := corrected()
				decision.Puts, decision.Applied = nil, false
				row.change(&decision)
				written = append(written, decision)
			}
			if row.gone {
				asked = nil
			}
			decisions := decisionsNow(kept, written, asked)
			if len(decisions) != 1 {
				t.Fatalf("%d decisions", len(decisions))
			}
			got := decisions[0]
			if got.Choice != row.choice || len(got.Puts) != row.puts || got.Applied != row.applied || got.Why != row.why {
				t.Errorf("got %q, %d cells, applied %v, %q", got.Choice, len(got.Puts), got.Applied, got.Why)
			}
		})
	}
}

// Two decisions about one cell that differ are both refused, with the rows of both; equal ones count once; those about other
// cells stand.
func TestTwoDecisionsAboutOneCell(t *testing.T) {
	at := func(decision validate.Decision, cell string) validate.Decision {
		decision.At = rules.Place{Sheet: record.JudgeReviewSheet, Cell: cell}
		return decision
	}
	call := at(validate.Decision{Tag: "0404", Class: "Light steers", Measure: measure.MeasuredFat, Code: record.JudgesCall, Choice: validate.Correct, Value: "0.7", Initials: "HQ"}, "I31")
	twin := at(corrected(), "I9")
	twin.Found.Cell = "E13"
	otherMeasure := at(corrected(), "I10")
	otherMeasure.Measure = measure.RibeyeArea
	otherValue := at(corrected(), "I11")
	otherValue.Value = "0.7"
	for name, row := range map[string]struct {
		second  validate.Decision
		left    int
		refused bool
	}{
		"another value":                     {otherValue, 2, true},
		"the same again":                    {at(corrected(), "I11"), 1, false},
		"a call of the judge's own":         {call, 2, true},
		"another measure":                   {otherMeasure, 2, false},
		"the other carcass of the same tag": {twin, 2, false},
	} {
		t.Run(name, func(t *testing.T) {
			work := &job{results: &result.Results{Decisions: []validate.Decision{at(corrected(), "I8"), row.second}}}
			work.refuseContradictions()
			if len(work.results.Decisions) != row.left {
				t.Fatalf("%d decisions are left", len(work.results.Decisions))
			}
			for _, decision := range work.results.Decisions {
				if decision.Refused != row.refused {
					t.Errorf("the decision at %s is refused: %v", decision.At.Cell, decision.Refused)
				}
				if row.refused && !strings.Contains(decision.Why, "row ") {
					t.Errorf("no row is named in %q", decision.Why)
				}
			}
		})
	}
}

func TestTwoPlacesForOneCarcass(t *testing.T) {
	ruling := func(tag string, place int) placing.Ruling {
		return placing.Ruling{Class: "Light steers", Tag: tag, Place: place}
	}
	for name, row := range map[string]struct {
		rulings []placing.Ruling
		left    int
		refused int
	}{
		"one":           {[]placing.Ruling{ruling("1", 2)}, 1, 0},
		"the same":      {[]placing.Ruling{ruling("1", 2), ruling("1", 2)}, 1, 0},
		"two":           {[]placing.Ruling{ruling("1", 2), ruling("1", 3)}, 0, 2},
		"two carcasses": {[]placing.Ruling{ruling("1", 2), ruling("2", 2)}, 2, 0},
	} {
		work := &job{results: &result.Results{Rulings: row.rulings}}
		work.refuseRulings()
		if len(work.results.Rulings) != row.left || len(work.results.Decisions) != row.refused {
			t.Errorf("%s: %d are left and %d refused", name, len(work.results.Rulings), len(work.results.Decisions))
		}
	}
}

// What may be accepted: an unusual value; past what is possible with a remark; what cannot be true never.
func TestWhatMayBeAccepted(t *testing.T) {
	for name, row := range map[string]struct {
		beyond, never bool
		remark        string
		settled       bool
	}{
		"neither":                            {settled: true},
		"past what is possible":              {beyond: true},
		"past what is possible, with remark": {beyond: true, remark: "measured twice", settled: true},
		"never true":                         {beyond: true, never: true, remark: "measured twice"},
	} {
		finding, decision := heldFinding(), acceptance()
		finding.Beyond, finding.Never, decision.Remark = row.beyond, row.never, row.remark
		if got := settles(&decision, &finding); got != row.settled {
			t.Errorf("%s: accepted %v", name, got)
		}
	}
}
