package rules

import "railbook/rules/phrase"

// Place is where something stands in a file: a cell, a row, a sheet or the file as a whole.
// It is kept with every reading, rulebook entry and finding, so that a person can go there.
type Place struct {
	File  string // the file's base name; empty for the workbook being graded
	Sheet string // empty for the file as a whole
	Cell  string // "G14"; empty for the sheet as a whole
}

// String names the place as a sentence does: `sheet "Steers", cell G14`.
func (p Place) String() string {
	text := ""
	if p.File != "" {
		text = "file " + p.File
	}
	if p.Sheet != "" {
		if text != "" {
			text += ", "
		}
		text += `sheet "` + p.Sheet + `"`
	}
	if p.Cell != "" {
		if text != "" {
			text += ", "
		}
		text += "cell " + p.Cell
	}
	return text
}

// Begin begins a sentence with the place: `Sheet "Steers", cell G14: the tag is missing.` Without a place the words stand alone.
func (p Place) Begin(words string) string {
	if place := p.String(); place != "" {
		return phrase.Capital(place) + ": " + words
	}
	return words
}
