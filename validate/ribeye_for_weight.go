package validate

import (
	"github.com/shopspring/decimal"

	"railbook/rules/measure"
)

// impossibleRibeyeForWeight holds a carcass whose ribeye cannot belong to its weight.
func impossibleRibeyeForWeight(s *checker) []Finding { return s.ribeyeForWeight(Hold) }

// unusualRibeyeForWeight has the judge look at ribeyes rare for the weight, as unusualValue does.
func unusualRibeyeForWeight(s *checker) []Finding {
	return s.unusual(measure.RibeyePerHundredweight, func(r *row) (decimal.Decimal, Level, bool) {
		figure, ok := r.number(measure.RibeyePerHundredweight)
		limit, limited := r.limit(measure.RibeyePerHundredweight)
		if !ok || !limited {
			return figure, "", false
		}
		return figure, limit.judge(figure), true
	}, func(r *row) (Finding, bool) { return s.ribeyeForWeightOf(r, Look) })
}

func (s *checker) ribeyeForWeight(level Level) []Finding {
	var findings []Finding
	for _, r := range s.rows {
		if finding, ok := s.ribeyeForWeightOf(r, level); ok {
			findings = append(findings, finding)
		}
	}
	return findings
}

func (s *checker) ribeyeForWeightOf(r *row, level Level) (Finding, bool) {
	figure, ok := r.number(measure.RibeyePerHundredweight)
	limit, limited := r.limit(measure.RibeyePerHundredweight)
	if !ok || !limited || limit.judge(figure) != level || !r.sound(measure.HotCarcassWeight, measure.RibeyeArea) {
		return Finding{}, false
	}
	weight, _ := r.number(measure.HotCarcassWeight)
	area, _ := r.number(measure.RibeyeArea)
	words := "a ribeye of " + withUnit(area, measure.RibeyeArea) + " is unusual for a carcass of " +
		withUnit(weight, measure.HotCarcassWeight) + ": " + rounded(figure, measure.RibeyePerHundredweight) + " sq in per cwt" + s.notUsual(limit, figure)
	if level == Hold {
		words = "a ribeye of " + withUnit(area, measure.RibeyeArea) + " can't belong to a carcass of " +
			withUnit(weight, measure.HotCarcassWeight) + " (" + rounded(figure, measure.RibeyePerHundredweight) + " sq in per cwt)"
	}
	return s.ribeyeFinding(r, level, words), true
}

func (s *checker) ribeyeFinding(r *row, level Level, words string) Finding {
	const code = "ribeye out of line with weight"
	area, _ := r.cellOf(measure.RibeyeArea)
	weight, _ := r.cellOf(measure.HotCarcassWeight)
	if _, read := r.Value(measure.HotCarcassWeight); !read {
		weight = measure.LiveWeight // from which it is estimated
	}
	likely, explained := s.likeliest(r, area, weight)
	if !explained || !s.worthAHint(r, level, likely) {
		advice := lookAtIt
		if level == Hold {
			advice = correctIt
		}
		finding := s.about(level, code, r, area)
		finding.Doubts = []measure.ID{weight}
		return finding.say(words + "." + advice)
	}
	finding := s.about(level, code, r, likely.measure)
	finding.Hint = likely.value.String()
	return finding.say(words + "; the " + called(likely.measure) + " " + likely.meant() + "." + correctIt)
}
