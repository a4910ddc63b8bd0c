package validate

import (
	"strconv"

	"railbook/rules"
	"railbook/rules/measure"
)

// duplicateTag holds every carcass whose tag another carcass of the same species and basis has too, since the two can't
// be told apart. Tags are compared as text. The same tag in another species or in a live scan is no duplicate.
func duplicateTag(s *survey) []Finding {
	type tagged struct {
		species rules.Species
		basis   rules.Basis
		tag     string
	}
	bearers := map[tagged][]*row{}
	for _, r := range s.rows {
		if r.Tag != "" {
			key := tagged{r.Species, r.Basis, r.Tag}
			bearers[key] = append(bearers[key], r)
		}
	}
	var findings []Finding
	for _, r := range s.rows {
		same := bearers[tagged{r.Species, r.Basis, r.Tag}]
		if len(same) < 2 {
			continue
		}
		finding := s.about(Hold, "duplicate tag", r, measure.Tag)
		findings = append(findings, finding.say(
			"tag "+r.Tag+" also stands in "+others(r, same)+". Correct the wrong one, or leave one out in the Judge review sheet."))
	}
	return findings
}

// mostNamed is how many places a sentence names before it counts the rest.
const mostNamed = 3

// others names where the other carcasses stand: the cell alone on the same sheet.
func others(r *row, all []*row) string {
	var places []string
	rest := 0
	for _, other := range all {
		switch {
		case other == r:
		case len(places) == mostNamed:
			rest++
		case other.Place.Sheet == r.Place.Sheet && other.Place.File == r.Place.File:
			places = append(places, "cell "+other.Place.Cell)
		default:
			places = append(places, other.Place.String())
		}
	}
	if rest > 0 {
		places = append(places, strconv.Itoa(rest)+" more")
	}
	return listed(places)
}
