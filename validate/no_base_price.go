package validate

import (
	"railbook/rules"
	"railbook/rules/measure"
)

// noBasePrice notes once for each species on each sheet that the board has set no base price for it, so nothing has a
// price.
func noBasePrice(s *checker) []Finding {
	var findings []Finding
	for i := range s.Sheets {
		sheet := &s.Sheets[i]
		said := map[rules.Species]bool{}
		for _, r := range sheet.rows {
			if _, priced := r.Computed(measure.Price); !priced {
				continue // a live animal that is scanned has no carcass to price
			}
			if r.Species == "" || said[r.Species] || s.Book.Settings.BasePrice[r.Species].Valid {
				continue
			}
			said[r.Species] = true
			finding := Finding{Level: Note, Code: "no base price", At: sheet.Heading}
			findings = append(findings, finding.say("the rulebook sets no base price for "+string(r.Species)+
				", so no carcass here has a price or value. Set one in the rulebook's Settings if they should."))
		}
	}
	return findings
}
