package grading

import (
	"strings"

	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// beefQuality is the quality grade of a beef carcass, from marbling and overall maturity.
//
// Under 30 months of age by dentition or papers a carcass is graded as A (82 FR 57569, effective 18 December 2017); what
// then counts for one with D or E bone is unresolved, so it gets no grade. A bull has none; a bullock is graded in A only;
// a cow is never Prime (U.S. standards for grades of carcass beef): one that reaches it is High Choice (our own reading).
type beefQuality struct{}

// qualityCase is all that decides the grade of one carcass.
type qualityCase struct {
	marbling int64
	group    int64 // 1 is A
	place    int64 // 00 to 99 within the group
	byAge    bool  // A because of its age, whatever the bone says
	cow      bool
	sixths   int64 // of a grade that the judge lowers it by
	assumed  string
}

func (q beefQuality) figure(g *Graded, _ measure.ID) (Figure, int8) {
	with, missing := q.caseOf(g)
	if missing != "" {
		return Figure{Missing: missing}, notTaken
	}
	line := with.line()
	grade, third := line.lowered(with.sixths)
	assumed := with.assumed
	if with.sixths > 3 && (line.grade == standard || line.grade == commercial) {
		assumed = join(assumed, "lowered by half a grade, the most for "+beefGradeNames[line.grade])
	}
	return Figure{Value: beefGradeValues[grade][third], Assumed: assumed}, 0
}

// unlowered gives the grade in words as it is without the lowering for dark lean.
func (q beefQuality) unlowered(g *Graded) (words, missing string) {
	with, missing := q.caseOf(g)
	if missing != "" {
		return "", missing
	}
	line := with.line()
	return beefGradeValues[line.grade][line.third].Text, ""
}

func (beefQuality) caseOf(g *Graded) (with qualityCase, missing string) {
	for _, id := range []measure.ID{measure.MarblingScore, measure.OverallMaturity} {
		lack, _ := g.lacks(id)
		missing = join(missing, lack)
	}
	for _, id := range []measure.ID{measure.DarkCutterLowering, measure.DarkCutter, measure.Under30Months, measure.Bullock} {
		if g.ReadingOf(id).Unreadable {
			missing = join(missing, "the "+id.String()+" cannot be read")
		}
	}
	if missing != "" {
		return with, missing
	}
	maturity := g.FigureOf(measure.OverallMaturity)
	score, age := g.FigureOf(measure.MarblingScore).Value.Number.IntPart(), maturity.Value.Number.IntPart()
	with = qualityCase{
		marbling: score, group: age / 100, place: age % 100, cow: g.Is(measure.Cow),
		sixths: g.ReadingOf(measure.DarkCutterLowering).Value.Number.IntPart(), assumed: maturity.Assumed,
	}
	if g.Is(measure.DarkCutter) && with.sixths == 0 {
		with.assumed = join(with.assumed, "a dark cutter, but the judge has lowered its grade by nothing")
	}
	if g.marked(measure.Under30Months) && with.group > 1 {
		if with.group > 3 {
			return with, "under 30 months of age but with " + FormatMaturity(maturity.Value.Number) + " bone: the judge must say the maturity"
		}
		with.group, with.place, with.byAge = 1, 0, true
		with.assumed = join(with.assumed, "maturity A, for it is under 30 months of age")
	}
	switch {
	case score < 0 || score > 999:
		return with, "a marbling of " + maturityText(score) + " is outside 0 to 999"
	case age < 100 || age > 599:
		return with, "a maturity of " + maturityText(age) + " is outside 100 to 599"
	case g.Is(measure.Bull):
		return with, "a bull has no quality grade"
	case g.Is(measure.Bullock) && with.group > 1:
		return with, "a bullock is graded in maturity A only"
	case loweringColumn(with.sixths) < 0:
		return with, "the dark cutter lowering is none of 0, 1/3, 1/2, 2/3 and full"
	}
	return with, ""
}

func maturityText(number int64) string { return decimal.NewFromInt(number).String() }

// marked reports whether a mark is set.
func (g *Graded) marked(id measure.ID) bool {
	mark, ok := g.Reading(id)
	return ok && mark.Value.Number.IsPositive()
}

// line finds the last line of the table whose minimum is met.
func (c qualityCase) line() qualityLine {
	marbling := c.marbling
	if c.cow && c.group <= 2 {
		marbling = min(marbling, beefCowMarbling)
	}
	var found qualityLine
	for _, line := range beefQualityTable {
		if line.group == c.group && line.at00*100+(line.at100-line.at00)*c.place <= marbling*100 {
			found = line
		}
	}
	return found
}

// beefCowMarbling counts as the most a cow of A or B can have: it is High Choice everywhere in both.
const beefCowMarbling = 699

func loweringColumn(sixths int64) int {
	for at, amount := range loweringAmounts {
		if amount.sixths == sixths {
			return at
		}
	}
	return -1
}

func (q beefQuality) write(f *formula, _ int8, _ int) {
	with, _ := q.caseOf(f.graded)
	with.write(f, loweringColumn(with.sixths))
}

func (q beefQuality) writeUnlowered(f *formula) {
	with, _ := q.caseOf(f.graded)
	with.write(f, 0)
}

// write looks the grade up in the table on the Value grid sheet: the lines of the group are together, lowest first, so the
// group's first line and the number of its minimums that are met give the line; the lowering gives the column.
func (c qualityCase) write(f *formula, column int) {
	group, place := c.ageFormulas(f)
	groups := f.at.Range(beefQualityGroups)
	f.add("INDEX(" + f.at.Range(beefQualityGrades) + ",MATCH(" + group + "," + groups + ",0)-1+SUMPRODUCT((" + groups + "=" + group + ")*(ROUND(" +
		f.at.Range(beefQualityAt00) + "+" + f.at.Range(beefQualitySlide) + "*" + place + "/100,6)<=")
	c.writeMarbling(f, group)
	f.add(")),")
	f.integer(int64(column + 1))
	f.add(")")
}

func (c qualityCase) writeMarbling(f *formula, group string) {
	if !c.cow {
		f.figure(measure.MarblingScore, loose)
		return
	}
	f.add("MIN(")
	f.figure(measure.MarblingScore, loose)
	switch {
	case c.group <= 2 && !strings.HasPrefix(group, "INT("):
		f.add(",")
		f.integer(beefCowMarbling)
		f.add(")")
	case !strings.HasPrefix(group, "INT("):
		f.add(",999)")
	default:
		f.add(",IF(" + group + "<3,")
		f.integer(beefCowMarbling)
		f.add(",999))")
	}
}

// ageFormulas gives the maturity group's number and the place within it, as numbers where no cell holds the maturity.
func (c qualityCase) ageFormulas(f *formula) (group, place string) {
	age := formula{graded: f.graded, at: f.at}
	age.figure(measure.OverallMaturity, asFactor)
	if c.byAge || len(age.numbers) == 0 {
		return maturityText(c.group), maturityText(c.place)
	}
	for _, cell := range age.numbers {
		f.needs(cell)
	}
	return "INT(" + string(age.text) + "/100)", "MOD(" + string(age.text) + ",100)"
}

func (q beefQuality) shape(shape []byte, g *Graded, _ int8) []byte {
	with, _ := q.caseOf(g)
	shape = append(shape, byte('0'+with.sixths))
	if with.byAge {
		shape = append(shape, 'y')
	}
	if with.cow {
		shape = append(shape, 'w')
	}
	return shape
}

func (beefQuality) ways() [][]measure.ID {
	return [][]measure.ID{{measure.MarblingScore, measure.OverallMaturity}}
}

// The names of the quality table's ranges on the Value grid sheet.
const (
	beefQualityGroups = "beef quality groups"
	beefQualityGrades = "beef quality grades"
	beefQualityAt00   = "beef quality at 00"
	beefQualitySlide  = "beef quality slide"
)
