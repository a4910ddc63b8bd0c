package validate

import (
	"github.com/shopspring/decimal"

	"railbook/rules"
)

// carcassHeavierThanLive holds a carcass that weighs as much as the live animal or more.
func carcassHeavierThanLive(s *survey) []Finding {
	var findings []Finding
	for _, r := range s.rows {
		carcass, hasCarcass := r.number(rules.HotCarcassWeight)
		live, hasLive := r.number(rules.LiveWeight)
		if !hasCarcass || !hasLive || carcass.LessThan(live) || !r.sound(rules.HotCarcassWeight, rules.LiveWeight) {
			continue
		}
		words := "the carcass can't weigh " + withUnit(carcass, rules.HotCarcassWeight) + " where the live animal weighed " +
			withUnit(live, rules.LiveWeight)
		findings = append(findings, s.weightFinding(r, Hold, "carcass heavier than live", words))
	}
	return findings
}

// impossibleDressingPercent holds a carcass whose dressing percent cannot be true: one of the two weights is wrong.
func impossibleDressingPercent(s *survey) []Finding { return s.dressingPercent(Hold) }

// unusualDressingPercent has the judge look at a rare dressing percent. About one true carcass in a hundred is named by it.
func unusualDressingPercent(s *survey) []Finding { return s.dressingPercent(Look) }

func (s *survey) dressingPercent(level Level) []Finding {
	var findings []Finding
	for _, r := range s.rows {
		percent, ok := r.number(rules.DressingPercent)
		limit, limited := s.limit(r, rules.DressingPercent)
		if !ok || !limited || judged(limit, percent) != level || !r.sound(rules.HotCarcassWeight, rules.LiveWeight) {
			continue
		}
		words := "dressing percent " + rounded(percent, rules.DressingPercent) + " is unusual: look beyond " +
			span(limit.LookBelow, limit.LookAbove)
		if level == Hold {
			words = "dressing percent " + rounded(percent, rules.DressingPercent) + " can't be true: possible is " +
				span(limit.HoldBelow, limit.HoldAbove)
		}
		findings = append(findings, s.weightFinding(r, level, "dressing percent out of range", words))
	}
	return findings
}

// weightFinding says that carcass weight and live weight do not go together, at the cell that is likelier to be wrong.
func (s *survey) weightFinding(r *row, level Level, code, words string) Finding {
	carcass, _ := r.cellOf(rules.HotCarcassWeight)
	live, _ := r.cellOf(rules.LiveWeight)
	likely, explained := s.likeliest(r, carcass, live)
	if !explained {
		finding := s.about(level, code, r, carcass)
		where := ""
		if place := r.Readings[live].Place.Cell; place != "" {
			where = " in cell " + place
		}
		return finding.say(words + ". Compare the " + called(carcass) + " here with the " + called(live) + where + "." + correctIt)
	}
	finding := s.about(level, code, r, likely.measure)
	finding.Hint = likely.value.Number.String()
	return finding.say(words + "; the " + called(likely.measure) + " looks like " + likely.meant() + "." + correctIt)
}

// hundred turns a share into a percent.
var hundred = decimal.NewFromInt(100)
