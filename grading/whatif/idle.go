package whatif

import (
	"fmt"
	"maps"
	"math/big"
	"slices"
	"strings"

	"railbook/grading"
	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"

	"github.com/shopspring/decimal"
)

// IdleLimits finds the bounds of eligibility that can never decide anything: whatever carcass the other limits let pass
// meets them too. It follows from the equations over every carcass within the rulebook's hold limits, in exact
// arithmetic, and warns at the bound's own cell. Of two bounds that do the same, the later is idle. Limits that no
// carcass can meet together are warned of as well.
func IdleLimits(book *rules.Rulebook) []rules.Fault {
	var faults []rules.Fault
	tests := testsOf(book)
	for i := len(tests) - 1; i >= 0; i-- {
		test := &tests[i]
		contexts := 0
		decides := false
		var besides []limitTest
		for _, context := range contextsOf(book) {
			if !context.has(test.requirement) {
				continue
			}
			contexts++
			others := context.others(tests, i)
			box := context.box(book)
			system := append(context.inequalities(others), box...)
			if !feasible(system) || feasible(append(system, context.against(*test))) {
				decides = true
				break
			}
			besides = context.needed(others, box, *test)
		}
		if contexts > 0 && !decides {
			test.idle = true
			faults = append(faults, rules.Fault{Place: test.requirement.Place, Message: idleWords(*test, besides), Warning: true})
		}
	}
	slices.Reverse(faults)
	return append(faults, impossible(book, tests)...)
}

// limitTest is one bound of one requirement.
type limitTest struct {
	requirement rules.Requirement
	bound       placing.Bound
	idle        bool
}

// testsOf takes the requirements apart into their bounds. A lowest grade is a bound on the grade's rank.
func testsOf(book *rules.Rulebook) []limitTest {
	var tests []limitTest
	for _, requirement := range book.Eligibility {
		if requirement.Or != "" || requirement.FromMean {
			continue // met by another line, or by this year's class: it is never known beforehand
		}
		if requirement.LowestWord != "" {
			if rank, ok := gradeNumber(requirement); ok {
				tests = append(tests, limitTest{requirement, placing.Bound{At: rank, Words: "at least", Lower: true, Closed: true}, false})
			}
		}
		for _, bound := range placing.BoundsOf(requirement) {
			tests = append(tests, limitTest{requirement, bound, false})
		}
	}
	return tests
}

// gradeNumber ranks the lowest grade of a requirement among the grades of its species.
func gradeNumber(requirement rules.Requirement) (rank decimal.Decimal, ok bool) {
	order := rules.GradeWords(requirement.Species)
	at := slices.Index(order, requirement.LowestWord)
	return decimal.NewFromInt(int64(len(order) - at)), at >= 0
}

// context is one class of the rulebook, for one species and basis.
type context struct {
	placing.Entries
	book *rules.Rulebook
	plan *grading.Plan
}

// contextsOf gives every class for every species and basis it takes.
func contextsOf(book *rules.Rulebook) []context {
	var all []context
	for _, class := range book.Classes {
		for _, plan := range grading.Plans {
			if class.Species != "" && class.Species != plan.Species || class.Basis != "" && class.Basis != plan.Basis {
				continue
			}
			all = append(all, context{placing.Entries{Rule: class, Species: plan.Species, Basis: plan.Basis}, book, plan})
		}
	}
	return all
}

// has reports whether a requirement is on a measure of this class.
func (c context) has(requirement rules.Requirement) bool {
	definition, ok := measure.Define(requirement.Measure)
	_, index := c.book.Index(requirement.Measure)
	return c.Is(requirement.Class, requirement.Species) && (index || ok && definition.For(string(c.Species)))
}

// others gives the bounds beside one that hold for the class and see to at least what failing it does.
func (c context) others(tests []limitTest, but int) []limitTest {
	var others []limitTest
	for i, test := range tests {
		if i != but && !test.idle && c.has(test.requirement) && covers(test.requirement, tests[but].requirement) {
			others = append(others, test)
		}
	}
	return others
}

// covers reports whether a carcass that fails the first limit can't be touched by failing the second as well.
func covers(first, second rules.Requirement) bool {
	switch first.Failing {
	case rules.FailNotPlaced:
		return true
	case rules.FailLosesAward:
		return second.Failing == rules.FailLosesAward && grading.SameName(first.Award) == grading.SameName(second.Award)
	default:
		return first.Failing == second.Failing
	}
}

// needed leaves out, one by one, the bounds without which the test is still idle.
func (c context) needed(others []limitTest, box []inequality, test limitTest) []limitTest {
	for i := 0; i < len(others); {
		without := slices.Delete(slices.Clone(others), i, i+1)
		if feasible(append(append(c.inequalities(without), box...), c.against(test))) {
			i++
		} else {
			others = without
		}
	}
	return others
}

