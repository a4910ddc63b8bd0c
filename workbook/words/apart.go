package words

import (
	"fmt"

	"railbook/grading"
	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/measure"
)

// Apart says what put one carcass over another to the family of the lower one, or of the upper: what the other one had, and what
// this one has.
func Apart(a placing.Apart, ofUpper bool) []string {
	other, ours, theirs, side := a.Upper, a.OfLower, a.OfUpper, "behind"
	if ofUpper {
		other, ours, theirs, side = a.Lower, a.OfUpper, a.OfLower, "ahead of"
	}
	beside := fmt.Sprintf("%s in place %d", tagged(other), other.Place)
	switch {
	case a.Judge:
		return []string{fmt.Sprintf("The judge put this one %s %s.", side, beside)}
	case a.Limit != "" && ofUpper:
		return []string{fmt.Sprintf("What put it %s %s: it meets the limits of the class.", side, beside)}
	case a.Limit != "":
		return []string{fmt.Sprintf("What put it %s %s: it is outside a limit of the class (%s).", side, beside, a.Limit)}
	}
	words := []string{fmt.Sprintf("What put it %s %s: its %s. It has %s here, and %s there.", side, beside, a.Measure.String(), ours, theirs)}
	for _, gap := range a.Prices[:min(len(a.Prices), mostGaps)] {
		line, otherLine := gap.OfLower, gap.OfUpper
		way := "less"
		if ofUpper {
			line, otherLine, way = gap.OfUpper, gap.OfLower, "more"
		}
		words = append(words, fmt.Sprintf("The %s pays it %s %s per cwt: %s here, %s there.", partSaid[gap.Part], grading.SayNumber(measure.CarcassValue, gap.More), way,
			orNoLine(line), orNoLine(otherLine)))
	}
	return words
}

const mostGaps = 2

var partSaid = map[rules.Part]string{
	rules.QualityPart: "quality grade", rules.YieldPart: "yield grade", rules.WeightPart: "weight", rules.ConditionPart: "mark for a condition",
	rules.MatrixPart: "price matrix", rules.PremiumPart: "premium",
}

func tagged(placed placing.Placed) string {
	if placed.Tag == "" {
		return placed.Called()
	}
	return "tag " + placed.Tag
}

func orNoLine(words string) string {
	if words == "" {
		return "none"
	}
	return words
}
