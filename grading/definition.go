package grading

import (
	"strings"

	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// definition says how one measure of a species is computed.
type definition struct {
	Measure measure.ID
	Rule    rule
}

// rule computes one measure. A rule may have several ways of doing it; the way taken is remembered with the carcass, so
// that formula and figure agree.
type rule interface {
	// figure computes the measure; taken is notTaken where there is nothing a formula could compute.
	figure(g *Graded, id measure.ID) (figure Figure, taken int8)
	write(f *formula, taken int8, tightness int)
	// shape adds whatever makes its formula differ from those of other carcasses that took the same way.
	shape(shape []byte, g *Graded, taken int8) []byte
	// ways gives the sets of measures any of which is enough for it.
	ways() [][]measure.ID
	// under gives what a carcass's figure rests on by the way taken.
	under(g *Graded, taken int8) []measure.ID
}

const notTaken int8 = -1

// Arithmetic is the rule of a measure that an expression gives: ways in the order of preference, of which the first whose
// operands are all there is taken. A reading that could not be understood is never passed over for the next way.
type Arithmetic []way

// way is one way of computing a measure.
type way struct {
	Of       Expression
	When     func(*rules.Settings) bool // the rulebook asks for it; nil: always
	onlyIf   func(*Graded) bool         // it is for such carcasses only; nil: for all
	weighs   []measure.ID               // the readings that onlyIf looks at
	refuse   string                     // there is no figure, for this reason; of is nil then
	equation string                     // empty: that of the figure it rests on
	assumed  string                     // "{}" stands for the value
	assumes  func(*Graded) bool         // nil: always
	notes    func(*Graded) string       // what else was assumed; nil: nothing
	estimate bool
	needs    []Expression // the operands, found once
}

func (a Arithmetic) figure(g *Graded, id measure.ID) (Figure, int8) {
	missing, tried := "", 0
	for at := range a {
		way := &a[at]
		if way.When != nil && !way.When(&g.Book.Settings) || way.onlyIf != nil && !way.onlyIf(g) {
			continue
		}
		if way.refuse != "" {
			return Figure{Missing: way.refuse}, notTaken
		}
		reason, unreadable := lacking(g, way.needs)
		if unreadable {
			return Figure{Missing: reason}, notTaken
		}
		if reason == "" {
			return way.figure(g, id, int8(at))
		}
		missing = reason
		tried++
	}
	if tried != 1 {
		missing = absent(id)
	}
	return Figure{Missing: missing}, notTaken
}

// isReading reports whether the way taken gives nothing but the reading of the measure itself, which need not be kept twice.
func (d *definition) isReading(taken int8) bool {
	ways, ok := d.Rule.(Arithmetic)
	if !ok || taken == notTaken {
		return false
	}
	return ways[taken].Of == reading(d.Measure)
}

func (w *way) figure(g *Graded, id measure.ID, at int8) (Figure, int8) {
	made := Figure{Equation: w.equation, Estimate: w.estimate}
	if rounded, linear := w.linear(); linear {
		made.Value = valueOf(id, measure.Round(rounded.Of.(Linear).sum(g), rounded.Places))
	} else {
		value, problem := w.Of.value(g)
		if problem != "" {
			return Figure{Missing: problem}, notTaken
		}
		made.Value = value
		if value.Text == "" {
			made.Value = valueOf(id, measure.Compact(value.Number))
		}
	}
	w.inherit(g, &made)
	if w.assumed != "" && (w.assumes == nil || w.assumes(g)) {
		made.Assumed = strings.ReplaceAll(w.assumed, "{}", made.Value.Text)
	}
	if w.notes != nil {
		made.Assumed = join(made.Assumed, w.notes(g))
	}
	return made, at
}

// linear gives the way's expression where it is a rounded sum.
func (w *way) linear() (of Rounded, ok bool) {
	of, ok = w.Of.(Rounded)
	if ok {
		_, ok = of.Of.(Linear)
	}
	return of, ok
}

// valueOf makes a measure's value, in words where its kind has words.
func valueOf(id measure.ID, number decimal.Decimal) measure.Value {
	if id == measure.OverallMaturity {
		return measure.Value{Number: number, Text: FormatMaturity(number)}
	}
	return measure.NumberValue(number)
}

// lacking says what an expression needs and the carcass has not.
func lacking(g *Graded, needs []Expression) (reason string, unreadable bool) {
	for _, operand := range needs {
		var lack string
		switch operand := operand.(type) {
		case reading:
			lack, unreadable = g.lacksReading(measure.ID(operand))
		case ComputedFigure:
			lack, unreadable = g.lacks(measure.ID(operand))
		case considered:
			if g.unreadable(measure.ID(operand)) {
				lack = "the " + measure.ID(operand).String() + " cannot be read"
			}
		case setting:
			if !operand.of(&g.Book.Settings, g.Species).Valid {
				lack = "the rulebook sets no " + operand.name
			}
		}
		if unreadable {
			return lack, true
		}
		reason = join(reason, lack)
	}
	return reason, false
}

// lacks says why the carcass has no such figure; empty where it has.
func (g *Graded) lacks(id measure.ID) (reason string, unreadable bool) {
	if figure, found := g.Computed(id); found {
		return figure.Missing, false
	}
	if reason, skipped := g.skipped(id); skipped {
		return reason, false
	}
	return g.lacksReading(id)
}

// Lacks says why the carcass has no such figure: "no start date"; empty where it has.
func (g *Graded) Lacks(id measure.ID) string {
	reason, _ := g.lacks(id)
	return reason
}

// skipped says why a figure is missing that was not tried, because nothing was read that figures of gain are computed from.
func (g *Graded) skipped(id measure.ID) (reason string, skipped bool) {
	by, taken := g.ruleOf(id)
	if by == nil || taken != notTaken {
		return "", false
	}
	figure, _ := by.figure(g, id)
	return figure.Missing, figure.Missing != ""
}

func (g *Graded) lacksReading(id measure.ID) (reason string, unreadable bool) {
	kept, found := g.readings.Get(id)
	switch {
	case !found:
		return absent(id), false
	case kept.of.unreadable:
		return "the " + id.String() + " cannot be read", true
	}
	return "", false
}

// absences holds the reasons why a measure is not there, made once: most carcasses lack most measures.
var absences = func() map[measure.ID]string {
	reasons := make(map[measure.ID]string)
	for _, definition := range measure.Standard().Definitions() {
		reasons[definition.ID] = "no " + definition.Name
	}
	return reasons
}()

func absent(id measure.ID) string {
	if reason, known := absences[id]; known {
		return reason
	}
	return "no " + id.String()
}

// inherit makes the figure an estimate where it rests on one, and gives it the name of the equation it rests on.
func (w *way) inherit(g *Graded, made *Figure) {
	for _, operand := range w.needs {
		if name, ok := operand.(ComputedFigure); ok {
			under := g.FigureOf(measure.ID(name))
			made.Estimate = made.Estimate || under.Estimate
			if made.Equation == "" {
				made.Equation = under.Equation
			}
		}
	}
}

// join puts two reasons together, each said once.
func join(reason, another string) string {
	switch {
	case another == "" || strings.Contains(reason, another):
		return reason
	case reason == "":
		return another
	}
	return reason + "; " + another
}

func (a Arithmetic) write(f *formula, taken int8, tightness int) { a[taken].Of.write(f, tightness) }

func (a Arithmetic) shape(shape []byte, g *Graded, taken int8) []byte {
	return a[taken].Of.shape(shape, g)
}

func (a Arithmetic) ways() [][]measure.ID {
	var all [][]measure.ID
	for _, way := range a {
		if way.refuse != "" {
			continue
		}
		var needs []measure.ID
		for _, operand := range way.needs {
			switch operand := operand.(type) {
			case reading:
				needs = append(needs, measure.ID(operand))
			case ComputedFigure:
				needs = append(needs, measure.ID(operand))
			}
		}
		all = append(all, needs)
	}
	return all
}
