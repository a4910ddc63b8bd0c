package grading

import (
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// porkGrade is the USDA grade of a barrow's or gilt's carcass: 4.0 × last-rib backfat less the muscling score (1 thin,
// 2 average, 3 thick), its fraction dropped, 1 to 4 (7 CFR 53.153); thin muscling is never No. 1; carcasses with soft or
// oily fat or pale, watery lean are Utility (7 CFR 54.135, 49 FR 48673). Soft is read from firmness 1, pale and watery
// from lean color 1 together with wetness 1 (our own reading of the pork quality standards of 2010).
type porkGrade struct{}

var porkGradeEquation = linear("0", addend("4.0", measure.LastRibFat), addend("-1", measure.MusclingScore))

// porkGradeValues are the grades from No. 1 to No. 4, then Utility; No. 1 ranks highest.
var porkGradeValues = func() (values []measure.Value) {
	for at, words := range porkGrades() {
		values = append(values, measure.Value{Number: decimal.NewFromInt(int64(5 - at)), Text: words})
	}
	return values
}()

// PorkUtility is the grade of carcasses with soft fat or pale, watery lean.
const PorkUtility = "U.S. Utility"

func porkGrades() []string {
	return []string{"U.S. No. 1", "U.S. No. 2", "U.S. No. 3", "U.S. No. 4", PorkUtility}
}

func (porkGrade) figure(g *Graded, _ measure.ID) (Figure, int8) {
	missing, _ := lacking(g, []Expression{reading(measure.LastRibFat), reading(measure.MusclingScore)})
	for _, score := range []measure.ID{measure.LeanColor, measure.Firmness, measure.Wetness} {
		if g.ReadingOf(score).Unreadable {
			missing = join(missing, "the "+score.String()+" cannot be read")
		}
	}
	if missing != "" {
		return Figure{Missing: missing}, notTaken
	}
	muscling := g.ReadingOf(measure.MusclingScore).Value.Number
	if !muscling.Equal(muscling.Truncate(0)) || muscling.LessThan(One) || muscling.GreaterThan(decimal.NewFromInt(3)) {
		return Figure{Missing: "a muscling score is 1 thin, 2 average or 3 thick, not " + muscling.String()}, notTaken
	}
	if g.scored(measure.Firmness, 1) || g.scored(measure.LeanColor, 1) && g.scored(measure.Wetness, 1) {
		return Figure{Value: porkGradeValues[4]}, 0
	}
	score, _ := porkGradeEquation.value(g)
	best := int64(1)
	if muscling.Equal(One) {
		best = 2
	}
	number := max(best, min(4, score.Round(6).IntPart()))
	return Figure{Value: porkGradeValues[number-1]}, 0
}

// scored reports whether a judged score was given and is this one.
func (g *Graded) scored(id measure.ID, score int64) bool {
	reading, ok := g.Reading(id)
	return ok && reading.Value.Number.Equal(decimal.NewFromInt(score))
}

func (porkGrade) write(f *formula, _ int8, _ int) {
	worse := func(id measure.ID) {
		f.reading(id)
		f.add("=1")
	}
	_, firmness := f.graded.Written(measure.Firmness)
	_, color := f.graded.Written(measure.LeanColor)
	_, wetness := f.graded.Written(measure.Wetness)
	ends := ""
	if firmness {
		f.add("IF(")
		worse(measure.Firmness)
		f.add(`,"` + PorkUtility + `",`)
		ends += ")"
	}
	if color && wetness {
		f.add("IF(AND(")
		worse(measure.LeanColor)
		f.add(",")
		worse(measure.Wetness)
		f.add(`),"` + PorkUtility + `",`)
		ends += ")"
	}
	f.add(`"U.S. No. "&MAX(IF(`)
	worse(measure.MusclingScore)
	f.add(",2,1),MIN(4,INT(")
	Rounded{porkGradeEquation, 6}.write(f, loose)
	f.add(")))" + ends)
}

func (porkGrade) shape(shape []byte, g *Graded, _ int8) []byte {
	for _, id := range []measure.ID{measure.LastRibFat, measure.MusclingScore, measure.Firmness, measure.LeanColor, measure.Wetness} {
		if _, read := g.Written(id); read {
			shape = shapeOf(append(shape, byte(id)), g, id)
		}
	}
	return shape
}

func (porkGrade) ways() [][]measure.ID {
	return [][]measure.ID{{measure.LastRibFat, measure.MusclingScore}}
}
