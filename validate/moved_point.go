package validate

import (
	"railbook/rules/measure"
)

// movedPoint has the judge look at a number whose decimal point moved without taking it out of the limits. Hardly any
// true carcass is named by it.
func movedPoint(s *survey) []Finding { return s.explainedBy(pointMoved, "decimal point moved") }

const movedPointWords = "looks like a moved decimal point"

// pointSlips are the decimal point moved by one or two places.
func pointSlips(cell suspect) []slip {
	if cell.kind != measure.KindNumber {
		return nil
	}
	var list []slip
	for _, move := range []struct {
		places int32
		rarity float64
	}{{-1, 0.5}, {1, 0.5}, {-2, 1.5}, {2, 1.5}} {
		list = append(list, slip{kind: pointMoved, value: cell.number.Shift(move.places), words: movedPointWords, rarity: move.rarity})
	}
	return list
}
