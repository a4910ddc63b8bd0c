package grading

import (
	"github.com/shopspring/decimal"

	"railbook/rules"
)

// The weights and the fat that every species has, however the sheet gives them.
var (
	liveWeight = arithmetic{
		{of: reading(rules.LiveWeight)},
		{of: reading(rules.FairWeight), assumed: "live weight {} lb, the fair's own, for the plant gives none"},
	}

	hotCarcassWeight = arithmetic{
		{of: reading(rules.HotCarcassWeight)},
		{of: rounded{linear("0", addend("1", rules.LeftSideWeight), addend("1", rules.RightSideWeight)), 4}},
		{
			of:      rounded{product{reading(rules.ChilledCarcassWeight), chilledToHot}, 4},
			assumed: "hot carcass weight {} lb, from the chilled weight",
		},
	}

	chilledToHot = setting{"chilled to hot", func(s *rules.Settings, _ rules.Species) decimal.NullDecimal { return s.ChilledToHot }}

	// The fat of both sides is averaged, as the standards for lamb ask; one side alone has to do where the other is blank.
	measuredFat = arithmetic{
		{of: reading(rules.MeasuredFat)},
		{of: rounded{linear("0", addend("0.5", rules.LeftFat), addend("0.5", rules.RightFat)), 6}},
		{of: reading(rules.LeftFat), assumed: "fat of the left side alone"},
		{of: reading(rules.RightFat), assumed: "fat of the right side alone"},
	}

	adjustedFat = arithmetic{
		{of: reading(rules.AdjustedFat)},
		{of: rounded{linear("0", addend("1", rules.MeasuredFat), addend("1", rules.FatAdjustment)), 6}},
		{of: figure(rules.MeasuredFat)},
	}

	dressingPercent = arithmetic{{of: quotient{
		over: linear("0", addend("100", rules.HotCarcassWeight)), under: figure(rules.LiveWeight), places: 6,
		zero: "the live weight is zero",
	}}}
)
