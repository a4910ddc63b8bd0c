package intake

import (
	"fmt"
	"slices"

	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/validate"
)

// leaveScans takes the scanned columns out of a table that has carcass weights and a measure of the carcass's own beside
// them: what was scanned on the live animal is an estimate of what was measured on the rail.
func (r *reader) leaveScans(t *table) {
	ofItsOwn := func(heading column) bool { return heading.meaning.is(measure.BasisName) }
	if r.basisOf(t) != rules.OnTheRail || slices.ContainsFunc(t.columns, ofItsOwn) {
		return
	}
	var left []string
	var first *column
	for i := range t.columns {
		heading := &t.columns[i]
		if len(heading.meaning.candidates) == 0 || heading.meaning.byHand || !scanned(heading.text) {
			continue
		}
		if !slices.ContainsFunc(t.columns, func(other column) bool { return !scanned(other.text) && sameMeaning(*heading, other) }) {
			continue
		}
		heading.meaning.candidates, heading.left = nil, true
		r.result.Passed = append(r.result.Passed, PassedOver{
			At: t.page.place(heading.at), Written: heading.text,
			Why: "a scan of the live animal; the carcass's own measure was read",
		})
		left = append(left, fmt.Sprintf("%s (%s)", phrase.Quote(heading.text), t.page.place(heading.at).Cell))
		if first == nil {
			first = heading
		}
	}
	if first == nil {
		return
	}
	r.find(validate.Finding{
		Level: validate.Note, Code: "scan beside the carcass", At: t.page.place(first.at), Read: first.text,
		Message: phrase.JoinAnd(left) + phrase.Agreeing(len(left), " was", " were") + " not read: the sheet has the carcass's own measure beside what was scanned on the live animal.",
	})
}
