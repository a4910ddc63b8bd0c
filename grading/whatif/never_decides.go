package whatif

import (
	"slices"

	"railbook/grading"
	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// LimitWarning is a bound of the Eligibility sheet that can never decide, or that nobody can pass.
type LimitWarning struct {
	Limit  Limit            // at whose place it is warned of
	Others []Limit          // those that see to it already, or that nobody can pass together with it; none where it needs no other
	Fails  *placing.Entries // the class of which every carcass fails; nil where the limit never decides
}

// Limit is one bound of one line of the Eligibility sheet.
type Limit struct {
	Requirement rules.Requirement
	Bound       grading.Bound
}

// NeverDecides warns of every bound of the Eligibility sheet that can never decide anything: whatever carcass the other
// limits let pass meets it too. Of two bounds that do the same, the later one is named. Limits that no carcass can meet
// together are warned of as well, at the last of them.
//
// It is worked out from the equations and from the ranges of the measures within the rulebook's hold bounds, taking the
// other limits one and two at a time. What it names is true of every carcass; a bound that only three limits together
// keep from deciding it does not name.
func NeverDecides(book *rules.Rulebook) []LimitWarning {
	var warnings []LimitWarning
	limits := limitsOf(book)
	for i := len(limits) - 1; i >= 0; i-- {
		if others, never := neverDecides(book, limits, i); never {
			limits[i].neverDecides = true
			warnings = append(warnings, LimitWarning{Limit: limits[i].Limit, Others: others})
		}
	}
	slices.Reverse(warnings)
	return append(warnings, nobodyPasses(book, limits)...)
}

// eligibilityLimit is a limit, and whether it is known to decide nothing.
type eligibilityLimit struct {
	Limit
	neverDecides bool
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
				limits = append(limits, eligibilityLimit{Limit: Limit{requirement, grading.Bound{At: rank, Lower: true, Closed: true}}})
			}
		}
		for _, bound := range grading.BoundsOf(requirement) {
			limits = append(limits, eligibilityLimit{Limit: Limit{requirement, bound}})
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

// neverDecides reports whether one of the limits decides nothing in any class it is for, and which others see to it.
func neverDecides(book *rules.Rulebook, limits []eligibilityLimit, at int) (seenToBy []Limit, never bool) {
	for _, class := range limitedClasses(book) {
		if !class.has(limits[at].Requirement) {
			continue
		}
		others := class.others(limits, at)
		passed := meets(others, true)
		failing := condition{limits[at].Limit, false}
		if class.contradict(passed) || !class.contradict(append(passed, failing)) {
			return nil, false
		}
		never = true
		seenToBy = leastOf(others, func(some []Limit) bool {
			return class.contradict(append(meets(some, true), failing))
		})
	}
	return seenToBy, never
}

// leastOf leaves out, one by one, the limits without which something is still so.
func leastOf(limits []Limit, so func([]Limit) bool) []Limit {
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
func (c limitedClass) others(limits []eligibilityLimit, but int) []Limit {
	var others []Limit
	for i, limit := range limits {
		if i != but && !limit.neverDecides && c.has(limit.Requirement) && covers(limit.Requirement, limits[but].Requirement) {
			others = append(others, limit.Limit)
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
func nobodyPasses(book *rules.Rulebook, limits []eligibilityLimit) []LimitWarning {
	var warnings []LimitWarning
	warned := map[rules.Place]bool{}
	for _, class := range limitedClasses(book) {
		var mine []Limit
		for _, limit := range limits {
			if class.has(limit.Requirement) && limit.Requirement.Failing != rules.FailLosesAward {
				mine = append(mine, limit.Limit)
			}
		}
		contradicted := func(some []Limit) bool { return class.contradict(meets(some, true)) }
		if !contradicted(mine) {
			continue
		}
		mine = leastOf(mine, contradicted)
		if len(mine) == 0 {
			continue
		}
		last := mine[len(mine)-1]
		if warned[last.Requirement.Place] {
			continue
		}
		warned[last.Requirement.Place] = true
		warnings = append(warnings, LimitWarning{Limit: last, Others: mine[:len(mine)-1], Fails: &class.Entries})
	}
	return warnings
}
