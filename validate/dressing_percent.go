package validate

import (
	"github.com/shopspring/decimal"

	"railbook/rules/measure"
)

// impossibleDressingPercent holds a carcass whose dressing percent cannot be true: one of the two weights is wrong.
func impossibleDressingPercent(s *checker) []Finding { return s.dressingPercent(Hold) }

// unusualDressingPercent has the judge look at dressing percents beyond the look bounds, as unusualValue does.
func unusualDressingPercent(s *checker) []Finding {
	return s.unusual(measure.DressingPercent, func(r *row) (decimal.Decimal, Level, bool) {
		figure, ok := r.number(measure.DressingPercent)
		limit, limited := r.limit(measure.DressingPercent)
		if !ok || !limited {
			return figure, "", false
		}
		return figure, limit.judge(figure), true
	}, func(r *row) (Finding, bool) { return s.dressingPercentOf(r, Look) })
}

func (s *checker) dressingPercent(level Level) []Finding {
	var findings []Finding
	for _, r := range s.rows {
		if finding, ok := s.dressingPercentOf(r, level); ok {
			findings = append(findings, finding)
		}
	}
	return findings
}

func (s *checker) dressingPercentOf(r *row, level Level) (Finding, bool) {
	percent, ok := r.number(measure.DressingPercent)
	limit, limited := r.limit(measure.DressingPercent)
	if !ok || !limited || limit.judge(percent) != level || !r.sound(measure.HotCarcassWeight, measure.LiveWeight) {
		return Finding{}, false
	}
	words := "dressing percent " + rounded(percent, measure.DressingPercent) + " is unusual" + s.notUsual(limit, percent)
	if level == Hold {
		words = "dressing percent " + rounded(percent, measure.DressingPercent) + " can't be true: possible is " +
			span(limit.HoldBelow, limit.HoldAbove)
	}
	return s.weightFinding(r, level, "dressing percent out of range", words), true
}

// weightFinding says that carcass weight and live weight do not go together, at the cell that is likelier to be wrong.
func (s *checker) weightFinding(r *row, level Level, code, words string) Finding {
	carcass, _ := r.cellOf(measure.HotCarcassWeight)
	live, _ := r.cellOf(measure.LiveWeight)
	if r.ReadingOf(carcass).Value.Number.Equal(r.ReadingOf(live).Value.Number) {
		finding := s.about(level, code, r, carcass)
		finding.Doubts = []measure.ID{live}
		return finding.say(words + "; the one value stands in both columns, here and in cell " + r.ReadingOf(live).Place.Cell + "." + correctIt)
	}
	likely, explained := s.likeliest(r, carcass, live)
	if !explained || !s.worthAHint(r, level, likely) {
		finding := s.about(level, code, r, carcass)
		finding.Doubts = []measure.ID{live}
		where := ""
		if place := r.ReadingOf(live).Place.Cell; place != "" {
			where = " in cell " + place
		}
		return finding.say(words + ". Compare the " + called(carcass) + " here with the " + called(live) + where + "." + correctIt)
	}
	finding := s.about(level, code, r, likely.measure)
	finding.Hint = likely.value.String()
	return finding.say(words + "; the " + called(likely.measure) + " " + likely.meant() + "." + correctIt)
}
