package validate

import (
	"slices"
	"strings"

	"railbook/grading"
	"railbook/rules"
)

// missingColumn says once for a sheet what none of its carcasses has and none can be placed without.
func missingColumn(s *survey) []Finding {
	var findings []Finding
	for i := range s.Sheets {
		sheet := &s.Sheets[i]
		lacked := lackedByAll(s.sheets[sheet])
		if len(lacked) == 0 {
			continue
		}
		finding := Finding{Level: Hold, Code: "column missing", At: sheet.Heading}
		findings = append(findings, finding.say("none of the carcasses here has a "+strings.Join(lacked, " or a ")+
			", so none can be placed. Add the column, or name the one that holds it if the program did not recognise its heading."))
		for _, r := range s.sheets[sheet] {
			r.unplaceable = true
		}
	}
	return findings
}

// lackedByAll names what at least two carcasses, and all of them, lack; what is only worked out from that is left out.
func lackedByAll(rows []*row) []string {
	asked := 0
	var common []rules.Measure
	for _, r := range rows {
		if r.passed {
			continue
		}
		asked++
		lacked := lackedOf(r.Graded)
		if len(lacked) == 0 {
			return nil
		}
		if asked == 1 {
			common = lacked
			continue
		}
		common = slices.DeleteFunc(common, func(measure rules.Measure) bool { return !slices.Contains(lacked, measure) })
	}
	if asked < 2 {
		return nil
	}
	var words []string
	for _, measure := range common {
		words = append(words, called(measure))
	}
	return words
}

// lackedOf gives every measure that a carcass lacks and can't be placed without, but not what would be worked out from
// another of them.
func lackedOf(graded *grading.Graded) []rules.Measure {
	var lacked []rules.Measure
	for _, measure := range grading.Needed(graded.Species, graded.Basis) {
		if _, ok := graded.Figure(measure); ok {
			continue
		}
		ways := grading.Ways(graded.Species, graded.Basis, measure)
		follows := slices.ContainsFunc(ways, func(way []rules.Measure) bool {
			return slices.ContainsFunc(way, func(from rules.Measure) bool { return slices.Contains(lacked, from) })
		})
		if !follows {
			lacked = append(lacked, measure)
		}
	}
	return lacked
}

// lacking gives the first measure that a carcass lacks and can't be placed without, with why.
func lacking(graded *grading.Graded) (measure rules.Measure, why string, lacks bool) {
	for _, measure := range grading.Needed(graded.Species, graded.Basis) {
		if _, ok := graded.Figure(measure); !ok {
			return measure, graded.Figures[measure].Missing, true
		}
	}
	return "", "", false
}
