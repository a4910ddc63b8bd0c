package grading

import (
	"slices"

	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// The quality grade of a beef carcass is looked up by marbling and overall maturity.
//
// Under 30 months of age by dentition or papers a carcass is graded as A (82 FR 57569, effective 18 December 2017); what
// then counts for one with D or E bone is unresolved, so it gets no grade. A bull has none; a bullock is graded in A only;
// a cow is never Prime (U.S. standards for grades of carcass beef): one that reaches it is High Choice (our own reading).
//
// Dark cutting lean: Prime, Choice and Select are lowered by up to a full grade, Standard and Commercial by up to half of
// one (the same standards); grades below them not at all. The chart has the grade as lowered: the middle of the label less
// the amount, read back (our own reading).
var (
	beefQualityChart = newGradeChart(rules.Beef, "quality", "Beef quality grades: least marbling by maturity", "Maturity", "Grade", nil, gradeInWords)

	beefQuality = Arithmetic{{Of: refused{
		why:        noBeefQuality,
		Expression: beefQualityLookUp(true),
		weighs:     beefQualityWeighs,
	}, notes: beefQualityNotes}}

	// unloweredBeefQuality is the grade as it is without the lowering for dark lean.
	unloweredBeefQuality = refused{why: noBeefQuality, Expression: beefQualityLookUp(false), weighs: beefQualityWeighs}

	beefQualityWeighs = []measure.ID{measure.DarkCutter, measure.Bullock, measure.Bull, measure.Sex}
)

func beefQualityLookUp(lowered bool) lookUp {
	return lookUp{chart: beefQualityChart, score: countedMarbling, within: countedMaturity, lowered: lowered}
}

var (
	fromB           = compared{ComputedFigure(measure.OverallMaturity), ">=", integer(200)}
	countedMaturity = conditional{
		when: every{marked(measure.Under30Months), fromB}, then: integer(100), otherwise: ComputedFigure(measure.OverallMaturity),
	}

	// 699 counts as the most a cow of A or B can have: it is High Choice everywhere in both.
	countedMarbling = conditional{
		when: marked(measure.Cow),
		then: least{ComputedFigure(measure.MarblingScore), conditional{
			when: compared{countedMaturity, "<", integer(300)}, then: integer(699), otherwise: integer(999),
		}},
		otherwise: ComputedFigure(measure.MarblingScore),
	}
)

// noBeefQuality says why a carcass whose marbling and maturity are known has no quality grade.
func noBeefQuality(g *Graded) string {
	age := g.FigureOf(measure.OverallMaturity).Value.Number
	score := g.FigureOf(measure.MarblingScore).Value.Number
	counted, _ := countedMaturity.value(g)
	_, column := g.loweringOf()
	switch within := func(number decimal.Decimal, from, upTo int64) bool {
		return !number.LessThan(decimal.NewFromInt(from)) && number.LessThan(decimal.NewFromInt(upTo))
	}; {
	case g.marked(measure.Under30Months) && !age.LessThan(decimal.NewFromInt(400)):
		return "under 30 months of age but with " + FormatMaturity(age) + " bone: the judge must say the maturity"
	case !within(score, 0, 1000):
		return "a marbling of " + score.String() + " is outside 0 to 999"
	case !within(age, 100, 600):
		return "a maturity of " + age.String() + " is outside 100 to 599"
	case g.Is(measure.Bull):
		return "a bull has no quality grade"
	case g.Is(measure.Bullock) && !within(counted.Number, 100, 200):
		return "a bullock is graded in maturity A only"
	case column < 0:
		return "the dark cutter lowering is none of 0, 1/3, 1/2, 2/3 and full"
	}
	return ""
}

// loweredByHalf are the grades that dark lean lowers by half a grade at most.
var loweredByHalf = []string{"Standard", "Commercial"}

// beefQualityNotes says what was assumed for the grade.
func beefQualityNotes(g *Graded) string {
	notes := g.FigureOf(measure.OverallMaturity).Assumed
	sixths, _ := g.loweringOf()
	if g.Is(measure.DarkCutter) && sixths == 0 {
		notes = join(notes, "a dark cutter, but the judge has lowered its grade by nothing")
	}
	if g.marked(measure.Under30Months) && fromB.holds(g) {
		notes = join(notes, "maturity A, for it is under 30 months of age")
	}
	if sixths <= 3 {
		return notes
	}
	if line, problem := beefQualityLookUp(true).line(g); problem == "" {
		if whole := rules.WholeGrade(line.grades[0].Text); slices.Contains(loweredByHalf, whole) {
			notes = join(notes, "lowered by half a grade, the most for "+whole)
		}
	}
	return notes
}
