package whatif

import (
	"fmt"
	"slices"
	"strings"

	"railbook/grading"
	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"

	"github.com/shopspring/decimal"
)

// NeverDecides warns, at its own cell, of every bound of the Eligibility sheet that can never decide anything: whatever
// carcass the other limits let pass meets it too. Of two bounds that do the same, the later one is named. Limits that no
// carcass can meet together are warned of as well.
//
// It is worked out from the equations and from the ranges of the measures within the rulebook's hold bounds, taking the
// other limits one and two at a time. What it names is true of every carcass; a bound that only three limits together
// keep from deciding it does not name.
func NeverDecides(book *rules.Rulebook) []rules.Fault {
	var faults []rules.Fault
	limits := limitsOf(book)
	for i := len(limits) - 1; i >= 0; i-- {
		if limit := &limits[i]; neverDecides(book, limits, i) {
			limit.neverDecides = true
			faults = append(faults, rules.Fault{Place: limit.requirement.Place, Message: limit.message(), Warning: true})
		}
	}
	slices.Reverse(faults)
	return append(faults, nobodyPasses(book, limits)...)
}

// eligibilityLimit is one bound of one line of the Eligibility sheet.
type eligibilityLimit struct {
	requirement  rules.Requirement
	bound        grading.Bound
	neverDecides bool
	seenToBy     []eligibilityLimit // the limits that make it so; none where the hold bounds do
}

// limitsOf takes the lines of the Eligibility sheet apart into their bounds. A lowest grade is a bound on the grade's rank.
func limitsOf(book *rules.Rulebook) []eligibilityLimit {
	var limits []eligibilityLimit
	for _, requirement := range book.Eligibility {
		if requirement.Or != "" || requirement.FromMean {
			continue // met by another line, or by this year's class: it is never known beforehand
		}
		if requirement.LowestWord != "" {
			if rank, ok := gradeRank(requirement); ok {
				limits = append(limits, eligibilityLimit{requirement: requirement, bound: grading.Bound{At: rank, Lower: true, Closed: true}})
			}
		}
		for _, bound := range grading.BoundsOf(requirement) {
			limits = append(limits, eligibilityLimit{requirement: requirement, bound: bound})
		}
	}
	return limits
}

// gradeRank ranks the lowest grade of a requirement among the grades of its species.
func gradeRank(requirement rules.Requirement) (rank decimal.Decimal, ok bool) {
	order := rules.GradeWords(requirement.Species)
	at := slices.Index(order, requirement.LowestWord)
	return decimal.NewFromInt(int64(len(order) - at)), at >= 0
}

// neverDecides reports whether one of the limits decides nothing in any class it is for, and notes which others see to it.
func neverDecides(book *rules.Rulebook, limits []eligibilityLimit, at int) bool {
	limit := &limits[at]
	found := false
	for _, class := range limitedClasses(book) {
		if !class.has(limit.requirement) {
			continue
		}
		others := class.others(limits, at)
		passed := meets(others, true)
		failing := condition{*limit, false}
		if class.contradict(passed) || !class.contradict(append(passed, failing)) {
			return false
		}
		found = true
		limit.seenToBy = leastOf(others, func(some []eligibilityLimit) bool {
			return class.contradict(append(meets(some, true), failing))
		})
	}
	return found
}

// leastOf leaves out, one by one, the limits without which something is still so.
func leastOf(limits []eligibilityLimit, so func([]eligibilityLimit) bool) []eligibilityLimit {
	for i := 0; i < len(limits); {
		if without := slices.Delete(slices.Clone(limits), i, i+1); so(without) {
			limits = without
		} else {
			i++
		}
	}
	return limits
}

// limitedClass is one class of the rulebook, for one species and basis.
type limitedClass struct {
	placing.Entries
	book   *rules.Rulebook
	method *grading.Method
}

// limitedClasses gives every class for every species and basis it takes.
func limitedClasses(book *rules.Rulebook) []limitedClass {
	var all []limitedClass
	for _, class := range book.Classes {
		for _, method := range grading.Methods {
			if class.Species != "" && class.Species != method.Species || class.Basis != "" && class.Basis != method.Basis {
				continue
			}
			all = append(all, limitedClass{placing.Entries{Rule: class, Species: method.Species, Basis: method.Basis}, book, method})
		}
	}
	return all
}

// has reports whether a requirement is on a measure of this class.
func (c limitedClass) has(requirement rules.Requirement) bool {
	definition, ok := measure.Define(requirement.Measure)
	_, index := c.book.Index(requirement.Measure)
	return c.Is(requirement.Class, requirement.Species) && (index || ok && definition.For(string(c.Species)))
}

// others gives the limits beside one that hold for the class and do at least what failing that one does.
func (c limitedClass) others(limits []eligibilityLimit, but int) []eligibilityLimit {
	var others []eligibilityLimit
	for i, limit := range limits {
		if i != but && !limit.neverDecides && c.has(limit.requirement) && covers(limit.requirement, limits[but].requirement) {
			others = append(others, limit)
		}
	}
	return others
}

// covers reports whether failing the second limit as well changes nothing for a carcass that fails the first.
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

// nobodyPasses warns of classes whose limits no carcass can meet together.
func nobodyPasses(book *rules.Rulebook, limits []eligibilityLimit) []rules.Fault {
	var faults []rules.Fault
	warned := map[rules.Place]bool{}
	for _, class := range limitedClasses(book) {
		var mine []eligibilityLimit
		for _, limit := range limits {
			if class.has(limit.requirement) && limit.requirement.Failing != rules.FailLosesAward {
				mine = append(mine, limit)
			}
		}
		contradicted := func(some []eligibilityLimit) bool { return class.contradict(meets(some, true)) }
		if !contradicted(mine) {
			continue
		}
		mine = leastOf(mine, contradicted)
		if len(mine) == 0 || warned[mine[len(mine)-1].requirement.Place] {
			continue
		}
		place := mine[len(mine)-1].requirement.Place
		warned[place] = true
		change := fmt.Sprintf("Change one of them, or every carcass of %s fails.", classWords(class.Entries))
		if len(mine) == 1 {
			change = fmt.Sprintf("Change it, or write whom it is for under \"Species\" or \"Class\": every carcass of %s fails.", classWords(class.Entries))
		}
		faults = append(faults, rules.Fault{
			Place: place, Warning: true,
			Message: fmt.Sprintf("No carcass can pass %s. %s", limitsInWords(mine), change),
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

// message says which limit never decides, and what sees to it already.
func (l eligibilityLimit) message() string {
	because := "No carcass within the limits of the Limits sheet can fail it"
	if len(l.seenToBy) > 0 {
		because = "Every carcass that passes " + limitsInWords(l.seenToBy) + " passes it too"
	}
	return fmt.Sprintf("The limit of %s can never decide anything. %s. Take it out, or change it.", l.words(), because)
}

func limitsInWords(limits []eligibilityLimit) string {
	var words []string
	for _, limit := range limits {
		words = append(words, limit.words())
	}
	return phrase.JoinAnd(words)
}

// words names a limit: "yield grade at most 3.99".
func (l eligibilityLimit) words() string {
	if l.requirement.LowestWord != "" {
		return l.requirement.Measure.String() + " at least " + l.requirement.LowestWord
	}
	text := l.requirement.Measure.String() + " " + strings.TrimPrefix(l.bound.Words, "must be ") + " " + sayBound(l.requirement.Measure, l.bound.At)
	if !l.requirement.PerPound.IsZero() {
		text += " and " + l.requirement.PerPound.String() + " more for each lb"
	}
	return text
}
