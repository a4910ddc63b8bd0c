package rules

import (
	"slices"
	"time"

	"railbook/rules/measure"
	"railbook/rules/phrase"

	"github.com/shopspring/decimal"
)

func (l *loading) eligibility() {
	var lines []line
	defer func() { l.checkAlternatives(lines) }()
	for _, line := range l.lines(EligibilityTable) {
		species := line.species()
		if _, ok := line.needed("Measure"); !ok {
			continue
		}
		definition, ok := line.measure(species)
		if !ok {
			continue
		}
		requirement := Requirement{
			Class: line.class(species), Species: species, Measure: definition.ID,
			AtLeast: line.boundOf(definition, "At least"), AtMost: line.boundOf(definition, "At most"),
			Above: line.boundOf(definition, "Above"), Below: line.boundOf(definition, "Below"), OneOf: line.text("One of"),
			PerPound:   line.number("Changes per lb").Decimal,
			LowestWord: line.lowestGrade(definition, species), MustNotBe: line.yes("Must not be", false), MustBe: line.saysNo("Must not be"),
			FromMean: line.yes("From class mean", false), Or: line.text("Or"),
			Failing: Failing(line.choice("Failing", failingWords)), Award: line.text("Award"),
			Source: line.text("Source"), Place: line.place("Measure"),
		}
		if line.text("Failing") == "" {
			line.needed("Failing")
		}
		line.checkTests(definition, requirement)
		line.checkAward(requirement)
		line.hasIt(requirement.Class, definition)
		l.checkRequirementTwice(requirement, line)
		lines = append(lines, line)
		l.book.Eligibility = append(l.book.Eligibility, requirement)
	}
}

// checkAlternatives looks whether each letter under "Or" has another line to be an alternative to.
func (l *loading) checkAlternatives(lines []line) {
	if len(lines) != len(l.book.Eligibility) {
		return
	}
	for at, line := range lines {
		others, own := 0, l.book.Eligibility[at]
		for number, other := range l.book.Eligibility {
			if number != at && fold(other.Or) == fold(own.Or) && other.Failing == own.Failing && fold(other.Award) == fold(own.Award) &&
				(other.Class == own.Class || other.Class == "" || own.Class == "") && overlap(other.Species, own.Species) {
				others++
			}
		}
		line.alone(others)
	}
}

// checkTests looks whether a line tests something, and what its measure can be tested by.
func (n line) checkTests(definition measure.Definition, requirement Requirement) {
	bounded := requirement.AtLeast.Valid || requirement.AtMost.Valid || requirement.Above.Valid || requirement.Below.Valid
	if (requirement.MustNotBe || requirement.MustBe) && definition.Kind != measure.KindMark && requirement.OneOf == "" {
		n.fault("Must not be", "%s is no mark, so it cannot be forbidden. Write a bound, or name a mark such as dark cutter.", phrase.Capital(definition.Name))
	}
	n.checkWords(definition, requirement)
	if bounded {
		n.checkBounded(definition)
	}
	switch {
	case requirement.OneOf != "":
		n.clearOn("Words have no bound that could change.", "Changes per lb")
		if requirement.FromMean {
			n.clearOn("Words have no mean.", "From class mean")
		}
	case bounded:
	case !requirement.PerPound.IsZero():
		n.fault("Changes per lb", "There is no bound on this line that could change. Fill one in, or clear %q.", "Changes per lb")
	case requirement.FromMean:
		n.fault("From class mean", "There is no bound on this line that could be a distance from the mean. Fill one in, or clear %q.", "From class mean")
	case slices.ContainsFunc(boundHeadings, func(heading string) bool { return n.text(heading) != "" }): // a fault already
	case !requirement.MustNotBe && !requirement.MustBe && n.text("Lowest grade") == "":
		n.fault("Measure", "This line tests nothing. Fill in a bound, a lowest grade or, for a mark, yes under %q.", "Must not be")
	}
	n.steppedOver(definition, requirement.AtMost)
	n.crossed("At most", requirement.AtLeast, requirement.AtMost, false)
	n.crossed("Below", requirement.AtLeast, requirement.Below, true)
	n.crossed("At most", requirement.Above, requirement.AtMost, true)
	n.crossed("Below", requirement.Above, requirement.Below, true)
}

var boundHeadings = []string{"At least", "At most", "Above", "Below"}

// checkWords looks whether what a line lists under "One of" can be compared, and whether it can be anything else as well.
func (n line) checkWords(definition measure.Definition, requirement Requirement) {
	if requirement.OneOf == "" {
		return
	}
	if definition.Kind != measure.KindText {
		n.fault("One of", "%s is %s, which is not one of a few words. Write a bound, or name a measure in words such as sex.", phrase.Capital(definition.Name), kindWords[definition.Kind])
		return
	}
	if requirement.MustBe {
		n.fault("Must not be", "%q is what it must be already. Write yes here where it must be none of these, or clear the cell.", requirement.OneOf)
	}
}

// boundOf reads a bound of a measure: a number, or for a date a day as 2025-01-15.
func (n line) boundOf(definition measure.Definition, heading string) decimal.NullDecimal {
	if definition.Kind != measure.KindDate {
		if score, ok := scoreInWords(definition, n.text(heading)); ok {
			return decimal.NewNullDecimal(score)
		}
		return n.number(heading)
	}
	text := n.date(heading)
	if text == "" {
		return decimal.NullDecimal{}
	}
	day, _ := time.Parse(time.DateOnly, text)
	return decimal.NewNullDecimal(decimal.NewFromInt(int64(day.Sub(firstDay).Hours() / 24)))
}

