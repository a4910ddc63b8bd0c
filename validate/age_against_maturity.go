package validate

import (
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// ageAgainstMaturity holds a carcass whose bone says old and whose papers say young (D or E bone with under 30 months:
// which of the two counts is not settled), and has the judge look at one marked both under and over 30 months or over
// 30 months with maturity A.
func ageAgainstMaturity(s *checker) []Finding {
	var findings []Finding
	for _, r := range s.rows {
		bone, hasBone := r.bone()
		young, old := r.marked(measure.Under30Months), r.Is(measure.Over30Months)
		switch {
		case young && old:
			finding := s.about(Hold, "age marks disagree", r, measure.Under30Months)
			finding.Doubts = []measure.ID{measure.Over30Months}
			findings = append(findings, finding.say("this carcass is marked both under and over 30 months."+correctIt))
		case young && hasBone && bone.value.Number.GreaterThanOrEqual(maturityD) && r.sound(bone.id):
			finding := s.about(Hold, "old bone under 30 months", r, bone.id)
			finding.Doubts = []measure.ID{measure.Under30Months}
			findings = append(findings, finding.say("bone maturity "+bone.value.Text+" does not go with the mark under 30 months. The judge or the plant must say which counts."+correctIt))
		case old && hasBone && bone.value.Number.LessThan(maturityB) && r.sound(bone.id):
			findings = append(findings, s.about(Look, "over 30 months with A maturity", r, bone.id).say(
				"maturity "+bone.value.Text+" is young for a carcass marked over 30 months."+lookAtIt))
		}
	}
	return findings
}

// Maturity scores at which groups B and D begin.
var maturityB, maturityD = decimal.NewFromInt(200), decimal.NewFromInt(400)

type boneReading struct {
	id    measure.ID
	value measure.Value
}

// bone gives the maturity of the bone: skeletal where it is given, else the one maturity of the sheet.
func (r *row) bone() (boneReading, bool) {
	for _, id := range []measure.ID{measure.SkeletalMaturity, measure.Maturity} {
		if value, ok := r.Value(id); ok {
			return boneReading{id, value}, true
		}
	}
	return boneReading{}, false
}
