package grading

import (
	"slices"

	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// porkGrade is the USDA grade of a barrow's or gilt's carcass: 4.0 × last-rib backfat less the muscling score (1 thin,
// 2 average, 3 thick), its fraction dropped, 1 to 4 (7 CFR 53.153); thin muscling is never No. 1; carcasses with soft or
// oily fat or pale, watery lean are Utility (7 CFR 54.135, 49 FR 48673). Soft is read from firmness 1, pale and watery
// from lean color 1 together with wetness 1 (our own reading of the pork quality standards of 2010).
var porkGrade = Arithmetic{{Of: refused{
	why: func(g *Graded) string {
		muscling := g.ReadingOf(measure.MusclingScore).Value.Number
		if !muscling.IsInteger() || muscling.LessThan(One) || muscling.GreaterThan(decimal.NewFromInt(3)) {
			return "a muscling score is 1 thin, 2 average or 3 thick, not " + muscling.String()
		}
		return ""
	},
	Expression: conditional{
		when: either{scored{measure.Firmness, 1}, every{scored{measure.LeanColor, 1}, scored{measure.Wetness, 1}}},
		then: word(porkGradeInWords(PorkUtility)),
		otherwise: lookUp{
			chart: porkGradeChart, group: reading(measure.MusclingScore),
			score: Rounded{linear("0", addend("4.0", measure.LastRibFat), addend("-1", measure.MusclingScore)), 6},
		},
	},
}}}

var porkGradeChart = newGradeChart(rules.Swine, "pork carcass grade", "Pork carcass grades: 4 times last-rib fat less the muscling score",
	"Muscling", "Grade", []string{"thin", "average", "thick"}, porkGradeInWords)

// PorkUtility is the grade of carcasses with soft fat or pale, watery lean.
const PorkUtility = "U.S. Utility"

// porkGrades gives the grades from No. 1 to No. 4, then Utility.
func porkGrades() []string { return rules.GradeWords(rules.Swine) }

// porkGradeInWords is the value of a pork carcass grade; No. 1 ranks highest.
func porkGradeInWords(words string) measure.Value {
	grades := porkGrades()
	return measure.Value{Number: decimal.NewFromInt(int64(len(grades) - slices.Index(grades, words))), Text: words}
}
