package grading

import "github.com/shopspring/decimal"

var (
	Hundred = decimal.NewFromInt(100)
	One     = decimal.NewFromInt(1)
)

// Exact makes a decimal of a constant written in the source.
func Exact(text string) decimal.Decimal { return decimal.RequireFromString(text) }

// ComparedDecimals is how many decimals of a figure are compared where a key does not say.
const ComparedDecimals = 6
