package grading

import (
	"unique"

	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// A fair has some hundred carcasses, a plant's season a hundred thousand, each with a dozen readings and as many figures.
// What many of them have in common is kept once.

// keptReading is a reading as a carcass keeps it.
type keptReading struct {
	of    *Reading // but for its place; it may be that of other carcasses too, and is never changed
	sheet unique.Handle[sheetPlace]
	cell  string
}

type sheetPlace struct{ file, sheet string }

func (k keptReading) reading() Reading {
	reading, sheet := *k.of, k.sheet.Value()
	reading.Place = rules.Place{File: sheet.file, Sheet: sheet.sheet, Cell: k.cell}
	return reading
}

func keep(reading Reading, column *Alike) keptReading {
	place := reading.Place
	reading.Place = rules.Place{}
	return keptReading{column.one(reading), unique.Make(sheetPlace{place.File, place.Sheet}), place.Cell}
}

// Alike keeps the different readings of a column. The zero Alike is ready for use.
type Alike struct{ known map[Reading]*Reading }

// mostAlike is how many different readings are kept of a column: one with more, such as that of the tags, has few alike.
const mostAlike = 2000

func (a *Alike) one(reading Reading) *Reading {
	if a == nil {
		return &reading
	}
	known, found := a.known[reading]
	if found {
		return known
	}
	if len(a.known) < mostAlike {
		if a.known == nil {
			a.known = make(map[Reading]*Reading)
		}
		a.known[reading] = &reading
	}
	return &reading
}

// keptFigure is a figure as a graded carcass keeps it.
type keptFigure struct {
	value measure.Value
	words unique.Handle[figureWords] // of no words: the zero handle
}

// figureWords is what a figure has beside its value.
type figureWords struct {
	missing, assumed, equation string
	estimate                   bool
}

func (k keptFigure) figure() Figure {
	figure := Figure{Value: k.value}
	if k.words != (unique.Handle[figureWords]{}) {
		words := k.words.Value()
		figure.Missing, figure.Assumed, figure.Equation, figure.Estimate = words.missing, words.assumed, words.equation, words.estimate
	}
	return figure
}

func keepFigure(figure Figure) keptFigure {
	kept := keptFigure{value: figure.Value}
	if words := (figureWords{figure.Missing, figure.Assumed, figure.Equation, figure.Estimate}); words != (figureWords{}) {
		kept.words = unique.Make(words)
	}
	return kept
}

// compact gives the same number without the room that arithmetic leaves behind it.
func compact(number decimal.Decimal) decimal.Decimal {
	const mostDigits = 18
	if number.NumDigits() > mostDigits {
		return number
	}
	return decimal.New(number.CoefficientInt64(), number.Exponent())
}
