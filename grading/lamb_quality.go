package grading

import (
	"railbook/rules"
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
// Traces 00 in B (from memory). Thirds of Prime and Choice are those of 200 points, of Good those of 100.
var lambLeanQuality = Arithmetic{{Of: refused{
	why: func(g *Graded) string {
		maturity, streaking := g.FigureOf(measure.OverallMaturity).Value.Number, g.ReadingOf(measure.FlankStreaking).Value.Number.Truncate(0)
		switch {
		case maturity.LessThan(Hundred) || !maturity.LessThan(decimal.NewFromInt(300)):
			return "a lamb's maturity is A or B, not " + FormatMaturity(maturity)
		case streaking.IsNegative() || streaking.GreaterThan(decimal.NewFromInt(999)):
			return "a flank streaking of " + streaking.String() + " is outside 0 to 999"
		}
		return ""
	},
	Expression: lookUp{
		chart: lambLeanQualityChart, score: Whole{Of: reading(measure.FlankStreaking)}, within: ComputedFigure(measure.OverallMaturity),
	},
}}}

var lambLeanQualityChart = newGradeChart(rules.Lamb, "lean quality score", "Lamb lean quality scores: least flank streaking by maturity",
	"Maturity", "Score", nil, func(score string) measure.Value { return measure.NumberValue(Exact(score)) })

// lambConformation scores conformation on the same scale: as graded in words, or by the leg score.
var lambConformation = Arithmetic{
	{Of: gradeScore{measure.Conformation}},
	{Of: Whole{Of: reading(measure.LegScore)}, assumed: "conformation by the leg score"},
}

// gradeScore is the score of a grade given in words; the formula carries it as a number.
type gradeScore struct{ measure measure.ID }

func (s gradeScore) operands() []Expression { return []Expression{reading(s.measure)} }

func (s gradeScore) value(g *Graded) (measure.Value, string) {
	score := g.ReadingOf(s.measure).Value.Number.IntPart() - lambRankAboveScore
	if score < 7 { // Utility and Cull
		score = 5
	}
	return number(decimal.NewFromInt(score)), ""
}

func (s gradeScore) write(f *formula, _ int) {
	score, _ := s.value(f.graded)
	f.number(score.Number)
}

func (s gradeScore) shape(shape []byte, g *Graded) []byte { return shapeOf(shape, g, s.measure) }

// lambQuality puts lean quality and conformation together. Where quality is above conformation, their mean, half a point
// rounding down, at most three above the conformation; where conformation is above quality, one better only within
// Choice, and only where conformation is at least two higher; else the quality. (Our own reading; it gives both published
// cases: Low Prime with Choice is High Choice, High Prime with Low Good is Low Choice.)
var lambQuality = Arithmetic{{
	Of: listed{from: 6, grades: lambGradeList(), of: conditional{
		when: compared{leanQuality, "<", integer(7)},
		then: integer(6),
		otherwise: conditional{
			when: compared{leanQuality, ">", conformation},
			then: greatest{integer(6), least{
				linear("3", addend("1", measure.ConformationScore)),
				Whole{Of: linear("0", addend("0.5", measure.LeanQualityScore), addend("0.5", measure.ConformationScore))},
			}},
			otherwise: conditional{
				when: every{
					compared{leanQuality, ">=", integer(10)},
					compared{leanQuality, "<=", integer(11)},
					compared{conformation, ">=", linear("2", addend("1", measure.LeanQualityScore))},
				},
				then: linear("1", addend("1", measure.LeanQualityScore)), otherwise: leanQuality,
			},
		},
	}},
	notes: func(g *Graded) string {
		return join(g.FigureOf(measure.OverallMaturity).Assumed, g.FigureOf(measure.ConformationScore).Assumed)
	},
}}

var (
	leanQuality  = ComputedFigure(measure.LeanQualityScore)
	conformation = ComputedFigure(measure.ConformationScore)
)

// lambGradeList gives the lamb grades from Utility up.
func lambGradeList() []measure.Value {
	var grades []measure.Value
	for score := int64(6); score <= 15; score++ {
		grades = append(grades, lambGradeWords[score])
	}
	return grades
}
