package whatif

import (
	"fmt"
	"slices"

	"railbook/grading"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// Change says what would have had to be different: "0.16 in less adjusted fat (0.28 in instead of 0.44 in)".
func (m Move) Change() string {
	by := m.To.Number.Sub(m.From.Number)
	way, degree := "more", "higher"
	if by.IsNegative() {
		way, degree = "less", "lower"
	}
	to, from := SayFigure(m.Measure, m.To.Number), SayFigure(m.Measure, m.From.Number)
	words := m.Measure.String()
	definition := grading.DefinitionOf(m.Measure)
	switch {
	case definition.Kind == measure.KindMarbling:
		return fmt.Sprintf("%s %s, by %s points (%s instead of %s)", way, words, by.Abs(), to, from)
	case definition.Unit == "":
		return fmt.Sprintf("a %s %s %s (%s instead of %s)", words, by.Abs(), degree, to, from)
	}
	return fmt.Sprintf("%s %s %s (%s instead of %s)", grading.SayNumber(m.Measure, by.Abs()), way, words, to, from)
}

// ReachedWords says what the change reaches: "yield grade 2", "Average Choice", "the price of yield grade 2.0 up to 2.5".
func (m Move) ReachedWords() string {
	switch {
	case m.Reached == measure.WholeYieldGrade:
		return "yield grade " + m.Becomes.Text
	case m.Reached == measure.Price && m.Line != "":
		return "the price of " + m.Line
	case m.Reached == measure.Price:
		return "a better price"
	}
	return m.Becomes.Text
}

// WorthWords says what the change is worth for this carcass: "worth $24.90 more", or that there is no price to tell by.
func (m Move) WorthWords() string {
	switch {
	case !m.Worth.Valid:
		return "though no price is set to say what that is worth"
	case m.Worth.Decimal.IsZero():
		return "which this price grid pays the same"
	case m.Worth.Decimal.IsNegative():
		return "worth " + grading.SayNumber(measure.CarcassValue, m.Worth.Decimal.Abs()) + " less on this price grid"
	}
	return "worth " + grading.SayNumber(measure.CarcassValue, m.Worth.Decimal) + " more"
}

// SayFigure says a number of a measure with its unit, and a marbling in words.
func SayFigure(id measure.ID, number decimal.Decimal) string {
	if id == measure.MarblingScore || grading.DefinitionOf(id).Kind == measure.KindMarbling {
		return grading.FormatMarbling(number)
	}
	return grading.SayNumber(id, number)
}

// lineChanged says which line of the grid a changed carcass is priced by instead; empty for none.
func lineChanged(was, is *grading.Graded) string {
	for _, step := range is.PriceSteps() {
		if step.Line != nil && !slices.Contains(linesOf(was, step.Part), step.Line) {
			return step.Words
		}
	}
	return ""
}
