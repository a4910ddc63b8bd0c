package grading

import (
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// lambGradeWords are the lamb grades by their score: 6 and below Utility, 7 Low Good to 15 High Prime. The scores are
// those of leg scores (from memory).
var lambGradeWords = func() map[int64]measure.Value {
	values := map[int64]measure.Value{6: wholeGradeValue(utility, "Utility")}
	for _, whole := range []struct {
		grade grade
		name  string
	}{{selectGrade, "Good"}, {Choice, "Choice"}, {prime, "Prime"}} {
		for _, third := range []third{LowThird, middleThird, highThird} {
			values[rank(whole.grade, third)-lambRankAboveScore] = ThirdValue(whole.grade, whole.name, third)
		}
	}
	return values
}()

// lambRankAboveScore is the distance between a grade's rank and its lamb score: Low Good ranks 18 and scores 7.
const lambRankAboveScore = 11

func lambGrades() []string {
	var all []string
	for score := int64(15); score >= 6; score-- {
		all = append(all, lambGradeWords[score].Text)
	}
	return all
}

// lambMaturity is A or B; a show lamb whose sheet says nothing is taken for a young one. Lambs of A are 3 to 8 months old, of
// B 10 to 14: not the ages of cattle.
var lambMaturity = Arithmetic{
	{Of: Whole{Of: reading(measure.Maturity)}},
	{Of: linear("150"), assumed: "maturity {}, for the sheet has none"},
}

// lambLeanQuality scores flank streaking for the maturity, 7 Low Good to 15 High Prime, 5 for less than Good. The least
// streaking for Prime rises from Small 00 to 100 through A and from Modest 00 to 100 through B (U.S. standards for grades
// of lamb, 1992); for Choice from Traces 00 in A and Slight 00 in B; for Good from Practically Devoid 00 in A and
// Traces 00 in B (from memory). In numbers: Prime from 300 + maturity, Choice 200 and Good 300 below that. Thirds of Prime
// and Choice are those of 200 points, of Good those of 100.
type lambLeanQuality struct{}

func (lambLeanQuality) operands() []Expression {
	return []Expression{reading(measure.FlankStreaking), ComputedFigure(measure.OverallMaturity)}
}

func (lambLeanQuality) value(g *Graded) (decimal.Decimal, string) {
	streaking := g.ReadingOf(measure.FlankStreaking).Value.Number.IntPart()
	maturity := g.FigureOf(measure.OverallMaturity).Value.Number.IntPart()
	switch {
	case maturity < 100 || maturity > 299:
		return decimal.Decimal{}, "a lamb's maturity is A or B, not " + FormatMaturity(decimal.NewFromInt(maturity))
	case streaking < 0 || streaking > 999:
		return decimal.Decimal{}, "a flank streaking of " + decimal.NewFromInt(streaking).String() + " is outside 0 to 999"
	}
	above := streaking - maturity - 300
	score := int64(5)
	switch {
	case above >= 0:
		score = 13 + min(2, above*3/200)
	case above >= -200:
		score = 10 + (above+200)*3/200
	case above >= -300:
		score = 7 + (above+300)*3/100
	}
	return decimal.NewFromInt(score), ""
}

func (lambLeanQuality) write(f *formula, _ int) {
	above := func(more string) {
		f.add("(TRUNC(")
		f.reading(measure.FlankStreaking)
		f.add(")-")
		f.figure(measure.OverallMaturity, asAddend)
		f.add(more + ")")
	}
	f.add("IF(")
	above("")
	f.add(">=300,13+MIN(2,INT(")
	above("-300")
	f.add("*3/200)),IF(")
	above("")
	f.add(">=100,10+INT(")
	above("-100")
	f.add("*3/200),IF(")
	above("")
	f.add(">=0,7+INT(")
	above("")
	f.add("*3/100),5)))")
}

// lambConformation scores conformation on the same scale: as graded in words, or by the leg score.
var lambConformation = Arithmetic{
	{Of: gradeScore{measure.Conformation}},
	{Of: Whole{Of: reading(measure.LegScore)}, assumed: "conformation by the leg score"},
}

// gradeScore is the score of a grade given in words; the formula carries it as a number.
type gradeScore struct{ measure measure.ID }

func (s gradeScore) operands() []Expression { return []Expression{reading(s.measure)} }

func (s gradeScore) value(g *Graded) (decimal.Decimal, string) {
	score := g.ReadingOf(s.measure).Value.Number.IntPart() - lambRankAboveScore
	if score < 7 { // Utility and Cull
		score = 5
	}
	return decimal.NewFromInt(score), ""
}

func (s gradeScore) write(f *formula, _ int) {
	score, _ := s.value(f.graded)
	f.number(score)
}

// lambQuality puts lean quality and conformation together. Where quality is above conformation, their mean, half a point
// rounding down, at most three above the conformation; where conformation is above quality, one better only within
// Choice, and only where conformation is at least two higher; else the quality. (Our own reading; it gives both published
// cases: Low Prime with Choice is High Choice, High Prime with Low Good is Low Choice.)
type lambQuality struct{}

func (lambQuality) score(quality, conformation int64) int64 {
	switch {
	case quality < 7:
		return 6
	case quality > conformation:
		return max(6, min(conformation+3, (quality+conformation)/2))
	case quality >= 10 && quality <= 11 && conformation >= quality+2:
		return quality + 1
	}
	return quality
}

func (q lambQuality) figure(g *Graded, _ measure.ID) (Figure, int8) {
	missing := ""
	for _, id := range []measure.ID{measure.LeanQualityScore, measure.ConformationScore} {
		lack, _ := g.lacks(id)
		missing = join(missing, lack)
	}
	if missing != "" {
		return Figure{Missing: missing}, notTaken
	}
	conformation := g.FigureOf(measure.ConformationScore)
	score := q.score(g.FigureOf(measure.LeanQualityScore).Value.Number.IntPart(), conformation.Value.Number.IntPart())
	assumed := join(g.FigureOf(measure.OverallMaturity).Assumed, conformation.Assumed)
	if score > 15 {
		return Figure{Missing: "a leg score of " + conformation.Value.Text + " is outside 7 to 15"}, notTaken
	}
	return Figure{Value: lambGradeWords[score], Assumed: assumed}, 0
}

func (lambQuality) write(f *formula, _ int8, _ int) {
	quality := func() { f.figure(measure.LeanQualityScore, asFactor) }
	conformation := func() { f.figure(measure.ConformationScore, asFactor) }
	f.add("CHOOSE(IF(")
	quality()
	f.add("<7,6,IF(")
	quality()
	f.add(">")
	conformation()
	f.add(",MAX(6,MIN(")
	conformation()
	f.add("+3,INT((")
	quality()
	f.add("+")
	conformation()
	f.add(")/2))),IF(AND(")
	quality()
	f.add(">=10,")
	quality()
	f.add("<=11,")
	conformation()
	f.add(">=")
	quality()
	f.add("+2),")
	quality()
	f.add("+1,")
	quality()
	f.add(`)))-5,"`)
	grades := lambGrades()
	for at := range grades {
		if at > 0 {
			f.add(`","`)
		}
		f.add(grades[len(grades)-1-at])
	}
	f.add(`")`)
}

func (lambQuality) shape(shape []byte, _ *Graded, _ int8) []byte { return shape }

func (lambQuality) ways() [][]measure.ID {
	return [][]measure.ID{{measure.LeanQualityScore, measure.ConformationScore}}
}
