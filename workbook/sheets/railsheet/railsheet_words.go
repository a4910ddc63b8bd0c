package railsheet

import (
	"railbook/rules"

	"github.com/shopspring/decimal"
)

// columnWords explain a column to whoever fills it in.
type columnWords struct {
	what    string // what to measure or mark
	how     string // where, and with what
	example string
}

// prompt is what is shown when a cell of the column is selected.
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
	if column.dots {
		return columnWords{
			"Dots of the grid that lie on the muscle of one side.",
			"Lay the clear grid on the cut face and count. The area beside it comes by itself: the dots over the dots in a square inch. Leave blank where the area is known.",
			p.dotsExample(),
		}
	}
	asked, _ := rules.RailColumnOf(p.kind.Species, p.kind.Basis, column.measure)
	return columnWords{asked.What, asked.How, asked.Example}
}

// dotsExample is how many whole dots the example of the area would count.
func (p *railPage) dotsExample() string {
	asked, _ := rules.RailColumnOf(p.kind.Species, p.kind.Basis, p.areaCounted())
	area, err := decimal.NewFromString(asked.Example)
	if err != nil {
		return ""
	}
	return area.Mul(gridDots).Truncate(0).String()
}
