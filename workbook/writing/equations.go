package writing

import (
	"fmt"
	"strings"

	"railbook/grading"
	"railbook/rules/measure"
)

// equations writes how each figure was computed and where that is published.
func (p *press) equations(page *page) {
	page.section("Equations and their sources", runColumns)
	for _, kind := range p.kindsOfClasses() {
		for _, id := range grading.Computes(kind.Species, kind.Basis) {
			words := p.equationWords(kind, id)
			if words != "" {
				page.across(sentence(fmt.Sprintf("%s, %s: %s", kind.words(), id, words)), body, 1, runColumns)
			}
		}
	}
	page.across("All figures are exact decimal arithmetic, rounded to 6 decimals; grades, limits and rankings use that figure.", note, 1, runColumns)
}

func (p *press) equationWords(kind kindOfClass, id measure.ID) string {
	var parts []string
	if equation, linear := grading.Equation(p.Rules, kind.Species, kind.Basis, id); linear {
		parts = append(parts, linearWords(equation))
	}
	if source := grading.Source(kind.Species, id); source != "" {
		parts = append(parts, source)
	}
	return strings.Join(parts, "; ")
}

// linearWords writes an equation as a sum: 2.5 + 2.5 × adjusted fat − 0.32 × ribeye area.
func linearWords(equation grading.Linear) string {
	words := equation.Constant.String()
	for _, addend := range equation.Addends {
		sign := "+"
		if addend.Coefficient.IsNegative() {
			sign = "−"
		}
		words += fmt.Sprintf(" %s %s × %s", sign, addend.Coefficient.Abs(), addend.Measure)
	}
	return words
}
