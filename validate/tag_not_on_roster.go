package validate

import (
	"railbook/rules/measure"
)

// tagNotOnRoster says which carcasses have a tag that the roster does not have: a wrong digit, or an animal that was
// never entered. Only where there is a roster.
func tagNotOnRoster(s *survey) []Finding {
	if len(s.Entries) == 0 {
		return nil
	}
	entered := map[string]bool{}
	for _, entry := range s.Entries {
		entered[entry.Tag] = true
	}
	var findings []Finding
	for _, r := range s.rows {
		if r.Tag == "" || entered[r.Tag] || !r.sound(measure.Tag) || byRailNumber(r) {
			continue
		}
		finding := s.about(Look, "tag not on the roster", r, measure.Tag)
		words := "tag " + r.Tag + " is not on the roster"
		if nearest := s.nearestUnused(r.Tag); nearest != "" {
			finding.Hint = nearest
			words += "; entry " + nearest + " has no carcass yet and differs in one place"
		}
		findings = append(findings, finding.say(words+"."+correctIt))
	}
	return findings
}

// byRailNumber reports whether a carcass is known by its rail number alone, which no roster has.
func byRailNumber(r *row) bool {
	_, tagged := r.Written(measure.Tag)
	_, numbered := r.Written(measure.RailNumber)
	return numbered && !tagged
}

// nearestUnused gives the one entry without a carcass whose tag differs from this one in a single character or in two
// neighbouring ones exchanged; empty where there is none or more than one.
func (s *survey) nearestUnused(tag string) string {
	used := map[string]bool{}
	for _, r := range s.rows {
		used[r.Tag] = true
	}
	nearest := ""
	for _, entry := range s.Entries {
		if used[entry.Tag] || !oneApart(tag, entry.Tag) {
			continue
		}
		if nearest != "" {
			return ""
		}
		nearest = entry.Tag
	}
	return nearest
}

// oneApart reports whether two texts of one length differ in one character or in two neighbouring ones exchanged.
func oneApart(a, b string) bool {
	if len(a) != len(b) {
		return false
	}
	var differ []int
	for i := range len(a) {
		if a[i] != b[i] {
			differ = append(differ, i)
		}
	}
	switch len(differ) {
	case 1:
		return true
	case 2:
		i, j := differ[0], differ[1]
		return j == i+1 && a[i] == b[j] && a[j] == b[i]
	}
	return false
}
