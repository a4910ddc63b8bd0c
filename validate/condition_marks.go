package validate

import "railbook/rules"

// conditionSaid is what a condition mark means for the carcass.
var conditionSaid = []struct {
	mark  rules.Measure
	level Level
	words string
}{
	{rules.DarkCutter, Look, "marked as a dark cutter. Say how far its quality grade is lowered: correct to 0, 1/3, 1/2, 2/3 or full in the Judge review sheet."},
	{rules.Hardbone, Look, "marked as hardbone. Confirm the mark: its price takes the hardbone discount."},
	{rules.DairyType, Note, "marked as dairy type; its price takes that discount where the grid has one."},
	{rules.Over30Months, Note, "marked as over 30 months; its price takes that discount where the grid has one."},
	{rules.Bullock, Look, "marked as a bullock or stag. Confirm the mark: only maturity A grades, and its price takes the discount."},
	{rules.Trimmed, Look, "trimmed before weighing, so its weight is not that of the whole carcass. Decide whether it can be placed."},
	{rules.BloodSplash, Look, "marked for blood splash. Decide whether it counts against the carcass."},
}

// conditionMarks repeats every condition mark, since each moves a grade or a price. It never raises what nobody marked.
func conditionMarks(s *survey) []Finding {
	var findings []Finding
	for _, r := range s.rows {
		for _, condition := range conditionSaid {
			if !r.marked(condition.mark) || condition.mark == rules.DarkCutter && r.hasLowering() {
				continue
			}
			finding := s.about(condition.level, "condition: "+string(condition.mark), r, condition.mark)
			if condition.mark == rules.DarkCutter {
				finding.Measure = rules.DarkCutterLowering // what the judge is to give
			}
			findings = append(findings, finding.say("this carcass is "+condition.words))
		}
	}
	return findings
}

// hasLowering reports whether the judge has said how far a dark cutter's grade is lowered.
func (r *row) hasLowering() bool {
	_, ok := r.Reading(rules.DarkCutterLowering)
	return ok
}
