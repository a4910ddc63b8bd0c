package grading

import (
	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// The weights and the fat that every species has, however the sheet gives them.
var (
	liveWeight = Arithmetic{
		{Of: reading(measure.LiveWeight)},
		{Of: reading(measure.FairWeight), assumed: "live weight {} lb, the fair's own, for the plant gives none"},
	}

	hotCarcassWeight = Arithmetic{
		{Of: reading(measure.HotCarcassWeight)},
		{Of: Rounded{linear("0", addend("1", measure.LeftSideWeight), addend("1", measure.RightSideWeight)), 4}},
		{
			Of:      Rounded{product{reading(measure.ChilledCarcassWeight), chilledToHot}, 4},
			assumed: "hot carcass weight {} lb, from the chilled weight",
		},
	}

	chilledToHot = setting{"chilled to hot", func(s *rules.Settings, _ rules.Species) decimal.NullDecimal { return s.ChilledToHot }}

	// The fat of both sides is averaged, as the standards for lamb ask; one side alone has to do where the other is blank.
	measuredFat = Arithmetic{
		{Of: reading(measure.MeasuredFat)},
		{Of: Rounded{linear("0", addend("0.5", measure.LeftFat), addend("0.5", measure.RightFat)), 6}},
		{Of: reading(measure.LeftFat), assumed: "fat of the left side alone"},
		{Of: reading(measure.RightFat), assumed: "fat of the right side alone"},
	}

	adjustedFat = Arithmetic{
		{Of: reading(measure.AdjustedFat)},
		{Of: Rounded{linear("0", addend("1", measure.MeasuredFat), addend("1", measure.FatAdjustment)), 6}},
		{Of: ComputedFigure(measure.MeasuredFat)},
	}

	dressingPercent = Arithmetic{{Of: Quotient{
		Over: linear("0", addend("100", measure.HotCarcassWeight)), Under: ComputedFigure(measure.LiveWeight), Places: 6,
		zero: "the live weight is zero",
	}}}
)
