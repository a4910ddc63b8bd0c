package grading

import "github.com/shopspring/decimal"

var (
	hundred = decimal.NewFromInt(100)
	one     = decimal.NewFromInt(1)
)

// exact makes a decimal of a constant written in the source.
func exact(text string) decimal.Decimal { return decimal.RequireFromString(text) }

// comparedDecimals is how many decimals of a figure are compared where a key does not say.
const comparedDecimals = 6
