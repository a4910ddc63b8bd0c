package words

import (
	"fmt"
	"strings"

	"railbook/grading"
	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"
)

// Reasons says what a judge may say of the carcass at the index of those placed: a draft.
func Reasons(class *placing.ClassPlacing, at int) string {
	reason := class.Reason(at)
	if reason.Stands == placing.Overruling {
		placed := reason.Placed
		return fmt.Sprintf("I place %s %s: %s.", placed.Called(), phrase.Ordinal(placed.Place), strings.TrimRight(placed.Overruled, ". "))
	}
	var parts []string
	if reason.Tie != nil {
		parts = append(parts, tieWords(reason))
	}
	called := phrase.Capital(reason.Placed.Called())
	switch reason.Stands {
	case placing.Over:
		parts = append(parts, overWords(*reason.Pair, opening(reason)))
	case placing.BelowMoney:
		parts = append(parts, called+" stands below the money: "+lackingWords(*reason.Pair))
	case placing.Below:
		parts = append(parts, called+" stands "+phrase.Ordinal(reason.Placed.Place)+": "+lackingWords(*reason.Pair))
	case placing.Closing:
		parts = append(parts, called+" closes the class: "+lackingWords(*reason.Pair))
	case placing.Alone:
		parts = append(parts, called+" is the only carcass placed.")
	case placing.Overruling, placing.Level:
	}
	text := strings.Join(parts, " ")
	if class.Basis == rules.LiveScan {
		return ofLiveAnimals.Replace(text)
	}
	return text
}

// ofLiveAnimals calls those that were scanned what they are: "the leaner animal".
var ofLiveAnimals = strings.NewReplacer("er carcass", "er animal")

// opening begins the reason of a pair by where in the class it stands.
func opening(reason placing.Reason) string {
	upper, lower, place := reason.Pair.Upper.Called(), reason.Pair.Lower.Called(), reason.Placed.Place
	switch {
	case place == 1:
		return "I start with " + upper + " over " + lower + ": "
	case reason.Last:
		return "To finish I place " + upper + " over " + lower + ": "
	case place%2 == 0:
		return phrase.Capital(upper) + " follows in " + phrase.Ordinal(place) + " over " + lower + ": "
	default:
		return "I place " + upper + " " + phrase.Ordinal(place) + " over " + lower + ": "
	}
}

// overWords says what put the upper carcass over the lower, what else speaks for it, and what the lower is granted.
func overWords(pair placing.Pair, opening string) string {
	upper, lower := pair.Upper, pair.Lower
	text := opening
	switch pair.By {
	case placing.ByRuling:
		return text + lower.Called() + " is placed " + phrase.Ordinal(lower.Place) + " on the judge's own decision."
	case placing.ByJudge:
		return text + "the figures leave them level, and the judge put " + upper.Called() + " ahead."
	case placing.ByLimits:
		text += lower.Called() + " falls outside the limits of the class (" + strings.Join(pair.Limits, "; ") + ")."
	case placing.ByKey:
		text += claim(pair, pair.Decided, true) + "."
	}
	if pair.Also != nil {
		text += " " + also(spoken(*pair.Also, true, "")) + "."
	}
	return text + grantedWords(pair)
}

// lackingWords says what the lower carcass lacks against the upper, and what it is granted.
func lackingWords(pair placing.Pair) string {
	switch upper := pair.Upper; pair.By {
	case placing.ByLimits:
		return "it falls outside the limits of the class (" + strings.Join(pair.Limits, "; ") + ")."
	case placing.ByRuling:
		return upper.Called() + " is placed " + phrase.Ordinal(upper.Place) + " on the judge's own decision."
	case placing.ByJudge:
		return "the figures leave it level with " + upper.Called() + ", which the judge put ahead."
	case placing.ByKey:
	}
	return claim(pair, pair.Decided, false) + "." + grantedWords(pair)
}

// also makes a further sentence of what a carcass has.
func also(words string) string {
	if rest, is := strings.CutPrefix(words, "is "); is {
		return "It is also " + rest
	}
	return "It also " + words
}

// claim says of the upper carcass what it has over the lower, or of the lower what it lacks, on the key that decided.
func claim(pair placing.Pair, difference placing.Difference, ofUpper bool) string {
	own, others, other, key := difference.Upper, difference.Lower, pair.Lower, difference.Key
	if !ofUpper {
		own, others, other = others, own, pair.Upper
	}
	if key.Orders() {
		return "it " + spoken(difference, ofUpper, other.Called())
	}
	form := map[rules.Prefer]speech{
		rules.PassAtMost:  {"its %s of %s keeps within the rule's %s, and %s's %s does not", "its %s of %s is past the rule's %s, and %s's %s is not"},
		rules.PassAtLeast: {"its %s of %s reaches the rule's %s, and %s's %s does not", "its %s of %s is short of the rule's %s, and %s's %s is not"},
	}[key.Prefer].of(ofUpper)
	return fmt.Sprintf(form, grading.KeyWords(key), own, grading.SayNumber(key.Measure, key.Bound.Decimal), other.Called(), others)
}

// spoken puts two figures into a judge's words: of the carcass that is ahead, or of the one behind, which names the other.
func spoken(difference placing.Difference, ahead bool, other string) string {
	key, own, others := difference.Key, difference.Upper, difference.Lower
	if !ahead {
		own, others = others, other+"'s "+own
	}
	return fmt.Sprintf(speechFor(key).of(ahead), withoutUnit(own, key.Measure), others)
}

// grantedWords says in what the lower carcass is ahead.
func grantedWords(pair placing.Pair) string {
	var grants []string
	for _, granted := range pair.Granted {
		if granted.Lead != "" {
			grants = append(grants, fmt.Sprintf(seen[granted.Key.Measure], granted.Lead))
			continue
		}
		granted.Upper, granted.Lower = granted.Lower, granted.Upper // it is the lower one that is ahead
		grants = append(grants, spoken(granted, true, ""))
	}
	if len(grants) == 0 {
		return ""
	}
	return " I grant that " + pair.Lower.Called() + " " + strings.Join(grants, ", and ") + "."
}

// tieWords says on what the carcasses of a shared place are level, once for all of them.
func tieWords(reason placing.Reason) string {
	tie, place := reason.Tie, phrase.Ordinal(reason.Placed.Place)
	if !tie.First {
		return phrase.Capital(reason.Placed.Called()) + " shares " + place + " with " + tie.Tied[0].Called() + "."
	}
	var tags, level []string
	for _, tied := range tie.Tied {
		tags = append(tags, tied.Called())
	}
	for _, said := range tie.On {
		level = append(level, saidWords(said))
	}
	text := phrase.Capital(phrase.JoinAnd(phrase.Few(tags))) + " are level in " + place
	if len(level) > 0 {
		text += " at " + phrase.JoinAnd(level)
	}
	if tie.ForJudge {
		return text + ", and the judge decides between them."
	}
	return text + ", and share the place."
}

// saidWords names a figure: "yield grade 2.4"; a grade names itself.
func saidWords(said placing.Said) string {
	if grading.DefinitionOf(said.Key.Measure).Kind == measure.KindGrade {
		return said.Text
	}
	return grading.KeyWords(said.Key) + " " + said.Text
}

// withoutUnit takes the unit off a figure beside which another stands with it. A dollar sign stays.
func withoutUnit(figure string, id measure.ID) string {
	return strings.TrimSuffix(figure, strings.TrimPrefix(grading.WithUnit(id, ""), "$"))
}