// firstDay is the day from which dates are counted.
var firstDay = time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)

// checkBounded looks whether a measure is a figure that bounds can be set for.
func (n line) checkBounded(definition measure.Definition) {
	switch definition.Kind {
	case measure.KindGrade:
		n.fault("Measure", "%s is a grade, which no number bounds. Write the lowest grade that passes under %q.", phrase.Capital(definition.Name), "Lowest grade")
	case measure.KindDate:
		for _, heading := range []string{"Changes per lb", "From class mean"} {
			if text := n.text(heading); text != "" && fold(text) != "no" {
				n.fault(heading, "The bounds of a date are days, which stay as they are. Clear %q.", heading)
			}
		}
	case measure.KindNumber, measure.KindMarbling, measure.KindMaturity:
	default:
		n.fault("Measure", "%s is %s, which no number bounds.", phrase.Capital(definition.Name), kindWords[definition.Kind])
	}
}

// nines are the decimals of an upper end that a figure of more decimals steps over.
var nines = phrase.NewPattern(`\.9+$`)

// steppedOver warns of an upper end such as "at most 2.99" on a figure that is compared to six decimals.
func (n line) steppedOver(definition measure.Definition, atMost decimal.NullDecimal) {
	if !atMost.Valid || !definition.Computed || definition.Decimals == 0 || !nines.MatchString(atMost.Decimal.String()) {
		return
	}
	whole := atMost.Decimal.Ceil()
	n.warn("At most", "A figure between %s and %s does not pass, though it is below %s. Write %s under %q if every figure below it should pass.",
		atMost.Decimal, whole, whole, whole, "Below")
}

// crossed looks for an upper bound that no figure above the lower one can meet.
func (n line) crossed(heading string, lower, upper decimal.NullDecimal, strict bool) {
	if !lower.Valid || !upper.Valid {
		return
	}
	if order := lower.Decimal.Cmp(upper.Decimal); order > 0 || order == 0 && strict {
		n.fault(heading, "No figure passes this line: the lower bound is %s and the upper bound %s.", lower.Decimal, upper.Decimal)
	}
}

// lowestGrade reads the lowest grade that passes; a whole grade means its lowest third.
func (n line) lowestGrade(definition measure.Definition, species Species) string {
	text := n.text("Lowest grade")
	if text == "" {
		return ""
	}
	if definition.Kind != measure.KindGrade {
		n.fault("Lowest grade", "%s is no grade. Write a bound in place of %q, or name a graded measure such as quality grade.", phrase.Capital(definition.Name), text)
		return ""
	}
	var known []string
	for _, kind := range eachSpecies {
		if !definition.For(string(kind)) || !overlap(kind, species) {
			continue
		}
		if word, found := among(text, GradeWords(kind)); found {
			return word
		}
		if whole, found := among(text, wholeGrades(kind)); found {
			thirds := thirdsOf(kind, whole)
			return thirds[len(thirds)-1]
		}
		known = append(known, wholeGrades(kind)...)
	}
	n.fault("Lowest grade", "%q is no grade of %s. It should be %s, or a third of one such as Low Choice.", text, orEvery(species), phrase.JoinOr(known))
	return ""
}

// checkAward looks whether the award is named where failing loses one, and only there.
func (n line) checkAward(requirement Requirement) {
	loses := requirement.Failing == FailLosesAward
	if loses && requirement.Award == "" {
		n.fault("Award", "Failing %q, but the line does not say which award. Name one of the Awards sheet.", FailLosesAward)
		return
	}
	if !loses && requirement.Award != "" {
		n.fault("Award", "An award is named only where failing %q. Clear it, or change what failing does.", FailLosesAward)
		return
	}
	var names []string
	for _, award := range n.loading.book.Awards {
		if fold(award.Name) == fold(requirement.Award) {
			return
		}
		names = append(names, award.Name)
	}
	if loses {
		n.fault("Award", "There is no award %q on the Awards sheet.%s", requirement.Award, nearest(requirement.Award, names))
	}
}

// checkRequirementTwice looks for an earlier line that says the same.
func (l *loading) checkRequirementTwice(requirement Requirement, line line) {
	for _, earlier := range l.book.Eligibility {
		same := earlier.Class == requirement.Class && earlier.Species == requirement.Species && earlier.Measure == requirement.Measure &&
			earlier.Failing == requirement.Failing && earlier.Award == requirement.Award && earlier.LowestWord == requirement.LowestWord &&
			sameNumber(earlier.AtLeast, requirement.AtLeast) && sameNumber(earlier.AtMost, requirement.AtMost) &&
			sameNumber(earlier.Above, requirement.Above) && sameNumber(earlier.Below, requirement.Below) &&
			earlier.PerPound.Equal(requirement.PerPound) && earlier.MustNotBe == requirement.MustNotBe && earlier.MustBe == requirement.MustBe &&
			earlier.FromMean == requirement.FromMean && fold(earlier.OneOf) == fold(requirement.OneOf) && fold(earlier.Or) == fold(requirement.Or)
		if same {
			line.fault("Measure", "This condition is there twice; the first time in cell %s. Keep one of the two lines.", earlier.Place.Cell)
		}
	}
}
