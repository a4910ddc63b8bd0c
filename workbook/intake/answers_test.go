package intake

import (
	"reflect"
	"strconv"
	"testing"

	"railbook/rules/measure"
	"railbook/workbook/xlsx"
)

// What a cell says does not depend on what cells of the same column said before: the same text stored otherwise (as a percent, a date,
// a text, a formula's value) may be another answer.
func TestAnswersAreThoseOfTheCellAlone(t *testing.T) {
	texts := []string{"0.025", "812", "45", "TRUE", "#REF!", "Small 40", "n/a", "812#", "3", "Cal Mott - DQ", "a"}
	for _, id := range []measure.ID{measure.InternalFat, measure.KillDate, measure.Exhibitor, measure.Marbling, measure.DarkCutter, measure.Tag, measure.Remarks} {
		p := asked(t, id, "")
		fresh := func() *cellParser {
			return &cellParser{definition: p.definition, scale: p.scale, vocabulary: p.vocabulary}
		}
		for _, text := range texts {
			for form := range 4 << 3 {
				cell := xlsx.Cell{
					Column: 1 + form%3, Kind: xlsx.Number + xlsx.CellKind(form>>3), Raw: text,
					Formula: form&1 > 0, Date: form&2 > 0, Percent: form&4 > 0,
				}
				got, want := p.answer(cell).asParsed(), fresh().answerAnew(cell).asParsed()
				if !reflect.DeepEqual(got, want) {
					t.Fatalf("%s of %+v: behind others\n%+v; alone\n%+v", id, cell, got, want)
				}
			}
		}
	}
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
