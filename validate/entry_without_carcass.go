package validate

import (
	"railbook/rules/measure"
)

// entryWithoutCarcass says which entries of the roster have no carcass. An animal may have been withdrawn or sold, so it
// is a note.
func entryWithoutCarcass(s *checker) []Finding {
	hung := map[string]bool{}
	for _, r := range s.rows {
		hung[r.Tag] = true
	}
	var findings []Finding
	for _, entry := range s.Entries {
		if entry.Tag == "" || hung[entry.Tag] {
			continue
		}
		finding := Finding{
			Level: Note, Code: "entry without a carcass", At: entry.Place,
			Tag: entry.Tag, Class: entry.Class, Measure: measure.Tag, Read: entry.Tag,
		}
		findings = append(findings, finding.say(
			"entry "+entry.Tag+" is on the roster, but no carcass has this tag. Ask the plant for it if the animal was harvested."))
	}
	return findings
}
