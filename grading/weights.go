package grading

import (
	"github.com/shopspring/decimal"

	"railbook/rules"
	"railbook/rules/measure"
)

// The weights and the fat that every species has, however the sheet gives them.
var (
	liveWeight = arithmetic{
		{of: reading(measure.LiveWeight)},
		{of: reading(measure.FairWeight), assumed: "live weight {} lb, the fair's own, for the plant gives none"},
	}

	hotCarcassWeight = arithmetic{
		{of: reading(measure.HotCarcassWeight)},
		{of: rounded{linear("0", addend("1", measure.LeftSideWeight), addend("1", measure.RightSideWeight)), 4}},
		{
			of:      rounded{product{reading(measure.ChilledCarcassWeight), chilledToHot}, 4},
			assumed: "hot carcass weight {} lb, from the chilled weight",
		},
	}

	chilledToHot = setting{"chilled to hot", func(s *rules.Settings, _ rules.Species) decimal.NullDecimal { return s.ChilledToHot }}

	// The fat of both sides is averaged, as the standards for lamb ask; one side alone has to do where the other is blank.
	measuredFat = arithmetic{
		{of: reading(measure.MeasuredFat)},
		{of: rounded{linear("0", addend("0.5", measure.LeftFat), addend("0.5", measure.RightFat)), 6}},
		{of: reading(measure.LeftFat), assumed: "fat of the left side alone"},
		{of: reading(measure.RightFat), assumed: "fat of the right side alone"},
	}

	adjustedFat = arithmetic{
		{of: reading(measure.AdjustedFat)},
		{of: rounded{linear("0", addend("1", measure.MeasuredFat), addend("1", measure.FatAdjustment)), 6}},
		{of: figure(measure.MeasuredFat)},
	}

	dressingPercent = arithmetic{{of: quotient{
		over: linear("0", addend("100", measure.HotCarcassWeight)), under: figure(measure.LiveWeight), places: 6,
		zero: "the live weight is zero",
	}}}
)
