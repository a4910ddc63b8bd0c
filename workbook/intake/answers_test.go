package intake

import (
	"strconv"
	"testing"

	"railbook/grading"
	"railbook/rules/measure"
	"railbook/workbook/xlsx"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// What a cell says does not depend on what cells of the same column said before: the same text stored otherwise (as a percent, a date,
// a text) is another answer.
func TestAnswersAreThoseOfTheCellAlone(t *testing.T) {
	texts := []string{"0.025", "812", "45", "TRUE", "#REF!", "Small 40", "n/a", "812#", "3", "Cal Mott - DQ", "a"}
	measures := []measure.ID{measure.InternalFat, measure.KillDate, measure.Exhibitor, measure.Marbling, measure.DarkCutter, measure.Tag, measure.Remarks}
	rapid.Check(t, func(t *rapid.T) {
		id := rapid.SampledFrom(measures).Draw(t, "measure")
		fresh := func() *cellParser {
			definition, _ := measure.Define(id)
			return &cellParser{definition: definition, scale: newScale(definition.Unit, definition.Unit, "1", "1")}
		}
		p := fresh()
		for range rapid.IntRange(2, 12).Draw(t, "cells") {
			cell := xlsx.Cell{
				Column: rapid.IntRange(1, 3).Draw(t, "column"), Kind: rapid.SampledFrom([]xlsx.CellKind{xlsx.Number, xlsx.Text, xlsx.Bool, xlsx.ErrorValue}).Draw(t, "kind"),
				Raw:     rapid.SampledFrom(texts).Draw(t, "text"),
				Formula: rapid.Bool().Draw(t, "formula"), Date: rapid.Bool().Draw(t, "date"), Percent: rapid.Bool().Draw(t, "percent"),
			}
			got, want := p.answer(cell).asParsed(), fresh().answerAnew(cell).asParsed()
			if diff := cmp.Diff(want, got, cmp.AllowUnexported(parsedCell{}, grading.Reading{})); diff != "" {
				t.Fatalf("%+v (-alone +behind others)\n%s", cell, diff)
			}
		}
	})
}

// Of a column with many different values some answers are kept, and all are right.
func TestManyAnswersAreRight(t *testing.T) {
	p := asked(t, measure.HotCarcassWeight, "")
	for number := range 2 * mostAnswers {
		text := strconv.Itoa(number)
		if got := p.answer(xlsx.Cell{Kind: xlsx.Number, Raw: text}).asParsed().reading; got.Value.Text != text || got.Written != text {
			t.Fatalf("%s was read as %q", text, got.Value.Text)
		}
	}
	if p.answers.count != mostAnswers {
		t.Errorf("%d answers were kept; want %d", p.answers.count, mostAnswers)
	}
}

// Whether a text may speak against publishing a name is told by the beginnings of its words as by the whole pattern.
func TestRefusalsAreToldByTheBeginningsOfWords(t *testing.T) {
	words := []string{
		"do not", "don't", "don’t", "Dont", "not", "No", "never", "WITHOUT", "withhold", "refused", "declined", "against", "opt out", "opted-out",
		"foster", "Confidential", "protective order", "custody", "anonymous", "Cal", "Reed", "x", "7", "é", "_",
	}
	objects := []string{"", "photo", "Pictures", "publish", "print", "names", "web site", "consent", "release", "order", "Mott"}
	marks := []string{"", " ", ", ", "-", "(", "é", "_", "a"}
	matched := 0
	rapid.Check(t, func(t *rapid.T) {
		text := ""
		for range 3 {
			text += rapid.SampledFrom(marks).Draw(t, "mark") + rapid.SampledFrom(words).Draw(t, "word") +
				rapid.SampledFrom(marks).Draw(t, "mark") + rapid.SampledFrom(objects).Draw(t, "object")
		}
		want := againstConsent.MatchString(text)
		if want {
			matched++
		}
		if got := speaksAgainst(text); got != want {
			t.Fatalf("%q speaks against it: %v; want %v", text, got, want)
		}
	})
	if matched == 0 {
		t.Error("no text was drawn that does")
	}
}
