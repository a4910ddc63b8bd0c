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
	// Two carcasses of a class may have one tag: a decision then goes to the finding at the cell it was made at, and to
	// another one only where that cell has none (a row was inserted).
	for _, sameCell := range []bool{true, false} {
		for d := range decisions {
			if used[d] {
				continue
			}
			for i := range findings {
				if findings[i].Settled == nil && settles(&decisions[d], &findings[i]) && (decisions[d].Found == findings[i].At || !sameCell && decisions[d].MayConcern(&findings[i])) {
					findings[i].Settled = &decisions[d]
					used[d] = true
				}
			}
		}
	}
	for d := range decisions {
		decision := &decisions[d]
		switch {
		case decision.Refused:
		case decision.Choice == validate.Correct && decision.Applied && !used[d]:
			findings = append(findings, earlierFinding(decision))
		case decision.Choice == validate.LeaveOut:
			leftOut := earlierFinding(decision)
			leftOut.Carcass = decidedOn(decision)
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
// it: a remark that names a condition stays a remark when the condition is marked.
func settles(decision *validate.Decision, finding *validate.Finding) bool {
	if decision.Refused || finding.Level == validate.Note || decision.Choice == validate.Correct && !decision.Applied {
		return false
	}
	return decision.Tag == finding.Tag && decision.Class == finding.Class && decision.Measure == finding.Measure &&
		decision.Code == finding.Code && decision.Was == finding.Read
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
		Measure: decision.Measure, Read: decision.Was, Message: message, Settled: decision,
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
