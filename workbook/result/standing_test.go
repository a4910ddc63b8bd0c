package result

import (
	"slices"
	"testing"

	"railbook/grading"
	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/validate"
)

// One carcass, and all that can be found of it: its status, why it is that, and whether it comes to be placed.
func TestStatusIsWorkedOutOfTheFindings(t *testing.T) {
	carcass := &grading.Carcass{Tag: "0419", Class: "Steers"}
	open := validate.Finding{Level: validate.Hold, Code: "fat out of range", At: rules.Place{Sheet: "Rail", Cell: "F5"}, Carcass: carcass}
	other := validate.Finding{Level: validate.Hold, Code: "tag missing", Carcass: carcass}
	look := validate.Finding{Level: validate.Look, Carcass: carcass}
	note := validate.Finding{Level: validate.Note, Carcass: carcass}
	ofSheet := validate.Finding{Level: validate.Hold, At: rules.Place{Sheet: "Rail"}}
	ofColumn := validate.Finding{Level: validate.Hold, Code: "column in another unit", Others: []*grading.Carcass{carcass}}
	settled := func(level validate.Level, choice validate.Choice) validate.Finding {
		return validate.Finding{Level: level, Carcass: carcass, Settled: &validate.Decision{Choice: choice, Initials: "AB", Remark: "trimmed"}}
	}
	out := settled(validate.Hold, validate.LeaveOut)
	const byJudge = "left out by the judge (AB): trimmed"
	for _, test := range []struct {
		name     string
		findings []validate.Finding
		state    State
		why      string
	}{
		{"nothing found", nil, Placed, ""},
		{"a look", []validate.Finding{look}, Placed, ""},
		{"a note", []validate.Finding{note}, Placed, ""},
		{"a hold on the whole sheet", []validate.Finding{ofSheet}, Placed, ""},
		{"an open hold", []validate.Finding{open}, OnHold, "on hold: fat out of range, cell F5"},
		{"the first of two open holds", []validate.Finding{other, open}, OnHold, "on hold: tag missing"},
		{"a hold on its whole column", []validate.Finding{ofColumn}, OnHold, "on hold: column in another unit"},
		{"a hold accepted", []validate.Finding{settled(validate.Hold, validate.Accept)}, Placed, ""},
		{"a hold corrected", []validate.Finding{settled(validate.Hold, validate.Correct)}, Placed, ""},
		{"one accepted, one open", []validate.Finding{settled(validate.Hold, validate.Accept), other}, OnHold, "on hold: tag missing"},
		{"left out for a hold", []validate.Finding{out}, LeftOut, byJudge},
		{"left out for a look", []validate.Finding{settled(validate.Look, validate.LeaveOut)}, LeftOut, byJudge},
		{"left out without words", []validate.Finding{{Level: validate.Look, Carcass: carcass, Settled: &validate.Decision{Choice: validate.LeaveOut}}}, LeftOut, "left out by the judge"},
		{"left out, another open", []validate.Finding{out, open}, LeftOut, byJudge},
		{"one open, then left out", []validate.Finding{open, out}, LeftOut, byJudge},
	} {
		results := &Results{
			Rules: rules.Default(), Findings: test.findings, Carcasses: []*Result{{Graded: grading.Grade(carcass, rules.Default())}},
		}
		results.Rules.Classes = []rules.Class{{Name: "Steers", Ranking: "by tag"}}
		results.Rules.Rankings = []rules.Ranking{{Name: "by tag", Keys: []rules.Key{{Measure: measure.Condemned, Prefer: rules.Lowest}}}}
		results.Gather()
		results.Place()
		result := results.Of(carcass)
		if result.Status.State != test.state || (result.Status.Because == nil) != (test.why == "") {
			t.Errorf("%s: the status is %+v, want %q", test.name, result.Status, test.state)
		}
		if notPlaced := result.Standing.NotPlaced; (notPlaced != nil) != (test.why != "") || notPlaced != nil && (notPlaced.Reason != test.why || notPlaced.OnHold != (test.state == OnHold)) {
			t.Errorf("%s: left %+v, want %q", test.name, notPlaced, test.why)
		}
		if placed := result.Standing.Placed; (placed != nil) != (test.state == Placed) {
			t.Errorf("%s: placed %+v", test.name, placed)
		}
		wantOpen := 0
		for _, finding := range test.findings {
			if finding.Settled == nil && finding.Level != validate.Note && finding.At.Sheet != "Rail" || finding.Code == open.Code {
				wantOpen++
			}
		}
		held := slices.ContainsFunc(test.findings, func(finding validate.Finding) bool { return finding.Code != "" && finding.Settled == nil })
		if result.Doubted() != held {
			t.Errorf("%s: doubted is %t", test.name, result.Doubted())
		}
		if got := len(result.Open()); got != wantOpen {
			t.Errorf("%s: %d findings are open, want %d", test.name, got, wantOpen)
		}
	}
}

// A carcass without a place though nothing is found of it is left by a rule; one that comes first has its award.
func TestStandingIsThatOfThePlacings(t *testing.T) {
	book := rules.Default()
	first, second := grading.Grade(&grading.Carcass{Tag: "1"}, book), grading.Grade(&grading.Carcass{Tag: "2", Sequence: 1}, book)
	results := &Results{Rules: book, Carcasses: []*Result{{Graded: first}, {Graded: second}}}
	winner := placing.Placed{Entrant: &placing.Entrant{Graded: first}, Place: 1}
	results.Placings = placing.Placings{
		Classes: []placing.ClassPlacing{{
			Class: "Steers", Placed: []placing.Placed{winner},
			NotPlaced: []placing.NotPlaced{{Entrant: &placing.Entrant{Graded: second}, Reason: "hot carcass weight 500 lb, at least 600 lb"}},
		}},
		Awards: []placing.AwardList{{Award: rules.Award{Name: "Grand champion"}, Winners: []placing.Placed{winner}}},
	}
	results.Gather()
	carcass, other := results.Carcasses[0], results.Carcasses[1]
	if carcass.Status.State != Placed || carcass.Standing.Placed.Place != 1 || carcass.Standing.Class.Class != "Steers" || len(carcass.Standing.Awards) != 1 {
		t.Errorf("the first stands so: %+v %+v", carcass.Status, carcass.Standing)
	}
	if other.Status.State != Competes || other.Standing.Placed != nil || other.Standing.NotPlaced.Reason == "" || len(other.Standing.Awards) != 0 {
		t.Errorf("the second stands so: %+v %+v", other.Status, other.Standing)
	}
	results.Gather() // again: nothing is counted twice
	if len(carcass.Standing.Awards) != 1 || carcass.Status.State != Placed {
		t.Errorf("gathered again the first stands so: %+v %+v", carcass.Status, carcass.Standing)
	}
}
