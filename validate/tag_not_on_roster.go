package validate

import (
	"strconv"
	"strings"

	"railbook/rules/measure"
)

// tagNotOnRoster says which carcasses have a tag that the roster does not have: a wrong digit, or an animal that was
// never entered. Only where there is a roster.
func tagNotOnRoster(s *checker) []Finding {
	if len(s.Entries) == 0 {
		return nil
	}
	entered := map[string]bool{}
	for _, entry := range s.Entries {
		entered[entry.Tag] = true
	}
	var findings []Finding
	type list struct{ file, sheet string }
	unknown := map[list][]*row{} // those that no entry is near to
	var lists []list
	for _, r := range s.rows {
		if r.Tag == "" || entered[r.Tag] || !r.sound(measure.Tag) || byRailNumber(r) {
			continue
		}
		nearest := s.nearestUnused(r.Tag)
		if nearest == "" {
			on := list{r.Place.File, r.Place.Sheet}
			if unknown[on] == nil {
				lists = append(lists, on)
			}
			unknown[on] = append(unknown[on], r)
			continue
		}
		finding := s.about(Look, notOnRoster, r, measure.Tag)
		finding.Hint = nearest
		findings = append(findings, finding.say("tag "+r.Tag+" is not on the roster; entry "+nearest+" has no carcass yet and differs in one place."+correctIt))
	}
	for _, on := range lists {
		findings = append(findings, s.unknownTags(unknown[on])...)
	}
	return findings
}

// byRailNumber reports whether a carcass is known by its rail number alone, which no roster has.
func byRailNumber(r *row) bool {
	_, tagged := r.Written(measure.Tag)
	_, numbered := r.Written(measure.RailNumber)
	return numbered && !tagged
}

const notOnRoster = "tag not on the roster"

// fewestUnknown is how many tags of one sheet that no entry is near to are one question: the roster lacks them all.
const fewestUnknown = 4

// unknownTags asks about tags of one sheet that the roster does not have, nor any that is near: together where they are many,
// because then it is the roster that is not whole, and one answer does.
func (s *checker) unknownTags(rows []*row) (findings []Finding) {
	if len(rows) < fewestUnknown {
		for _, r := range rows {
			finding := s.about(Look, notOnRoster, r, measure.Tag)
			findings = append(findings, finding.say("tag "+r.Tag+" is not on the roster."+correctIt))
		}
		return findings
	}
	first := s.about(Look, notOnRoster, rows[0], measure.Tag)
	together := Finding{Level: Look, Code: notOnRoster, At: first.At, Measure: measure.Tag}
	var tags, places []string
	for _, r := range rows {
		tags = append(tags, r.Tag)
		places = append(places, s.about(Look, notOnRoster, r, measure.Tag).At.Cell+" "+r.Tag)
		together.Others = append(together.Others, r.Carcass)
	}
	together.Read = strings.Join(tags, ", ")
	return append(findings, together.say(strconv.Itoa(len(rows))+" tags of this sheet are not on the roster, nor is any that is near: "+
		strings.Join(places, ", ")+". If the roster is not whole, accept as is or grade again with the whole roster; correct the tags that are wrong."))
}

// nearestUnused gives the one entry without a carcass whose tag differs from this one in a single character or in two
// neighbouring ones exchanged; empty where there is none or more than one.
func (s *checker) nearestUnused(tag string) string {
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
