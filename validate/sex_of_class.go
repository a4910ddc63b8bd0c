package validate

import (
	"slices"
	"strconv"
	"strings"

	"railbook/grading"
	"railbook/rules/measure"
	"railbook/rules/phrase"
)

const (
	sexUnknown    = "sex not understood"
	sexNotOfClass = "sex not of the class"
)

// sexOfClass has the judge look at a sex that no word is known for, since a bull or a cow among them would be graded as a market
// animal, and at one that is not that of the class the animal stands in: one of the two is wrong. Cows, bulls and stags are
// asked about by other checks. What is many on a sheet is one question.
func sexOfClass(s *checker) []Finding {
	var findings []Finding
	for i := range s.Sheets {
		var unknown, otherwise []*row
		var words []string
		for _, r := range s.Sheets[i].rows {
			text := strings.TrimSpace(r.ReadingOf(measure.Sex).Value.Text)
			if r.passed || text == "" || r.Species == "" {
				continue
			}
			switch sex := grading.SexOf(r.Species, text); {
			case sex == "":
				if !slices.Contains(words, phrase.Quote(text)) {
					words = append(words, phrase.Quote(text))
				}
				unknown = append(unknown, r)
			case !r.Is(measure.Bull) && !r.Is(measure.Bullock) && !r.Is(measure.Cow) && otherSexOf(r, sex) != "":
				otherwise = append(otherwise, r)
			}
		}
		if len(unknown) > 0 {
			findings = append(findings, s.sexesTogether(sexUnknown, unknown, "the sex "+phrase.JoinOr(phrase.Examples(words, 3))+
				" is none that is known, so that a bull, a stag or an old female would not be seen. Write it in full, such as "+sexesInWords(unknown[0])+"; otherwise accept as is."))
		}
		if len(otherwise) < fewestUnknown {
			for _, r := range otherwise {
				finding := s.about(Look, sexNotOfClass, r, measure.Sex)
				findings = append(findings, finding.say(disagrees(r)+lookAtIt))
			}
			continue
		}
		findings = append(findings, s.sexesTogether(sexNotOfClass, otherwise, disagrees(otherwise[0])+" If the class takes both, accept as is; correct what is wrong."))
	}
	return findings
}

func disagrees(r *row) string {
	sex := grading.SexOf(r.Species, r.ReadingOf(measure.Sex).Value.Text)
	return "the sex is " + string(sex) + ", but the class " + phrase.Quote(r.Class) + " is by its name one of another (" + string(otherSexOf(r, sex)) + ")."
}

// sexesTogether asks once about several animals, and names the cells.
func (s *checker) sexesTogether(code string, rows []*row, words string) Finding {
	finding := s.about(Look, code, rows[0], measure.Sex)
	if len(rows) == 1 {
		return finding.say(words)
	}
	var places []string
	for _, r := range rows {
		places = append(places, s.about(Look, code, r, measure.Sex).At.Cell)
	}
	finding.Carcass, finding.Tag, finding.Class = nil, "", ""
	for _, r := range rows {
		finding.Others = append(finding.Others, r.Carcass)
	}
	return finding.say(words + " It is so in " + strconv.Itoa(len(rows)) + " cells: " + strings.Join(phrase.Examples(places, 12), ", ") + ".")
}

// otherSexOf gives the one sex that the name of a carcass's class has a word for, where it is another; empty where the name has
// no such word, or words for two.
func otherSexOf(r *row, sex grading.Sex) grading.Sex {
	named := grading.Sex("")
	for _, word := range strings.FieldsFunc(r.Class, func(c rune) bool { return c == ' ' || c == '/' || c == ',' || c == '-' || c == '&' }) {
		if len(word) < len("hfr") {
			continue // a letter may stand for anything
		}
		switch found := grading.SexOf(r.Species, word); {
		case found == "":
		case named != "" && found != named:
			return ""
		default:
			named = found
		}
	}
	if named == sex {
		return ""
	}
	return named
}

// sexesInWords gives the first words for the sexes of a species.
func sexesInWords(r *row) string { return phrase.JoinOr(grading.SexesOf(r.Species)) }
