package validate

import (
	"strings"

	"railbook/rules/measure"
)

// conditionSaid is what a condition mark means for the carcass.
var conditionSaid = []struct {
	mark  measure.ID
	level Level
	words string
}{
	{measure.DarkCutter, Look, "marked as a dark cutter. Say how far its quality grade is lowered: correct to 0, 1/3, 1/2, 2/3 or full in the Judge review sheet."},
	{measure.Hardbone, Look, "marked as hardbone. Confirm the mark: its price takes the hardbone discount."},
	{measure.DairyType, Note, "marked as dairy type; its price takes that discount where the grid has one."},
	{measure.Over30Months, Note, "marked as over 30 months; its price takes that discount where the grid has one."},
	{measure.Bullock, Look, "marked as a bullock or stag. Confirm the mark: only maturity A grades, and its price takes the discount."},
	{measure.Trimmed, Look, "trimmed before weighing, so its weight is not that of the whole carcass. Decide whether it can be placed."},
	{measure.BloodSplash, Look, "marked for blood splash. Decide whether it counts against the carcass."},
}

// conditionMarks repeats every condition mark, since each moves a grade or a price. It never raises what nobody marked.
func conditionMarks(s *checker) []Finding {
	var findings []Finding
	for _, r := range s.rows {
		for _, condition := range conditionSaid {
			if !r.Is(condition.mark) || condition.mark == measure.DarkCutter && r.hasLowering() || r.Condition(condition.mark).Contradicted() {
				continue
			}
			finding := s.about(condition.level, "condition: "+condition.mark.String(), r, condition.mark)
			if condition.mark == measure.DarkCutter {
				finding.Measure = measure.DarkCutterLowering // what the judge is to give
			}
			if !r.marked(condition.mark) {
				finding = s.about(condition.level, finding.Code, r, measure.Sex)
				findings = append(findings, finding.say("this carcass is a bullock or stag by its sex, "+strings.TrimSpace(r.ReadingOf(measure.Sex).Value.Text)+
					". Confirm it: only maturity A grades, and its price takes the discount."))
				continue
			}
			words := condition.words
			if bone, ok := r.bone(); ok && condition.mark == measure.Hardbone && bone.value.Number.LessThan(maturityC) {
				words = strings.Replace(words, "hardbone.", "hardbone, but hardbone begins at C and its bone maturity is "+bone.value.Text+".", 1)
			}
			findings = append(findings, finding.say("this carcass is "+words))
		}
	}
	return findings
}

// hasLowering reports whether the judge has said how far a dark cutter's grade is lowered.
func (r *row) hasLowering() bool {
	_, ok := r.Value(measure.DarkCutterLowering)
	return ok
}