// idleWords says what is idle and what sees to it already.
func idleWords(test limitTest, others []limitTest) string {
	var besides []string
	for _, other := range others {
		besides = append(besides, other.words())
	}
	seen := "No carcass within the limits of the Limits sheet can fail it"
	if len(besides) > 0 {
		seen = "Every carcass that passes " + phrase.JoinAnd(besides) + " passes it too"
	}
	return fmt.Sprintf("The limit of %s can never decide anything. %s. Take it out, or change it.", test.words(), seen)
}

// words names a bound: "yield grade at most 3.99".
func (t limitTest) words() string {
	if t.requirement.LowestWord != "" {
		return t.requirement.Measure.String() + " at least " + t.requirement.LowestWord
	}
	text := t.requirement.Measure.String() + " " + strings.TrimPrefix(t.bound.Words, "must be ") + " " + sayBound(t.requirement.Measure, t.bound.At)
	if !t.requirement.PerPound.IsZero() {
		text += " and " + t.requirement.PerPound.String() + " more for each lb"
	}
	return text
}

// impossible warns of classes whose limits no carcass can meet together.
func impossible(book *rules.Rulebook, tests []limitTest) []rules.Fault {
	var faults []rules.Fault
	warned := map[rules.Place]bool{}
	for _, context := range contextsOf(book) {
		var mine []limitTest
		for _, test := range tests {
			if context.has(test.requirement) && test.requirement.Failing != rules.FailLosesAward {
				mine = append(mine, test)
			}
		}
		box := context.box(book)
		if len(mine) == 0 || feasible(append(context.inequalities(mine), box...)) {
			continue
		}
		for i := 0; i < len(mine); {
			if without := slices.Delete(slices.Clone(mine), i, i+1); !feasible(append(context.inequalities(without), box...)) {
				mine = without
			} else {
				i++
			}
		}
		if len(mine) == 0 || warned[mine[len(mine)-1].requirement.Place] {
			continue
		}
		var words []string
		for _, test := range mine {
			words = append(words, test.words())
		}
		place := mine[len(mine)-1].requirement.Place
		warned[place] = true
		faults = append(faults, rules.Fault{
			Place: place, Warning: true,
			Message: fmt.Sprintf("No carcass can pass %s. Change one of them, or every carcass of %s fails.", phrase.JoinAnd(words), classWords(context.Entries)),
		})
	}
	return faults
}

func classWords(class placing.Entries) string {
	if grading.SameName(class.Rule.Name) == placing.EveryOther {
		return string(class.Species) + " " + placing.BasisWords[class.Basis]
	}
	return "class " + class.Rule.Name
}

// box gives what the rulebook's hold limits allow of each measure that is read: nothing outside them is placed. Weights,
// thicknesses of muscle and areas are never below zero.
func (c context) box(book *rules.Rulebook) []inequality {
	var box []inequality
	for _, limit := range book.Limits {
		if _, computed := c.linear(limit.Measure); computed || limit.Species != "" && limit.Species != c.Species {
			continue
		}
		if limit.HoldBelow.Valid {
			box = append(box, atLeast(limit.Measure, limit.HoldBelow.Decimal.Rat()))
		}
		if limit.HoldAbove.Valid {
			box = append(box, atMost(limit.Measure, limit.HoldAbove.Decimal.Rat()))
		}
	}
	for _, definition := range measure.Definitions() {
		if !definition.Computed && (definition.Unit == "lb" || definition.Unit == "sq in") && definition.For(string(c.Species)) {
			box = append(box, atLeast(definition.ID, new(big.Rat)))
		}
	}
	return box
}

func atLeast(id measure.ID, bound *big.Rat) inequality {
	return inequality{map[measure.ID]*big.Rat{id: big.NewRat(-1, 1)}, new(big.Rat).Neg(bound), false}
}

func atMost(id measure.ID, bound *big.Rat) inequality {
	return inequality{map[measure.ID]*big.Rat{id: big.NewRat(1, 1)}, bound, false}
}

// inequalities writes bounds as conditions on the measures they are computed from.
func (c context) inequalities(tests []limitTest) []inequality {
	var system []inequality
	for _, test := range tests {
		if one, ok := c.condition(test, true); ok {
			system = append(system, one)
		}
	}
	return system
}

// against is the condition that a carcass fails a bound.
func (c context) against(test limitTest) inequality {
	failing, ok := c.condition(test, false)
	if !ok {
		return nothingMeets()
	}
	return failing
}

// nothingMeets is the inequality 0 ≤ −1.
func nothingMeets() inequality { return inequality{bound: big.NewRat(-1, 1)} }

// half is half of the last decimal that is compared: a figure is rounded before it meets its bound.
var half = big.NewRat(5, 10_000_000)

