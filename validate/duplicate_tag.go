package validate

import (
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"
)

// duplicateTag holds carcasses of the same species and basis that have one tag, since they can't be told apart. Tags are
// compared as text. The same tag in another species or in a live scan is no duplicate. Each carcass after the first is asked
// about once, together with those before it: a pair is one question, and when it is settled both are.
func duplicateTag(s *checker) []Finding {
	type tagged struct {
		species rules.Species
		basis   rules.Basis
		tag     string
	}
	bearers, again := make(map[tagged]*row, len(s.rows)), map[tagged][]*row{}
	var findings []Finding
	for _, r := range s.rows {
		if r.Tag == "" {
			continue
		}
		key := tagged{r.Species, r.Basis, r.Tag}
		first, twice := bearers[key]
		if !twice {
			bearers[key] = r
			continue
		}
		before := append([]*row{first}, again[key]...)
		again[key] = append(again[key], r)
		finding := s.about(Hold, DuplicateTag, r, measure.Tag)
		for _, other := range before {
			finding.Others = append(finding.Others, other.Carcass)
		}
		words := "tag " + r.Tag + " also stands in " + others(r, before)
		if nearest := s.nearestUnused(r.Tag); nearest != "" {
			finding.Hint = nearest
			words += "; entry " + nearest + " has no carcass yet and differs in one place"
		}
		findings = append(findings, finding.say(words+". Correct the wrong one, or leave this one out in the Judge review sheet."))
	}
	return findings
}

// DuplicateTag is the code of the finding that a tag stands more than once.
const DuplicateTag = "duplicate tag"

// others names where other carcasses stand: the cell alone on the same sheet.
func others(r *row, all []*row) string {
	var places []string
	for _, other := range all {
		switch {
		case other.Place.Sheet == r.Place.Sheet && other.Place.File == r.Place.File:
			places = append(places, "cell "+other.Place.Cell)
		default:
			places = append(places, other.Place.String())
		}
	}
	return phrase.JoinAnd(phrase.Few(places))
}
