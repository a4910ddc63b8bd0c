package grading

import (
	"slices"

	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"

	"github.com/shopspring/decimal"
)

// ClassMeans are the means of the figures that a class's limits and groups are distances from.
type ClassMeans map[measure.ID]decimal.Decimal

// Failed says in what a carcass does not meet a requirement.
type Failed struct {
	Words   string // "adjusted fat 0.05 in, at least 0.10 in"
	Unknown bool   // the figure is missing, so that nobody can say
}

// Unmet tells whether a carcass fails a requirement. A missing figure fails it, since nobody can say that it is met.
func Unmet(carcass *Graded, requirement rules.Requirement, means ClassMeans, book *rules.Rulebook) (failed Failed, unmet bool) {
	value, missing := FigureFor(carcass, requirement.Measure, book)
	if missing != "" {
		return Failed{missing, true}, true
	}
	name := requirement.Measure.String()
	switch {
	case requirement.OneOf != "":
		among := isOneOf(carcass.Species, requirement.Measure, value.Text, requirement.Words())
		return Failed{Words: name + " " + value.Text + ", must " + notIf(requirement.MustNotBe) + "be " + phrase.JoinOr(requirement.Words())}, among == requirement.MustNotBe
	case requirement.MustNotBe:
		return Failed{Words: name}, value.Number.IsPositive()
	case requirement.MustBe:
		return Failed{Words: "not " + name}, !value.Number.IsPositive()
	case requirement.LowestWord != "":
		meets, known := meetsGrade(carcass.Species, value, requirement.LowestWord)
		if !known {
			return Failed{phrase.Quote(requirement.LowestWord) + " is no grade of " + string(carcass.Species), true}, true
		}
		return Failed{Words: name + " " + value.Text + ", at least " + requirement.LowestWord}, !meets
	}
	return unbounded(carcass, requirement, value, means, book)
}

func notIf(not bool) string {
	if not {
		return "not "
	}
	return ""
}

// isOneOf tells whether words are among others, a sex in any of its spellings.
func isOneOf(species rules.Species, id measure.ID, text string, others []string) bool {
	return slices.ContainsFunc(others, func(other string) bool {
		if SameName(text) == SameName(other) {
			return true
		}
		sex := SexOf(species, text)
		return id == measure.Sex && sex != "" && sex == SexOf(species, other)
	})
}

// unbounded holds a figure against the bounds of a requirement, which may grow with the carcass weight and start at the mean of
// the class.
func unbounded(carcass *Graded, requirement rules.Requirement, value measure.Value, means ClassMeans, book *rules.Rulebook) (failed Failed, unmet bool) {
	move, ofWeight := decimal.Zero, ""
	if !requirement.PerPound.IsZero() {
		weight, missing := FigureFor(carcass, measure.HotCarcassWeight, book)
		if missing != "" {
			return Failed{missing, true}, true
		}
		move = requirement.PerPound.Mul(weight.Number)
		ofWeight = " for its " + Say(measure.HotCarcassWeight, weight)
	}
	if requirement.FromMean {
		mean, known := means[requirement.Measure]
		if !known {
			return Failed{"no carcass of the class has a " + requirement.Measure.String() + " to take the mean of", true}, true
		}
		move = move.Add(mean)
		ofWeight += " beside the class mean of " + Say(requirement.Measure, measure.NumberValue(mean))
	}
	figure := value.Number.Round(ComparedDecimals)
	for _, bound := range BoundsOf(requirement) {
		border := bound.At.Add(move).Round(ComparedDecimals)
		if bound.holds(figure.Cmp(border)) {
			continue
		}
		had, wanted := SayApart(requirement.Measure, value.Number, border)
		words := bound.Words
		if DefinitionOf(requirement.Measure).Kind == measure.KindDate {
			words = dateWords[words]
		}
		return Failed{Words: requirement.Measure.String() + " " + had + ", " + words + " " + wanted + ofWeight}, true
	}
	return Failed{}, false
}

// dateWords say the bounds of a date.
var dateWords = map[string]string{
	"at least": "must be on or after", "must be above": "must be after", "at most": "must be on or before", "must be below": "must be before",
}

// Bound is one side of a requirement.
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

// BoundsOf gives the bounds a requirement names.
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
	least, whole, known := ParseQualityGrade(lowest)
	if whole {
		three := decimal.NewFromInt(3)
		least.Number = least.Number.Div(three).Floor().Mul(three)
	}
	return known && value.Number.GreaterThanOrEqual(least.Number), known
}

// SayApart gives two numbers of a measure with as many decimals as it takes to tell them apart.
func SayApart(id measure.ID, a, b decimal.Decimal) (first, second string) {
	if DefinitionOf(id).Kind == measure.KindDate {
		return FormatDate(a), FormatDate(b)
	}
	for places := int32(DefinitionOf(id).Decimals); ; places++ {
		first, second = Shown(id, a, places), Shown(id, b, places)
		if places >= ComparedDecimals || a.Equal(b) || first != second && measure.Compare(a, b) == measure.Compare(measure.Round(a, places), measure.Round(b, places)) {
			return WithUnit(id, first), WithUnit(id, second)
		}
	}
}
