package validate

import (
	"strings"

	"github.com/shopspring/decimal"

	"railbook/grading"
	"railbook/rules/measure"
	"railbook/rules/phrase"
)

// conditionsDisagree holds a carcass whose own signs of a condition contradict each other, where its grade, its price or a
// rule hangs on it, and has the judge look at it where nothing does.
func conditionsDisagree(s *checker) []Finding {
	var findings []Finding
	for _, r := range s.rows {
		if r.passed {
			continue
		}
		for _, condition := range r.Conditions() {
			if !condition.Contradicted() || condition.Measure == measure.Over30Months { // the check of age says that
				continue
			}
			level := Look
			if r.ConditionMatters(condition.Measure) {
				level = Hold
			}
			finding := s.about(level, "signs of a condition disagree", r, condition.Signs[0].Measure)
			finding.Doubts = []measure.ID{condition.Measure}
			var words []string
			for _, sign := range condition.Signs {
				words = append(words, sign.Words)
			}
			findings = append(findings, finding.say("it can't be said whether this carcass is "+grading.ConditionWords(condition.Measure)+": "+phrase.JoinAnd(words)+" contradict each other."+correctIt))
			r.doubt(condition.Measure)
		}
	}
	return findings
}

// conditionsAsked has the judge look at a carcass whose bone or dates ask for a condition that nobody set, or speak against
// one that somebody did. Nothing is inferred from them.
func conditionsAsked(s *checker) []Finding {
	var findings []Finding
	for _, r := range s.rows {
		if r.passed {
			continue
		}
		findings = append(findings, s.hardboneAsked(r)...)
		findings = append(findings, s.monthsAsked(r)...)
	}
	return findings
}

// maturityC is the score at which bone is hard.
var maturityC = decimal.NewFromInt(300)

func (s *checker) hardboneAsked(r *row) []Finding {
	bone, has := r.bone()
	if !has || !r.mayHave(measure.Hardbone) || !r.sound(bone.id, measure.Hardbone) {
		return nil
	}
	if bone.value.Number.GreaterThanOrEqual(maturityC) && !r.Is(measure.Hardbone) {
		return []Finding{s.about(Look, "hardbone not marked", r, bone.id).say("bone maturity " + bone.value.Text +
			" is that of a hardbone carcass, but it is not marked as one, and is priced and placed as none." + lookAtIt)}
	}
	return nil
}

func (s *checker) monthsAsked(r *row) []Finding {
	if !r.mayHave(measure.Over30Months) || !r.sound(measure.Over30Months, measure.Under30Months) {
		return nil
	}
	over := r.Is(measure.Over30Months)
	if under, ok := r.Value(measure.Under30Months); ok && under.Number.IsZero() && !over {
		return []Finding{s.about(Look, "not marked over 30 months", r, measure.Under30Months).say("under 30 months is marked " + under.Text +
			", but over 30 months is not marked, so it is priced and placed as none." + lookAtIt)}
	}
	birth, hasBirth := r.day(measure.BirthDate)
	kill, hasKill := r.day(measure.KillDate)
	if over && hasBirth && hasKill && !birth.AddDate(0, 30, 0).Before(kill) {
		return []Finding{s.about(Look, "over 30 months by mark, not by dates", r, measure.Over30Months).say("this carcass is marked as over 30 months, but by its dates it is " +
			strings.TrimSuffix(ageWords(birth, kill), " of age") + " old." + lookAtIt)}
	}
	return nil
}
