package workbook

import (
	"slices"
	"strings"

	"railbook/grading"
	"railbook/validate"
)

// settle marks the findings that a decision of the judge has settled, and adds those of earlier revisions that are no
// longer raised, so that the error log keeps them: because the cell was corrected, or because the judge left the carcass
// out, which counts whatever became of the finding since. The carcass that a decision is about is given by decidedOn.
func settle(findings []validate.Finding, decisions []validate.Decision, decidedOn func(*validate.Decision) *grading.Carcass) []validate.Finding {
	used := make([]bool, len(decisions))
	about := make([]*grading.Carcass, len(decisions))
	for d := range decisions {
		about[d] = decidedOn(&decisions[d])
	}
	// Two carcasses of a class may have one tag: a decision is about one of them. What is said of no carcass goes to the
	// finding at the cell it was made at, and to another one only where that cell has none.
	for _, sameCell := range []bool{true, false} {
		for d := range decisions {
			carcass, done := about[d], used[d]
			for i := range findings {
				finding := &findings[i]
				if finding.Settled != nil || !settles(&decisions[d], finding) {
					continue
				}
				its := carcass != nil && finding.Carcass == carcass
				other := carcass != nil && finding.Carcass != nil && finding.Carcass != carcass
				if its || !other && !done && (decisions[d].Found == finding.At || !sameCell && decisions[d].MayConcern(finding)) {
					finding.Settled = &decisions[d]
					used[d] = true
				}
			}
		}
	}
	for d := range decisions {
		decision := &decisions[d]
		switch {
		case decision.Refused:
		case (decision.Choice == validate.Correct || decision.Choice == validate.Exchange) && decision.Applied && !used[d]:
			findings = append(findings, earlierFinding(decision))
		case decision.Choice == validate.LeaveOut:
			leftOut := earlierFinding(decision)
			leftOut.Carcass = about[d]
			said := slices.ContainsFunc(findings, func(finding validate.Finding) bool {
				return finding.Settled == decision && sameCarcass(finding.Carcass, leftOut.Carcass)
			})
			if !said && leftOut.Carcass != nil {
				findings = append(findings, leftOut)
			}
		}
	}
	slices.SortStableFunc(findings, byPlace)
	return findings
}

// settles reports whether a decision was made about this very finding: the same carcass, measure and kind, and the same
// value. A decision about a value that has changed since settles nothing. A correction settles what is still found after
// it (a remark that names a condition stays a remark when the condition is marked), and what is to be looked at in the value
// that the judge wrote. What cannot be true is never accepted, and what the rulebook holds impossible only with a remark.
func settles(decision *validate.Decision, finding *validate.Finding) bool {
	corrects := decision.Choice == validate.Correct || decision.Choice == validate.Exchange
	switch {
	case decision.Refused, decision.Choice == validate.Withdraw, finding.Level == validate.Note, corrects && !decision.Applied:
		return false
	case decision.Choice == validate.Accept && (finding.Never || finding.Beyond && decision.Remark == ""):
		return false
	}
	its := decision.Class == finding.Class && decision.Tag == finding.Tag && decision.Measure == finding.Measure
	if its && decision.Answers(finding) {
		return true
	}
	return corrects && finding.Level == validate.Look && finding.Code != valueRetyped && judgesValue(decision, finding)
}

// judgesValue reports whether a finding is about a value that the decision has put there.
func judgesValue(decision *validate.Decision, finding *validate.Finding) bool {
	for _, put := range decision.Puts {
		if put.Class == finding.Class && put.Tag == finding.Tag && put.Measure == finding.Measure && put.Is == finding.Read {
			return true
		}
	}
	its := decision.Class == finding.Class && decision.Tag == finding.Tag && decision.Measure == finding.Measure
	return its && len(decision.Puts) == 0 && decision.Value == finding.Read
}

// sameCarcass reports whether two are one carcass, which is another value while a change to it is undone.
func sameCarcass(a, b *grading.Carcass) bool {
	return a == b || a != nil && b != nil && a.Sequence == b.Sequence
}

// earlierFinding is the line that stays in the error log for a finding that is no longer raised.
func earlierFinding(decision *validate.Decision) validate.Finding {
	message := decision.Message
	if message == "" {
		message = decision.Code + "."
	}
	return validate.Finding{
		Level: decision.Level, Code: decision.Code, At: decision.Found, Tag: decision.Tag, Class: decision.Class,
		Measure: decision.Measure, Read: decision.Was, Message: message, Settled: decision, Remembered: true,
	}
}

// byPlace orders findings by sheet and row as read, keeping the order of the checks within a cell. Sheets keep the order
// in which they first came up, so only rows are compared.
func byPlace(a, b validate.Finding) int {
	if a.Carcass != nil && b.Carcass != nil {
		return a.Carcass.Sequence - b.Carcass.Sequence
	}
	// What concerns a whole sheet or workbook stands before its rows.
	switch {
	case a.Carcass == nil && b.Carcass != nil:
		return -1
	case a.Carcass != nil && b.Carcass == nil:
		return 1
	}
	return strings.Compare(a.At.Sheet, b.At.Sheet)
}
