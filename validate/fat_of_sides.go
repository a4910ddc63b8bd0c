package validate

import (
	"slices"

	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// sidesOfFat is how far apart, in inches, the fat of the two sides may be measured: a hide pulled badly takes a tenth off
// one of them (this project's decision).
var sidesOfFat = decimal.RequireFromString("0.15")

// fatOfSides says where the fat of a carcass is that of one side alone, for the other is blank, and has the judge look at
// one whose two sides are far apart.
func fatOfSides(s *checker) []Finding {
	var findings []Finding
	var said []*Sheet // of which it was said that they have one side only
	for _, r := range s.rows {
		left, hasLeft := r.Value(measure.LeftFat)
		right, hasRight := r.Value(measure.RightFat)
		_, hasWhole := r.Value(measure.MeasuredFat)
		_, hasAdjusted := r.Value(measure.AdjustedFat)
		if r.passed || hasWhole || hasAdjusted || !r.sound(measure.MeasuredFat) || r.unreadable(measure.LeftFat) || r.unreadable(measure.RightFat) {
			continue
		}
		switch {
		case hasLeft != hasRight:
			measured, blank := measure.LeftFat, measure.RightFat
			if hasRight {
				measured, blank = blank, measured
			}
			findings = append(findings, s.oneSide(r, measured, blank, &said)...)
		case hasLeft && left.Number.Sub(right.Number).Abs().GreaterThan(sidesOfFat):
			findings = append(findings, s.about(Look, "fat of sides far apart", r, measure.RightFat).say(
				"left fat "+withUnit(left.Number, measure.LeftFat)+" and right fat "+withUnit(right.Number, measure.RightFat)+
					" are far apart for one carcass; their mean is used."+correctIt))
		}
	}
	return findings
}

// oneSide notes that the fat of one side is used alone; once for a sheet that has a column for one side only.
func (s *checker) oneSide(r *row, measured, blank measure.ID, said *[]*Sheet) []Finding {
	finding := s.about(Note, "fat of one side", r, blank)
	if r.sheet == nil {
		return []Finding{finding.say("the " + measured.String() + " is used alone; there is no " + blank.String() + ".")}
	}
	if _, has := r.sheet.Columns[blank]; has {
		finding.At = s.cellFor(r, blank)
		return []Finding{finding.say(blank.String() + " is blank; the " + measured.String() + " is used alone.")}
	}
	if slices.Contains(*said, r.sheet) {
		return nil
	}
	*said = append(*said, r.sheet)
	whole := Finding{Level: Note, Code: "fat of one side", At: r.sheet.Columns[measured], Measure: measured}
	return []Finding{whole.say("the sheet has no " + blank.String() + "; the " + measured.String() + " is used alone for every carcass.")}
}

func (r *row) unreadable(id measure.ID) bool { return r.ReadingOf(id).Unreadable }
