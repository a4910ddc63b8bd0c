package validate

import (
	"math"
	"slices"

	"github.com/shopspring/decimal"

	"railbook/rules/measure"
)

// slip is one way in which a cell may have come to hold what it holds, told from its number alone.
type slip struct {
	value decimal.Decimal // what it would hold without the slip
	words string          // "looks like tenths"
}

// meant says what a cell looks like: "looks like tenths (0.4)".
func (s slip) meant() string { return s.words + " (" + s.value.String() + ")" }

// suspect is the number in a cell that may be a slip.
type suspect struct {
	measure measure.ID
	number  decimal.Decimal
	kind    measure.Kind
	unit    string
}

// scaleSlips lists what a number above zero may have been in another unit or with its decimal point moved: the slips that a
// whole column may have.
func scaleSlips(id measure.ID, value measure.Value) []slip {
	definition, _ := measure.Define(id)
	if value.Number.Sign() <= 0 || definition.Kind != measure.KindNumber {
		return nil
	}
	cell := suspect{id, value.Number, definition.Kind, definition.Unit}
	list := unitSlips(cell)
	for _, places := range []int32{-1, 1, -2, 2} {
		list = append(list, slip{value: cell.number.Shift(places), words: movedPointWords})
	}
	return list
}

// swapSlips are the exchanges of two neighbouring digits of a number as it is written.
func swapSlips(number decimal.Decimal) []slip {
	var list []slip
	decimals := max(0, -number.Exponent())
	digits := []byte(number.Shift(decimals).String())
	for i := 0; i+1 < len(digits); i++ {
		swapped := slices.Clone(digits)
		swapped[i], swapped[i+1] = swapped[i+1], swapped[i]
		if made, err := decimal.NewFromString(string(swapped)); err == nil && !made.Equal(number.Shift(decimals)) {
			list = append(list, slip{value: made.Shift(-decimals), words: "looks like two digits swapped"})
		}
	}
	return list
}

const movedPointWords = "looks like a moved decimal point"

// hundred is a hundred pounds, a degree of marbling, or what turns a share into a percent.
var hundred = decimal.NewFromInt(100)

// areas are the measures that follow carcass weight: a heavier carcass has a larger muscle.
var areas = []measure.ID{measure.RibeyeArea, measure.LoinMuscleArea}

// enoughSteps is how many different values a measure must take before a run of one of them means anything: what is judged
// in steps, as internal fat is to the half percent, has long runs of its own.
const enoughSteps = 8

// noEvidence are the limited measures that say nothing of a row: they only repeat another measure of it, or the sheet's
// own figures, which are held beside the computed ones.
var noEvidence = []measure.ID{
	measure.FairWeight, measure.DotsOutlined, measure.LivePlacing, measure.SheetYieldGrade, measure.SheetCutability,
	measure.PreliminaryYieldGrade, measure.StartWeight, measure.LeftSideWeight, measure.RightSideWeight,
}

// usualOfLimit reads a middle and a spread out of a rulebook's look bounds, which are taken as three spreads out.
func usualOfLimit(limit *limit, log bool) (middle, deviation float64, ok bool) {
	if !limit.LookBelow.Valid || !limit.LookAbove.Valid || log && limit.LookBelow.Decimal.Sign() <= 0 {
		return 0, 0, false
	}
	low, high := floatOf(limit.LookBelow.Decimal), floatOf(limit.LookAbove.Decimal)
	if log {
		low, high = math.Log(low), math.Log(high)
	}
	return (low + high) / 2, (high - low) / 6, high > low
}
