package grading

import (
	"cmp"
	"slices"

	"railbook/rules"
	"railbook/rules/measure"
)

// Method is all that grading a species on one basis takes. A species is registered by putting its methods into the list of
// methods: nothing else in the program names it.
type Method struct {
	Species     rules.Species
	Basis       rules.Basis
	Definitions []definition // each may use those before it
	columns     []Column     // those of its figures that measures.csv gives a column, in its order
	whereKnown  []Column     // those of them that are written only where some carcass has the figure
	needed      []measure.ID
	grid        pricing
	sources     map[measure.ID]string // where the figures' ways are published, for both bases
	chart       *gradeChart           // what the grade or its score is looked up in; nil where nothing is
	index       map[measure.ID]int
}

// Methods are the species and bases that can be graded.
var Methods = register(
	beefOnTheRail, beefLiveScan,
	swineOnTheRail, swineLiveScan,
	lambOnTheRail, lambLiveScan,
	goatOnTheRail, goatLiveScan,
)

func register(all ...*Method) []*Method {
	for _, method := range all {
		method.columns, method.whereKnown = columnsOf(method)
		method.index = make(map[measure.ID]int, len(method.Definitions))
		for at, definition := range method.Definitions {
			method.index[definition.Measure] = at
			if ways, ok := definition.Rule.(Arithmetic); ok {
				for at := range ways {
					if ways[at].Of != nil {
						ways[at].needs = eachOnce(ways[at].Of.operands())
					}
				}
			}
		}
	}
	return all
}

// columnsOf gives the computed columns of a method, and those that are written only where some carcass has the figure.
func columnsOf(method *Method) (always, whereKnown []Column) {
	for _, definition := range method.Definitions {
		of, _ := measure.Define(definition.Measure)
		column := Column{Measure: of.ID, Heading: of.RailHeading, Decimals: of.Decimals}
		if method.Basis == rules.LiveScan {
			column.Heading = of.ScanHeading
		}
		switch {
		case column.Heading == "":
		case of.WhereKnown:
			whereKnown = append(whereKnown, column)
		default:
			always = append(always, column)
		}
	}
	inOrder := func(a, b Column) int {
		first, _ := measure.Define(a.Measure)
		second, _ := measure.Define(b.Measure)
		return cmp.Compare(first.Column, second.Column)
	}
	slices.SortFunc(always, inOrder)
	slices.SortFunc(whereKnown, inOrder)
	return slices.Clip(always), slices.Clip(whereKnown)
}

// eachOnce leaves out the operands that stand in an expression more than once.
func eachOnce(operands []Expression) []Expression {
	seen := make(map[Expression]bool)
	return slices.DeleteFunc(operands, func(operand Expression) bool {
		if _, isSetting := operand.(setting); isSetting {
			return false
		}
		known := seen[operand]
		seen[operand] = true
		return known
	})
}

// methodFor gives the method of a species and basis; a carcass whose basis nobody named hung on the rail.
func methodFor(species rules.Species, basis rules.Basis) *Method {
	if basis == "" {
		basis = rules.OnTheRail
	}
	for _, method := range Methods {
		if method.Species == species && method.Basis == basis {
			return method
		}
	}
	return nil
}

// Define gives the definition of a measure and its place in the list; nil where the species does not define it.
func (p *Method) Define(id measure.ID) (found *definition, at int) {
	if at, ok := p.index[id]; ok {
		return &p.Definitions[at], at
	}
	return nil, 0
}

// Columns gives the computed columns of a species and basis that a formula or value fills, in order; the writer adds
// Place and Flag.
func Columns(species rules.Species, basis rules.Basis) []Column {
	if method := methodFor(species, basis); method != nil {
		return method.columns
	}
	return nil
}

// OptionalColumns gives the computed columns that follow those of Columns where at least one carcass has the figure: the
// gain measures, which most sheets have no dates for.
func OptionalColumns(species rules.Species, basis rules.Basis) []Column {
	if method := methodFor(species, basis); method != nil {
		return method.whereKnown
	}
	return nil
}

// ColumnsWith gives Columns and those of OptionalColumns for which some of the carcasses has the figure.
func ColumnsWith(species rules.Species, basis rules.Basis, graded []*Graded) []Column {
	columns := Columns(species, basis)
	columns = columns[:len(columns):len(columns)]
	for _, column := range OptionalColumns(species, basis) {
		if slices.ContainsFunc(graded, func(graded *Graded) bool {
			_, has := graded.Figure(column.Measure)
			return has && graded.Method == methodFor(species, basis)
		}) {
			columns = append(columns, column)
		}
	}
	return columns
}

