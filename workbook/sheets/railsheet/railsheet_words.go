package railsheet

import "railbook/rules"

// columnWords explain a column to whoever fills it in.
type columnWords struct {
	what    string // what to measure or mark
	how     string // where, and with what
	example string
}

// Prompt is what is shown when a cell of the column is selected.
func (w columnWords) Prompt() string {
	words := w.what
	if w.how != "" {
		words += " " + w.how
	}
	if w.example != "" {
		words += " Example: " + w.example
	}
	return words
}

// guideOf gives the words of a column; none for what only goes along from the roster.
func (p *railPage) guideOf(column railColumn) columnWords {
	if column.dots != noDots {
		return wordsOfDots(column.dots)
	}
	asked, _ := rules.RailColumnOf(p.kind.Species, p.kind.Basis, column.measure)
	return columnWords{asked.What, asked.How, asked.Example}
}
