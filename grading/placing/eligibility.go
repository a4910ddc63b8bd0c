package placing

import (
	"slices"
	"strings"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"

	"github.com/shopspring/decimal"
)

// limits are the requirements of one class, and the class means that some of them are distances from.
type limits struct {
	requirements []rules.Requirement
	means        classMeans
}

// LimitsOf gives the requirements that hold for a class.
func LimitsOf(class Entries, book *rules.Rulebook) limits {
	found := limits{means: class.means}
	for _, requirement := range book.Eligibility {
		if class.Is(requirement.Class, requirement.Species) {
			found.requirements = append(found.requirements, requirement)
		}
	}
	return found
}

// failure is one requirement a carcass does not meet.
type failure struct {
	Requirement rules.Requirement
	words       string // "adjusted fat .05 in, at least .10 in"
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
	for _, one := range f {
		if one.Requirement.Failing == failing {
			found = append(found, one)
		}
	}
	return found
}

// after reports whether the carcass is placed after those that pass.
func (f failures) After() bool { return len(f.of(rules.FailAfter)) > 0 }

// notPlaced gives the reason why the carcass can't be placed: it fails a limit that leaves it out, or lacks the figure
// a limit on placing needs. Empty where it can.
func (f failures) NotPlaced() string {
	var reasons []string
	for _, one := range f {
		switch {
		case one.Unknown && (one.Requirement.Failing == rules.FailNotPlaced || one.Requirement.Failing == rules.FailAfter):
			reasons = append(reasons, "can't be held against the limit on "+one.Requirement.Measure.String()+": "+one.words)
		case one.Requirement.Failing == rules.FailNotPlaced:
			reasons = append(reasons, one.words)
		}
	}
	return strings.Join(reasons, "; ")
}

// words gives every failure in words.
func (f failures) words() []string {
	var list []string
	for _, one := range f {
		list = append(list, one.words)
	}
	return list
}

// fails tells whether a carcass fails a requirement. A missing figure fails it, since nobody can say that it is met.
func fails(carcass *grading.Graded, requirement rules.Requirement, means classMeans, book *rules.Rulebook) (failed failure, bad bool) {
	failed.Requirement = requirement
	value, missing := grading.FigureFor(carcass, requirement.Measure, book)
	if missing != "" {
		failed.words, failed.Unknown = missing, true
		return failed, true
	}
	if requirement.MustNotBe {
		failed.words = requirement.Measure.String()
		return failed, value.Number.IsPositive()
	}
	if requirement.MustBe {
		failed.words = "not " + requirement.Measure.String()
		return failed, !value.Number.IsPositive()
	}
	if requirement.LowestWord != "" {
		meets, known := meetsGrade(carcass.Species, value, requirement.LowestWord)
		failed.words = requirement.Measure.String() + " " + value.Text + ", at least " + requirement.LowestWord
		if !known {
			failed.words, failed.Unknown = phrase.Quote(requirement.LowestWord)+" is no grade of "+string(carcass.Species), true
		}
		return failed, !meets
	}
	move := decimal.Zero
	ofWeight := ""
	if !requirement.PerPound.IsZero() {
		weight, missing := grading.FigureFor(carcass, measure.HotCarcassWeight, book)
		if missing != "" {
			failed.words, failed.Unknown = missing, true
			return failed, true
		}
		move = requirement.PerPound.Mul(weight.Number)
		ofWeight = " for its " + grading.Say(measure.HotCarcassWeight, weight)
	}
	if requirement.FromMean {
		mean, known := means[requirement.Measure]
		if !known {
			failed.words, failed.Unknown = "no carcass of the class has a "+requirement.Measure.String()+" to take the mean of", true
			return failed, true
		}
		move = move.Add(mean)
		ofWeight += " beside the class mean of " + grading.Say(requirement.Measure, measure.NumberValue(mean))
	}
	figure := value.Number.Round(grading.ComparedDecimals)
	for _, bound := range BoundsOf(requirement) {
		border := bound.At.Add(move).Round(grading.ComparedDecimals)
		if bound.holds(figure.Cmp(border)) {
			continue
		}
		had, wanted := sayApart(requirement.Measure, value.Number, border)
		failed.words = requirement.Measure.String() + " " + had + ", " + bound.Words + " " + wanted + ofWeight
		return failed, true
	}
	return failed, false
}

// bound is one side of a requirement.
type Bound struct {
	At     decimal.Decimal
	Words  string
	Lower  bool // the figure must be above
	Closed bool // a figure exactly at the bound passes
}

// holds tells whether a figure that compares with the bound so (−1, 0, 1) passes.
func (b Bound) holds(order int) bool {
	return order == 0 && b.Closed || order > 0 && b.Lower || order < 0 && !b.Lower
}

// boundsOf gives the bounds a requirement names.
func BoundsOf(requirement rules.Requirement) []Bound {
	var bounds []Bound
	add := func(at decimal.NullDecimal, words string, lower, closed bool) {
		if at.Valid {
			bounds = append(bounds, Bound{at.Decimal, words, lower, closed})
		}
	}
	add(requirement.AtLeast, "at least", true, true)
	add(requirement.Above, "must be above", true, false)
	add(requirement.AtMost, "at most", false, true)
	add(requirement.Below, "must be below", false, false)
	return bounds
}

// meetsGrade tells whether a grade is at least another, by third: "Choice" alone means its lowest third. known is false
// where the words name no grade.
func meetsGrade(species rules.Species, value measure.Value, lowest string) (meets, known bool) {
	order := rules.GradeWords(species)
	has, asks := slices.Index(order, value.Text), slices.Index(order, lowest)
	if has >= 0 && asks >= 0 {
		return has <= asks, true
	}
	least, whole, known := grading.ParseQualityGrade(lowest)
	if whole {
		three := decimal.NewFromInt(3)
		least.Number = least.Number.Div(three).Floor().Mul(three)
	}
	return known && value.Number.GreaterThanOrEqual(least.Number), known
}
