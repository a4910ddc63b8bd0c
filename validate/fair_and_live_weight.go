package validate

import (
	"strconv"

	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// fairTolerance is how far, in percent, the plant's live weight may lie from the fair's: animals shrink on the way and
// fill up again, by 3 to 5 % as a rule and seldom by more than 8.
var fairTolerance = decimal.NewFromInt(8)

// fairAndLiveWeight has the judge look at an animal whose live weight at the plant is far from the fair's own weigh-in.
// Where most of a sheet are so, the fair weighed on another day than the plant: that is said once for the sheet.
func fairAndLiveWeight(s *checker) []Finding {
	var findings []Finding
	for i := range s.Sheets {
		sheet := &s.Sheets[i]
		rows := sheet.rows
		far, both := 0, 0
		var fairs rules.Place // where the first weight of the fair stands, on the sheet or on its roster
		for _, r := range rows {
			apart, known := fairWeightApart(r)
			if known {
				both++
				if fairs.Cell == "" {
					fairs = r.ReadingOf(measure.FairWeight).Place
				}
			}
			if apart {
				far++
			}
		}
		at, has := sheet.Columns[measure.LiveWeight]
		if !has || far < 3 || far*2 <= both {
			findings = append(findings, fairWeightsApart(s, rows)...)
			continue
		}
		finding := Finding{Level: Look, Code: "fair and live weight disagree throughout", At: at, Measure: measure.LiveWeight}
		findings = append(findings, finding.say("the plant's live weight is far from the fair's in "+strconv.Itoa(far)+" of "+strconv.Itoa(both)+
			" animals, so the fair weighed on another day, or a whole column is wrong. The fair's weights are not used to check single ones. "+
			"If those are the weights at the start of feeding, write \"start weight\" in the heading above "+fairs.String()+"."))
	}
	return findings
}

// fairWeightApart reports whether an animal's live weight at the plant is far from the fair's; known is false where it has
// not both.
func fairWeightApart(r *row) (apart, known bool) {
	fair, hasFair := r.Value(measure.FairWeight)
	live, hasLive := r.Value(measure.LiveWeight)
	if !hasFair || !hasLive {
		return false, false
	}
	return farApart(live.Number, fair.Number, fairTolerance), true
}

// fairWeightsApart names the animals of a sheet one by one.
func fairWeightsApart(s *checker, rows []*row) []Finding {
	var findings []Finding
	for _, r := range rows {
		if apart, _ := fairWeightApart(r); !apart || !r.sound(measure.LiveWeight, measure.HotCarcassWeight) {
			continue
		}
		fair, _ := r.Value(measure.FairWeight)
		live, _ := r.Value(measure.LiveWeight)
		words := "the plant's live weight " + withUnit(live.Number, measure.LiveWeight) + " is far from the fair's " +
			withUnit(fair.Number, measure.FairWeight)
		likely, ok := s.likeliestWhere(r, measure.LiveWeight, func(number decimal.Decimal) bool {
			return !farApart(number, fair.Number, fairTolerance)
		})
		if !ok {
			findings = append(findings, s.about(Look, "fair and live weight disagree", r, measure.LiveWeight).say(words+"."+correctIt))
			continue
		}
		finding := s.about(Look, "fair and live weight disagree", r, measure.LiveWeight)
		finding.Hint = likely.value.String()
		findings = append(findings, finding.say(words+"; it "+likely.meant()+"."+correctIt))
	}
	return findings
}
