package grading

import (
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// overallMaturity is the maturity of the carcass as a whole: given as one, or put together from bone and lean. Where the
// sheet has none the carcass is taken for a young one, as contest cattle are.
var overallMaturity = Arithmetic{
	{Of: Whole{Of: reading(measure.Maturity)}},
	{Of: combinedMaturity{}},
	{Of: Whole{Of: reading(measure.SkeletalMaturity)}, assumed: "maturity {}, the skeletal alone"},
	{Of: Whole{Of: reading(measure.LeanMaturity)}, assumed: "maturity {}, the lean alone"},
	{Of: linear("150"), assumed: "maturity {}, for the sheet has none"},
}

// combinedMaturity puts skeletal and lean maturity together: differing by 40 or less they are averaged; by more, the
// average is moved 10 toward skeletal; skeletal maturity of C15 or more is never brought back below C00 (working rule of
// a contest teaching set, a second-hand copy). The overall maturity is never more than a full group from the skeletal
// (U.S. standards for grades of carcass beef). Half a point goes to the skeletal side, which the standard favours.
type combinedMaturity struct{}

func (combinedMaturity) operands() []Expression {
	return []Expression{reading(measure.SkeletalMaturity), reading(measure.LeanMaturity)}
}

func (combinedMaturity) value(g *Graded) (decimal.Decimal, string) {
	skeletal := g.ReadingOf(measure.SkeletalMaturity).Value.Number.IntPart()
	apart := g.ReadingOf(measure.LeanMaturity).Value.Number.IntPart() - skeletal
	move := apart / 2
	switch {
	case apart > 40:
		move -= 10
	case apart < -40:
		move += 10
	}
	overall := skeletal + max(-100, min(100, move))
	if skeletal >= 315 {
		overall = max(overall, 300)
	}
	return decimal.NewFromInt(overall), ""
}

func (combinedMaturity) write(f *formula, tightness int) {
	skeletal := func() { f.reading(measure.SkeletalMaturity) }
	apart := func() {
		f.add("(")
		f.reading(measure.LeanMaturity)
		f.add("-")
		skeletal()
		f.add(")")
	}
	f.add("MAX(")
	skeletal()
	f.add("+MAX(-100,MIN(100,TRUNC(")
	apart()
	f.add("/2)-IF(ABS(")
	apart()
	f.add(")>40,10*SIGN(")
	apart()
	f.add("),0))),IF(")
	skeletal()
	f.add(">=315,300,0))")
}
