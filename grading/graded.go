package grading

import (
	"iter"

	"railbook/rules"
	"railbook/rules/measure"
)

// Graded is a carcass with every figure computed from it.
type Graded struct {
	*Carcass
	// What was computed, or why it was not. A measure that is only read, or computed for no carcass without a date such as
	// gain, is not among them.
	figures measure.Row[keptFigure]

	conditions []Condition // those that there is any sign of

	Book   *rules.Rulebook // the rulebook it was graded by; formulas carry its settings
	Method *Method         // what its species computes; nil where the species is not known
	taken  []int8          // for each definition of the method, which way of computing was taken
}

// Figure is one computed figure, or the reason why there is none.
type Figure struct {
	Value    measure.Value
	Missing  string // why there is no value, in a few words ("no ribeye area"); empty where there is one
	Assumed  string // what had to be assumed for it ("KPH 2.5 %, customary"); empty for nothing
	Equation string // the name of the equation, where a measure has several that must never be ranked together
	Estimate bool   // computed from a live scan or an assumed weight: never called a grade
}

// Term is one addend of a figure.
type Term struct {
	Measure measure.ID    // empty for the constant
	Value   measure.Value // what it adds; the Number alone
}

// PriceStep is one step from the base price to the final price.
type PriceStep struct {
	Part   rules.Part // empty for the base
	Words  string     // "Choice", "yield grade 2.5 up to 3.0", "dark cutter"
	Adjust measure.Value
	Line   *rules.GridLine // the rulebook's line; nil for the base
}

// Figure gives a measure of the carcass, computed or read; ok is false where there is none.
func (g *Graded) Figure(id measure.ID) (value measure.Value, ok bool) {
	if kept, found := g.figures.Get(id); found {
		return kept.value, kept.missing() == ""
	}
	if condition := g.Condition(id); condition.Is {
		value, missing := g.ConditionValue(id)
		return value, missing == ""
	}
	return g.Value(id)
}

// Computed gives a computed figure, with or without a value; ok is false for a measure that is only read, or that is
// computed for no carcass without a date, such as gain.
func (g *Graded) Computed(id measure.ID) (figure Figure, ok bool) {
	kept, ok := g.figures.Get(id)
	if !ok {
		return figure, false
	}
	return kept.figure(), true
}

// FigureOf gives a computed figure, with or without a value; an empty Figure where Computed gives none.
func (g *Graded) FigureOf(id measure.ID) Figure {
	figure, _ := g.Computed(id)
	return figure
}

// Figures gives every computed figure, with or without a value, in the order of the table of measures.
func (g *Graded) Figures() iter.Seq2[measure.ID, Figure] {
	return func(yield func(measure.ID, Figure) bool) {
		for id, kept := range g.figures.All() {
			if !yield(id, kept.figure()) {
				return
			}
		}
	}
}

// SetFigure puts in a computed figure, in place of what was there.
func (g *Graded) SetFigure(id measure.ID, figure Figure) { g.figures.Set(id, keepFigure(figure)) }

// Terms gives the addends of a figure that is a sum, the constant first, for those who ask where the number comes from; none of
// any other figure.
func (g *Graded) Terms(id measure.ID) []Term {
	sum := g.SumOf(id)
	if len(sum.Addends) == 0 {
		return nil
	}
	return sum.terms(g)
}

// SumOf gives the linear equation that a figure was computed by; an empty one of a figure that is no sum.
func (g *Graded) SumOf(id measure.ID) Linear {
	by, taken := g.ruleOf(id)
	ways, ok := by.(Arithmetic)
	if !ok || taken == notTaken {
		return Linear{}
	}
	rounded, linear := ways[taken].linear()
	if !linear {
		return Linear{}
	}
	return rounded.Of.(Linear)
}

// ruleOf gives the rule by which a measure was computed, and which way of it was taken; none where it was not.
func (g *Graded) ruleOf(id measure.ID) (by rule, taken int8) {
	if g.Method == nil {
		return nil, notTaken
	}
	definition, at := g.Method.Define(id)
	if definition == nil {
		return nil, notTaken
	}
	return definition.Rule, g.taken[at]
}

// Column is one computed column of the results.
type Column struct {
	Measure  measure.ID
	Heading  string
	Decimals int // how many are shown
}

// References tells a formula where things stand in the workbook it is written into.
type References interface {
	// Cell gives the cell in which the measure of this carcass was read, such as "G14", where it stands as a plain
	// number in its own unit, or an expression that converts the cell and can stand as an operand, such as
	// "ROUND(G14*0.0393700787,4)"; empty where the value itself must be written into the formula.
	Cell(id measure.ID) string
	// Column gives this carcass's cell in the computed column of the measure, such as "Z14"; empty where no such
	// column is written, and then formulas that need the figure compute it themselves. (Adjusted fat is both read and
	// a computed column: Cell gives the plant's cell, Column ours.)
	Column(id measure.ID) string
	// Range gives an absolute reference to a range of the Value grid sheet by its name in GridSheet.Ranges, with the
	// sheet's name: "'Value grid'!$H$16:$H$22".
	Range(name string) string
}

// GridSheet is the Value grid sheet that the price formulas refer to, as plain cells.
type GridSheet struct {
	Rows    [][]GridCell
	Lookups int               // how many of the rows a board reads; those after them are tables for the formulas
	Ranges  map[string]string // a name that formulas ask References.Range for → "$H$16:$H$22"
}

// GridCell is one cell of the grid sheet.
type GridCell struct {
	Text    string
	Formula string // that gives the number again; empty for none
	Number  bool   // Text is a number
	Style   string // "title", "heading", "text", "money", "number", "input" (a number the board may change), "note"
}

// Called names a carcass as a sentence does.
func (g *Graded) Called() string {
	if g.Tag != "" {
		return g.Tag
	}
	return "the carcass without a tag at " + g.Place.String()
}
