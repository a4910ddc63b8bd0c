package grading

import (
	"railbook/rules/measure"
)

// overallMaturity is the maturity of the carcass as a whole: given as one, or put together from bone and lean. Where the
// sheet has none the carcass is taken for a young one, as contest cattle are.
var overallMaturity = Arithmetic{
	{Of: Whole{Of: reading(measure.Maturity)}},
	{Of: combinedMaturity},
	{Of: Whole{Of: reading(measure.SkeletalMaturity)}, assumed: "maturity {}, the skeletal alone"},
	{Of: Whole{Of: reading(measure.LeanMaturity)}, assumed: "maturity {}, the lean alone"},
	{Of: integer(150), assumed: "maturity {}, for the sheet has none"},
}

// combinedMaturity puts skeletal and lean maturity together: differing by 40 or less they are averaged; by more, the
// average is moved 10 toward skeletal; skeletal maturity of C15 or more is never brought back below C00 (working rule of
// a contest teaching set, a second-hand copy). The overall maturity is never more than a full group from the skeletal
// (U.S. standards for grades of carcass beef). Half a point goes to the skeletal side, which the standard favours.
var (
	combinedMaturity = greatest{
		sum{reading(measure.SkeletalMaturity), greatest{integer(-100), least{integer(100), leanMove}}},
		conditional{when: compared{reading(measure.SkeletalMaturity), ">=", integer(315)}, then: integer(300), otherwise: integer(0)},
	}

	leanApart = difference{reading(measure.LeanMaturity), reading(measure.SkeletalMaturity)}
	leanMove  = difference{
		Whole{Of: product{linear("0.5"), leanApart}},
		conditional{
			when: compared{leanApart, ">", integer(40)}, then: integer(10),
			otherwise: conditional{when: compared{leanApart, "<", integer(-40)}, then: integer(-10), otherwise: integer(0)},
		},
	}
)
