package grading

import (
	"strconv"

	"railbook/rules/measure"
)

// equationName is the rule of a column that says which equation the figure beside it was computed with.
type equationName struct{ of measure.ID }

func (n equationName) figure(g *Graded, _ measure.ID) (Figure, int8) {
	under := g.FigureOf(n.of)
	if under.Missing != "" {
		return Figure{Missing: under.Missing}, notTaken
	}
	return Figure{Value: measure.Value{Text: under.Equation}, Estimate: under.Estimate}, 0
}

func (n equationName) write(f *formula, _ int8, _ int) {
	f.add(strconv.Quote(f.graded.FigureOf(n.of).Equation))
}

// The name goes with the way in which the figure under it was computed, which is in the shape already.
func (equationName) shape(shape []byte, _ *Graded, _ int8) []byte { return shape }

func (n equationName) ways() [][]measure.ID { return [][]measure.ID{{n.of}} }
