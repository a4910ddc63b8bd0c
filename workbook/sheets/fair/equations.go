package fair

import (
	"fmt"
	"strings"

	"railbook/grading"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/workbook/result"
	"railbook/workbook/sheets/kit"
)

// equations writes how each figure was computed and where that is published.
func (p *Writer) equations(page *kit.Page) {
	page.Section("Equations and their sources", runColumns)
	for _, kind := range p.KindsOfClasses() {
		for _, id := range grading.Computes(kind.Species, kind.Basis) {
			words := p.equationWords(kind, id)
			if words != "" {
				page.Across(phrase.Sentence(fmt.Sprintf("%s, %s: %s", kind.Words(), id, words)), kit.Body, 1, runColumns)
			}
		}
	}
	page.Across("All figures are exact decimal arithmetic, rounded to 6 decimals; grades, limits and rankings use that figure.", kit.Note, 1, runColumns)
}

func (p *Writer) equationWords(kind result.KindOfClass, id measure.ID) string {
	var parts []string
	if equation, linear := grading.Equation(p.Rules, kind.Species, kind.Basis, id); linear {
		parts = append(parts, linearWords(equation))
	}
	if source := grading.Source(kind.Species, id); source != "" {
		parts = append(parts, source)
	}
	return strings.Join(parts, "; ")
}

// linearWords writes an equation as a sum: 2.5 + 2.5 × adjusted fat - 0.32 × ribeye area.
func linearWords(equation grading.Linear) string {
	words := equation.Constant.String()
	for _, addend := range equation.Addends {
		sign := "+"
		if addend.Coefficient.IsNegative() {
			sign = "-"
		}
		words += fmt.Sprintf(" %s %s × %s", sign, addend.Coefficient.Abs(), addend.Measure)
	}
	return words
}