// condition writes that a carcass passes a bound, or fails it, as an inequality on the figure before it is rounded to 6
// decimals. ok is false where every carcass passes.
func (c context) condition(test limitTest, passes bool) (one inequality, ok bool) {
	at, closed := test.bound.At.Rat(), test.bound.Closed
	perPound := test.requirement.PerPound.Rat()
	form, linear := c.linear(test.requirement.Measure)
	if !linear || test.requirement.LowestWord != "" || perPound.Sign() != 0 && (form.cut || form.under != measure.None) {
		form = itself(test.requirement.Measure)
	}
	if form.cut {
		var pass passing
		at, closed, pass = cutBound(test.bound, form)
		switch {
		case pass == everyGradePasses:
			return inequality{}, false
		case pass == noGradePasses && passes:
			return nothingMeets(), true
		case pass == noGradePasses:
			return inequality{bound: new(big.Rat)}, true // whatever is measured fails it
		}
	}
	// A figure passes a lower bound from half a step below it, a strict one from half a step above it; from above
	// likewise. Half a step itself rounds away from zero.
	edge := new(big.Rat)
	if test.bound.Lower == closed {
		edge.Sub(at, half)
	} else {
		edge.Add(at, half)
	}
	edgeIsIn := test.bound.Lower == (edge.Sign() > 0)
	// Where the bound moves with the weight, or the figure is made of rounded ones, the edge is not known to the hair:
	// passing and failing both get the benefit of the doubt, so that a bound which might decide is never called idle.
	doubt := new(big.Rat).Set(form.doubt)
	if perPound.Sign() != 0 {
		doubt.Add(doubt, half)
	}
	if test.bound.Lower == passes {
		edge.Sub(edge, doubt)
	} else {
		edge.Add(edge, doubt)
	}
	one = form.compared(edge, perPound)
	one.strict = doubt.Sign() == 0 && edgeIsIn != passes
	if test.bound.Lower == passes {
		one = one.negated()
	}
	return one, true
}

// negated turns ≤ round: Σ c·x ≤ b becomes Σ −c·x ≤ −b.
func (i inequality) negated() inequality {
	turned := inequality{map[measure.ID]*big.Rat{}, new(big.Rat).Neg(i.bound), i.strict}
	for id, coefficient := range i.coefficients {
		turned.coefficients[id] = new(big.Rat).Neg(coefficient)
	}
	return turned
}

// figureForm is a figure as a linear sum of what is read, or as such a sum over one measure.
type figureForm struct {
	constant *big.Rat
	doubt    *big.Rat // by how much rounding on the way may move the figure
	over     map[measure.ID]*big.Rat
	under    measure.ID // empty for a plain sum
	cut      bool       // the figure is the whole number below the sum, from least to most
	least    int64
	most     int64
}

// itself is the form of a measure that counts as one that is read.
func itself(id measure.ID) figureForm {
	return figureForm{constant: new(big.Rat), doubt: new(big.Rat), over: map[measure.ID]*big.Rat{id: big.NewRat(1, 1)}}
}

// compared writes "the figure is at most edge + perPound · hot carcass weight". A figure over a measure is multiplied
// out: what it stands over is never zero or less.
func (f figureForm) compared(edge, perPound *big.Rat) inequality {
	one := inequality{maps.Clone(f.over), new(big.Rat), false}
	for id, coefficient := range one.coefficients {
		one.coefficients[id] = new(big.Rat).Set(coefficient)
	}
	subtract := func(id measure.ID, coefficient *big.Rat) {
		if one.coefficients[id] == nil {
			one.coefficients[id] = new(big.Rat)
		}
		one.coefficients[id].Sub(one.coefficients[id], coefficient)
	}
	one.bound.Neg(f.constant)
	if f.under != measure.None {
		subtract(f.under, edge)
		return one
	}
	one.bound.Add(one.bound, edge)
	if perPound.Sign() != 0 {
		subtract(measure.HotCarcassWeight, perPound)
	}
	return one
}

// passing says which whole grades pass a bound, for a figure that is held between the least and the most of them.
type passing int

const (
	someGradesPass passing = iota
	everyGradePasses
	noGradePasses
)

// cutBound writes a bound on a whole grade as a bound on the figure it is cut from: at most 3 is below 4.
func cutBound(on placing.Bound, form figureForm) (at *big.Rat, closed bool, pass passing) {
	whole := on.At.Floor()
	exactly := whole.Equal(on.At)
	if on.Lower {
		if !exactly || !on.Closed {
			whole = whole.Add(decimal.NewFromInt(1))
		}
		return whole.Rat(), true, passingFrom(whole, form)
	}
	if exactly && !on.Closed {
		whole = whole.Sub(decimal.NewFromInt(1))
	}
	whole = whole.Add(decimal.NewFromInt(1))
	switch passingFrom(whole, form) { // from here on they fail
	case everyGradePasses:
		pass = noGradePasses
	case noGradePasses:
		pass = everyGradePasses
	}
	return whole.Rat(), false, pass
}

// passingFrom says which grades are at least a whole one.
func passingFrom(whole decimal.Decimal, form figureForm) passing {
	switch {
	case !whole.GreaterThan(decimal.NewFromInt(form.least)):
		return everyGradePasses
	case whole.GreaterThan(decimal.NewFromInt(form.most)):
		return noGradePasses
	}
	return someGradesPass
}
