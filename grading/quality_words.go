package grading

import (
	"strings"

	"railbook/rules/measure"
	"railbook/rules/phrase"

	"github.com/shopspring/decimal"
)

// grade is a whole quality grade. Beef and lamb share the scale: the beef grade now called Select was called Good, as
// the lamb grade still is.
type grade int

const (
	noGrade grade = iota
	canner
	cutter
	utility
	commercial
	standard
	selectGrade
	Choice
	prime
)

// qualityCodes are the ways in which plants and judges write the whole grades.
var qualityCodes = map[string]struct {
	grade grade
	name  string
}{
	"prime": {prime, "Prime"}, "pr": {prime, "Prime"}, "p": {prime, "Prime"}, "prm": {prime, "Prime"},
	"choice": {Choice, "Choice"}, "ch": {Choice, "Choice"}, "c": {Choice, "Choice"}, "chc": {Choice, "Choice"},
	"select": {selectGrade, "Select"}, "se": {selectGrade, "Select"}, "sel": {selectGrade, "Select"},
	"good": {selectGrade, "Good"}, "gd": {selectGrade, "Good"}, "g": {selectGrade, "Good"},
	"standard": {standard, "Standard"}, "st": {standard, "Standard"}, "std": {standard, "Standard"}, "stand": {standard, "Standard"},
	"commercial": {commercial, "Commercial"}, "co": {commercial, "Commercial"}, "com": {commercial, "Commercial"}, "comm": {commercial, "Commercial"},
	"utility": {utility, "Utility"}, "ut": {utility, "Utility"}, "util": {utility, "Utility"},
	"cutter": {cutter, "Cutter"}, "cu": {cutter, "Cutter"}, "cut": {cutter, "Cutter"},
	"canner": {canner, "Canner"}, "ca": {canner, "Canner"}, "can": {canner, "Canner"},
	"cull":   {canner, "Cull"},
	"noroll": {standard, NoRoll}, "nr": {standard, NoRoll},
}

// NoRoll is a carcass that the plant left without a grade stamp. It ranks as Standard, since plants roll Select and better.
const NoRoll = "No roll"

var thirdWords = map[string]third{
	"low": LowThird, "lo": LowThird, "average": middleThird, "avg": middleThird, "ave": middleThird, "av": middleThird,
	"high": highThird, "hi": highThird,
}

// ParseQualityGrade understands a quality grade as a plant or judge writes it: "Ch-", "CH–", "Low Choice", "Pr", "Se+",
// "C°", "No roll". The value's Number is its rank, higher is better. whole is true where only the whole grade is given
// ("Choice"): it then ranks as the middle third, and two grades can be compared by SameWholeGrade only.
// ok is false where the text is no grade; Select has no middle third, and grades below Commercial have no thirds.
func ParseQualityGrade(text string) (value measure.Value, whole, ok bool) {
	body, sign := cutSign(strings.TrimSpace(text))
	words := strings.Fields(plainText(body))
	if len(words) > 1 {
		if named, known := thirdWords[strings.TrimSuffix(words[0], ".")]; known && sign == noThird {
			sign, words = named, words[1:]
		}
	}
	letters, rest := splitLetters(strings.Join(words, ""))
	if named, code, found := cutThird(letters); found && sign == noThird && rest == "" {
		letters, sign = code, named
	}
	code, known := qualityCodes[letters]
	switch {
	case !known || rest != "":
		return measure.Value{}, false, false
	case sign == noThird:
		return wholeGradeValue(code.grade, code.name), true, true
	case code.grade < commercial || code.name == NoRoll || code.name == "Select" && sign == middleThird:
		return measure.Value{}, false, false
	}
	return ThirdValue(code.grade, code.name, sign), false, true
}

// cutThird takes the word for a third off the front of a grade that is written in one: "HiCh", "LoCh".
func cutThird(letters string) (named third, code string, found bool) {
	if _, whole := qualityCodes[letters]; whole {
		return noThird, "", false
	}
	for _, word := range []string{"average", "high", "avg", "ave", "low", "av", "hi", "lo"} {
		if code, cut := strings.CutPrefix(letters, word); cut {
			if _, known := qualityCodes[code]; known {
				return thirdWords[word], code, true
			}
		}
	}
	return noThird, "", false
}

// partOfChoice are the ways in which plants write which part of Choice a carcass is in: its upper two thirds (Average or High
// Choice) or its lower one.
var partOfChoice = phrase.NewPattern(`^(?:(t|top|u|upper)|(b|bottom|lower)) ?([12]/3)?(?:rds?|ds?)? ?(?:of )?(ch|choice)?$`)

// ParsePartOfChoice understands a part of Choice: "T2/3", "Upper 2/3 Choice", "Top Choice" are Choice, its upper two thirds,
// and "B1/3" is Low Choice. ok is false for anything else.
func ParsePartOfChoice(text string) (value measure.Value, ok bool) {
	found := partOfChoice.FindStringSubmatch(plainText(text))
	switch {
	case found == nil || found[3] == "" && (found[4] == "" || len(found[1])+len(found[2]) == 1):
		return measure.Value{}, false
	case found[1] != "" && found[3] != "1/3":
		return wholeGradeValue(Choice, "Choice"), true
	case found[2] != "" && found[3] == "1/3":
		return ThirdValue(Choice, "Choice", LowThird), true
	}
	return measure.Value{}, false
}

// ParseLegScore understands a lamb's leg score that is written as a grade: "Ch+", "High Choice" and 12 are the same leg. The
// value is the score, 7 for Low Good to 15 for High Prime (the scale is from memory). whole is true where only the whole
// grade is given: its middle third is taken. ok is false for other words, and for the grades of beef alone.
func ParseLegScore(text string) (value measure.Value, whole, ok bool) {
	graded, whole, ok := ParseQualityGrade(text)
	if !ok || strings.HasSuffix(graded.Text, "Select") {
		return measure.Value{}, false, false
	}
	score := graded.Number.IntPart() - lambRankAboveScore
	if score < 7 || score > 15 {
		return measure.Value{}, false, false
	}
	return measure.NumberValue(decimal.NewFromInt(score)), whole, true
}

// ConformationOf gives the grade that a score on the scale of leg scores stands for: 12 is High Choice.
func ConformationOf(score measure.Value) (grade measure.Value, ok bool) {
	if !score.Number.IsInteger() {
		return measure.Value{}, false
	}
	grade, ok = lambGradeWords[score.Number.IntPart()]
	return grade, ok && score.Number.IntPart() >= 7
}

// rank orders grades by thirds; a grade without a third ranks as its middle one.
func rank(g grade, t third) int64 {
	if t == noThird {
		t = middleThird
	}
	return int64(g)*3 + int64(t-LowThird)
}

func wholeGradeValue(g grade, name string) measure.Value {
	return measure.Value{Number: decimal.NewFromInt(rank(g, noThird)), Text: name}
}

func ThirdValue(g grade, name string, t third) measure.Value {
	word := [...]string{LowThird: "Low ", middleThird: "Average ", highThird: "High "}[t]
	return measure.Value{Number: decimal.NewFromInt(rank(g, t)), Text: word + name}
}

// SameWholeGrade reports whether two quality grades are of the same whole grade.
func SameWholeGrade(a, b measure.Value) bool {
	three := decimal.NewFromInt(3)
	return a.Number.Div(three).Floor().Equal(b.Number.Div(three).Floor())
}
