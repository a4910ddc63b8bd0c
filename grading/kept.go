package grading

import (
	"unique"

	"railbook/rules"
	"railbook/rules/address"
	"railbook/rules/measure"
)

// A fair has some hundred carcasses, a plant's season a hundred thousand, each with a dozen readings and as many figures.
// What many of them have in common is kept once.

// keptReading is a reading as a carcass keeps it.
type keptReading struct {
	of     *alikeReading // it may be that of other carcasses too, and is never changed
	sheet  unique.Handle[sheetPlace]
	row    uint32
	column uint16
}

// alikeReading is a reading but for its place.
type alikeReading struct {
	value             measure.Value
	written, factor   string
	plain, unreadable bool
}

// sheetPlace is a sheet; of a place that is no plain cell, its name too.
type sheetPlace struct{ file, sheet, cell string }

func (k *keptReading) reading() Reading {
	sheet := k.sheet.Value()
	place := rules.Place{File: sheet.file, Sheet: sheet.sheet, Cell: sheet.cell}
	if k.row > 0 {
		place.Cell = address.Cell(int(k.column), int(k.row))
	}
	return Reading{k.of.value, place, k.of.written, k.of.plain, k.of.factor, k.of.unreadable}
}

func keep(reading Reading) keptReading {
	kept := keptReading{of: Share(reading).of}
	sheet := sheetPlace{reading.Place.File, reading.Place.Sheet, reading.Place.Cell}
	if column, row, ok := address.Parse(sheet.cell); ok && address.Cell(column, row) == sheet.cell {
		kept.column, kept.row, sheet.cell = uint16(column), uint32(row), ""
	}
	kept.sheet = unique.Make(sheet)
	return kept
}

// SharedReading is a reading but for its place, which many cells have in common.
type SharedReading struct{ of *alikeReading }

// Share gives what many cells have in common with a reading.
func Share(reading Reading) SharedReading {
	return SharedReading{&alikeReading{reading.Value, reading.Written, reading.Factor, reading.Plain, reading.Unreadable}}
}

// Reading gives the reading without a place.
func (s SharedReading) Reading() Reading {
	return Reading{Value: s.of.value, Written: s.of.written, Plain: s.of.plain, Factor: s.of.factor, Unreadable: s.of.unreadable}
}

// SheetOfReadings is a sheet whose cells are read.
type SheetOfReadings struct{ sheet unique.Handle[sheetPlace] }

// ReadingsOf names a sheet of a file as a rules.Place does.
func ReadingsOf(file, sheet string) SheetOfReadings {
	return SheetOfReadings{unique.Make(sheetPlace{file: file, sheet: sheet})}
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

// missing says why there is no value; empty where there is one.
func (k keptFigure) missing() string {
	if k.words == (unique.Handle[figureWords]{}) {
		return ""
	}
	return k.words.Value().missing
}

func keepFigure(figure Figure) keptFigure {
	kept := keptFigure{value: figure.Value}
	if words := (figureWords{figure.Missing, figure.Assumed, figure.Equation, figure.Estimate}); words != (figureWords{}) {
		kept.words = unique.Make(words)
	}
	return kept
}
