package placing

import (
	"slices"
	"strings"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
)

// limits are the requirements of one class, and the class means that some of them are distances from.
type limits struct {
	requirements []rules.Requirement
	means        grading.ClassMeans
}

// LimitsOf gives the requirements that hold for a class.
func LimitsOf(class Entries, book *rules.Rulebook) limits {
	found := limits{means: class.means}
	for _, requirement := range book.Eligibility {
		if class.Is(requirement.Class, requirement.Species) && speciesHas(class.Species, requirement.Measure) {
			found.requirements = append(found.requirements, requirement)
		}
	}
	return found
}

// speciesHas reports whether the carcasses of a species have a measure. A line for every species is about those that do.
func speciesHas(species rules.Species, id measure.ID) bool {
	definition, known := measure.Define(id)
	return !known || definition.For(string(species))
}

// failure is one requirement a carcass does not meet.
type failure struct {
	Requirement rules.Requirement
	words       string // "adjusted fat 0.05 in, at least 0.10 in"
	Unknown     bool   // the figure is missing, so that nobody can say
}

type failures []failure

// Failures lists the requirements a carcass does not meet, in the rulebook's order. Of lines with the same letter under
// "Or" none is listed where one of them is met.
func (l limits) Failures(carcass *grading.Graded, book *rules.Rulebook) failures {
	var found failures
	for _, requirement := range l.requirements {
		failed, bad := fails(carcass, requirement, l.means, book)
		if bad && !l.metByAnother(carcass, requirement, book) {
			found = append(found, failed)
		}
	}
	return found
}

// metByAnother reports whether the carcass meets a line that the requirement is an alternative to.
func (l limits) metByAnother(carcass *grading.Graded, requirement rules.Requirement, book *rules.Rulebook) bool {
	if requirement.Or == "" {
		return false
	}
	return slices.ContainsFunc(l.requirements, func(other rules.Requirement) bool {
		if grading.SameName(other.Or) != grading.SameName(requirement.Or) || other.Failing != requirement.Failing ||
			grading.SameName(other.Award) != grading.SameName(requirement.Award) {
			return false
		}
		_, bad := fails(carcass, other, l.means, book)
		return !bad
	})
}

// of gives the failures with one consequence.
func (f failures) of(failing rules.Failing) failures {
	var found failures
	for _, failure := range f {
		if failure.Requirement.Failing == failing {
			found = append(found, failure)
		}
	}
	return found
}

// After reports whether the carcass is placed after those that pass.
func (f failures) After() bool { return len(f.of(rules.FailAfter)) > 0 }

// After reports whether the carcass is placed after those that meet the limits of its class.
func (e *Entrant) After() bool { return e.fails.After() }

// AfterWords gives the limits that put the carcass after those that meet them, each in words.
func (e *Entrant) AfterWords() []string { return e.fails.of(rules.FailAfter).words() }

// NotPlaced gives the reason why the carcass can't be placed: it fails a limit that leaves it out, or lacks the figure
// a limit on placing needs. Empty where it can.
func (f failures) NotPlaced() string {
	var reasons []string
	for _, failure := range f {
		switch {
		case failure.Unknown && (failure.Requirement.Failing == rules.FailNotPlaced || failure.Requirement.Failing == rules.FailAfter):
			reasons = append(reasons, "can't be held against the limit on "+failure.Requirement.Measure.String()+": "+failure.words)
		case failure.Requirement.Failing == rules.FailNotPlaced:
			reasons = append(reasons, failure.words)
		}
	}
	return strings.Join(reasons, "; ")
}

// words gives every failure in words.
func (f failures) words() []string {
	var list []string
	for _, failure := range f {
		list = append(list, failure.words)
	}
	return list
}

// fails tells whether a carcass fails a requirement. A missing figure fails it, since nobody can say that it is met.
func fails(carcass *grading.Graded, requirement rules.Requirement, means grading.ClassMeans, book *rules.Rulebook) (failed failure, bad bool) {
	unmet, bad := grading.Unmet(carcass, requirement, means, book)
	return failure{Requirement: requirement, words: unmet.Words, Unknown: unmet.Unknown}, bad
}
