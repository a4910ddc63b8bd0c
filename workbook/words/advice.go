package words

import (
	"fmt"

	"railbook/grading"
	"railbook/grading/whatif"
	"railbook/rules/measure"
	"railbook/rules/phrase"
)

// mostAdvised is how many changes are told, and mostPraised how many aims that are met.
const (
	mostAdvised = 3
	mostPraised = 3
)

// Advice tells a family in one to four sentences what it may do with the next animal: the change that would have paid most, the
// nearest one, and how the figures lie beside the aims. The sentences speak of the carcass, never of people.
func Advice(advice whatif.Advice) []string {
	var sentences []string
	for at, move := range advice.Moves[:min(len(advice.Moves), mostAdvised)] {
		start := "Or: "
		switch {
		case at == 0 && move.Earns():
			start = "The change worth most: "
		case at == 0 || at == 1 && advice.Moves[0].Earns():
			start = "The nearest: "
		}
		sentences = append(sentences, start+moveChange(move)+". It reaches "+moveReached(move)+", "+moveWorth(move)+".")
	}
	if len(advice.Met) > 0 {
		sentences = append(sentences, "Aims met: "+aimedFigures(advice.Met[:min(len(advice.Met), mostPraised)])+".")
	}
	switch {
	case len(advice.Moves) > 0:
	case advice.Missed != nil:
		sentences = append(sentences, missedAim(*advice.Missed))
	case advice.AllMet && len(advice.Past) > 0:
		sentences = append(sentences, "Past its aim on the good side: "+aimedFigures(advice.Past)+". More of the same is a good plan.")
	case advice.AllMet:
		sentences = append(sentences, "Every aim is met. More of the same is a good plan.")
	}
	if len(sentences) == 0 {
		return []string{"There is too little here to draw advice from. Ask the judge what was seen on the rail."}
	}
	return sentences
}

func missedAim(missed whatif.AimedFigure) string {
	way := "more"
	if missed.Above {
		way = "less"
	}
	return fmt.Sprintf("Aim for %s %s next time: %s here, and the aim is %s.", way, missed.Measure,
		grading.SayFigure(missed.Measure, missed.Number), grading.SayFigure(missed.Measure, missed.Bound))
}

// aimedFigures lists figures with their measures: "adjusted fat (0.44 in) and marbling score (Small 40)".
func aimedFigures(figures []whatif.AimedFigure) string {
	words := make([]string, len(figures))
	for i, figure := range figures {
		words[i] = fmt.Sprintf("%s (%s)", figure.Measure, grading.SayFigure(figure.Measure, figure.Number))
	}
	return phrase.JoinAnd(words)
}

// moveChange says what would have had to be different: "0.16 in less adjusted fat (0.28 in instead of 0.44 in)".
func moveChange(move whatif.Move) string {
	by := move.To.Number.Sub(move.From.Number)
	way, degree := "more", "higher"
	if by.IsNegative() {
		way, degree = "less", "lower"
	}
	to, from := grading.SayFigure(move.Measure, move.To.Number), grading.SayFigure(move.Measure, move.From.Number)
	definition := grading.DefinitionOf(move.Measure)
	switch {
	case definition.Kind == measure.KindMarbling:
		return fmt.Sprintf("%s %s, by %s points (%s instead of %s)", way, move.Measure, by.Abs(), to, from)
	case definition.Unit == "":
		return fmt.Sprintf("a %s %s %s (%s instead of %s)", move.Measure, by.Abs(), degree, to, from)
	}
	return fmt.Sprintf("%s %s %s (%s instead of %s)", grading.SayNumber(move.Measure, by.Abs()), way, move.Measure, to, from)
}

// moveReached says what the change reaches: "yield grade 2", "Average Choice", "the price of yield grade 2.0 up to 2.5".
func moveReached(move whatif.Move) string {
	switch {
	case move.Reached == measure.WholeYieldGrade:
		return "yield grade " + move.Becomes.Text
	case move.Reached == measure.Price && move.Pays.Words != "":
		return "the price of " + move.Pays.Words
	case move.Reached == measure.Price:
		return "a better price"
	}
	return move.Becomes.Text
}

// moveWorth says what the change is worth for this carcass: "worth $24.90 more", or that there is no price to tell by.
func moveWorth(move whatif.Move) string {
	switch {
	case !move.Worth.Valid:
		return "though no price is set to say what that is worth"
	case move.Worth.Decimal.IsZero():
		return "which this price grid pays the same"
	case move.Worth.Decimal.IsNegative():
		return "worth " + grading.SayNumber(measure.CarcassValue, move.Worth.Decimal.Abs()) + " less on this price grid"
	}
	return "worth " + grading.SayNumber(measure.CarcassValue, move.Worth.Decimal) + " more"
}

// Within says where in its grade a carcass stands.
func Within(stretch whatif.Stretch) string {
	words := "Here that begins at " + stretch.Measure.String() + " of " + stretch.From.Text
	if stretch.Next.Valid {
		words += ", and the next better one is " + stretch.Next.Decimal.Sub(stretch.At.Number).String() + " points away, at " +
			grading.FormatMarbling(stretch.Next.Decimal)
	}
	return words + "; this carcass has " + grading.FormatMarbling(stretch.At.Number) + "."
}
