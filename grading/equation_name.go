package grading

import (
	"strconv"

	"railbook/rules"
)

// equationName is the rule of a column that says which equation the figure beside it was computed with.
type equationName struct{ of rules.Measure }

func (n equationName) figure(g *Graded, _ rules.Measure) (Figure, int8) {
	under := g.Figures[n.of]
	if under.Missing != "" {
		return Figure{Missing: under.Missing}, notTaken
	}
	return Figure{Value: rules.Value{Text: under.Equation}, Estimate: under.Estimate}, 0
}

func (n equationName) write(f *formula, _ int8, _ int) {
	f.add(strconv.Quote(f.graded.Figures[n.of].Equation))
}

// The name goes with the way in which the figure under it was computed, which is in the shape already.
func (equationName) shape(shape []byte, _ *Graded, _ int8) []byte { return shape }

func (n equationName) ways() [][]rules.Measure { return [][]rules.Measure{{n.of}} }
