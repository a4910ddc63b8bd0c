package validate

import (
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// correctIt and lookAtIt close a sentence with what the reader is to do.
const (
	correctIt = " Correct the cell or mark it in the Judge review sheet."
	lookAtIt  = " Check it against the card; if it is right, accept it in the Judge review sheet."
)

// called is what a measure is called in a sentence.
func called(id measure.ID) string {
	switch id {
	case measure.AdjustedFat, measure.MeasuredFat:
		return "fat thickness"
	case measure.InternalFat:
		return "KPH"
	}
	return id.String()
}

// unitWords names a unit in full.
var unitWords = map[string]string{"lb": "pounds", "in": "inches", "sq in": "square inches", "%": "percent"}

// withUnit writes a number with its measure's unit: "13.6 sq in", "2.5 %".
func withUnit(number decimal.Decimal, id measure.ID) string {
	definition, _ := measure.Define(id)
	if definition.Unit == "" {
		return number.String()
	}
	return number.String() + " " + definition.Unit
}

// rounded writes a number as the measure is printed.
func rounded(number decimal.Decimal, id measure.ID) string {
	definition, _ := measure.Define(id)
	return number.StringFixed(int32(definition.Decimals))
}

// span writes the stretch between two bounds: "4 to 25", "at most 25", "at least 4".
func span(from, upTo decimal.NullDecimal) string {
	switch {
	case from.Valid && upTo.Valid:
		return from.Decimal.String() + " to " + upTo.Decimal.String()
	case upTo.Valid:
		return "at most " + upTo.Decimal.String()
	case from.Valid:
		return "at least " + from.Decimal.String()
	}
	return ""
}