// Needed gives the measures, read or computed, without which a carcass of the species and basis cannot be placed. Graded
// has each as a figure or a reading, or says in the figure why not.
func Needed(species rules.Species, basis rules.Basis) []measure.ID {
	if method := methodFor(species, basis); method != nil {
		return method.needed
	}
	return nil
}

// Computes gives the measures that are computed for a species and basis, in the order in which they are.
func Computes(species rules.Species, basis rules.Basis) []measure.ID {
	var all []measure.ID
	if method := methodFor(species, basis); method != nil {
		for _, definition := range method.Definitions {
			all = append(all, definition.Measure)
		}
	}
	return all
}

// Ways gives the sets of measures from any of which a measure of the species can be had: the ribeye area from the ribeye
// area, or from the three dot counts. A measure that is only read has itself alone.
func Ways(species rules.Species, basis rules.Basis, id measure.ID) [][]measure.ID {
	if method := methodFor(species, basis); method != nil {
		if definition, _ := method.Define(id); definition != nil {
			return definition.Rule.ways()
		}
	}
	return [][]measure.ID{{id}}
}

// Inputs gives the measures that are read from a sheet for a species and basis because some figure uses them.
func Inputs(species rules.Species, basis rules.Basis) []measure.ID {
	method := methodFor(species, basis)
	if method == nil {
		return nil
	}
	var all []measure.ID
	seen := make(map[measure.ID]bool)
	for _, definition := range method.Definitions {
		for _, way := range definition.Rule.ways() {
			for _, id := range way {
				computed, _ := method.Define(id)
				if !seen[id] && (computed == nil || id == definition.Measure) {
					seen[id] = true
					all = append(all, id)
				}
			}
		}
	}
	return all
}

// Equation gives the linear equation of a computed measure under a rulebook; ok is false where it has none, or
// different ones for different animals. The figure is the equation's value rounded to 6 decimals.
func Equation(book *rules.Rulebook, species rules.Species, basis rules.Basis, id measure.ID) (equation Linear, ok bool) {
	method := methodFor(species, basis)
	if method == nil {
		return Linear{}, false
	}
	definition, _ := method.Define(id)
	if definition == nil {
		return Linear{}, false
	}
	ways, ok := definition.Rule.(Arithmetic)
	if !ok {
		return Linear{}, false
	}
	for _, way := range ways {
		if way.refuse != "" || way.When != nil && !way.When(&book.Settings) {
			continue
		}
		if way.onlyIf != nil {
			return Linear{}, false
		}
		rounded, ok := way.Of.(Rounded)
		if !ok {
			return Linear{}, false
		}
		equation, ok = rounded.Of.(Linear)
		return equation, ok
	}
	return Linear{}, false
}

// usualFigures is how many figures most carcasses have.
const usualFigures = 14

// Grade computes every figure the carcass's species and basis have. It never fails: a figure that cannot be computed
// says why.
func Grade(carcass *Carcass, book *rules.Rulebook) *Graded {
	carcass = carcass.Under(book.Measures)
	g := &Graded{Carcass: carcass, Book: book, Method: methodFor(carcass.Species, carcass.Basis), conditions: conditionsOf(carcass)}
	if g.Method == nil {
		return g
	}
	g.figures.Grow(usualFigures)
	g.taken = make([]int8, len(g.Method.Definitions))
	for at := range g.taken {
		g.taken[at] = notTaken
	}
	for at := range g.withoutGain() {
		g.define(at)
	}
	g.adjust()
	return g
}

// withoutGain is how many of the definitions are computed: for a carcass without a date none of gain, which come last.
func (g *Graded) withoutGain() int {
	if at, has := g.Method.index[measure.FinalWeight]; has && !hasDates(g.Carcass) {
		return at
	}
	return len(g.Method.Definitions)
}

// define computes the figure of a definition.
func (g *Graded) define(at int) {
	definition := &g.Method.Definitions[at]
	g.taken[at] = notTaken
	if called, ok := g.Judged(definition.Measure); ok {
		g.SetFigure(definition.Measure, called)
		return
	}
	figure, taken := definition.Rule.figure(g, definition.Measure)
	g.taken[at] = taken
	if !definition.isReading(taken) {
		g.SetFigure(definition.Measure, figure)
	}
}
