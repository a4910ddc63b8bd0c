package whatif

import (
	"slices"
	"strings"

	"railbook/grading"
	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"

	"github.com/shopspring/decimal"
)

// priceChanges says, part by part, what makes a carcass's price another than it was.
func priceChanges(old, new Outcome) []string {
	if new.Held || old.Held {
		return []string{map[bool]string{true: "on hold now, and without a price", false: "on hold before, and without a price"}[new.Held]}
	}
	if !new.Price.Valid {
		return []string{"no price now: " + new.FigureOf(measure.Price).Missing}
	}
	if !old.Price.Valid {
		return []string{"priced now; before: " + old.FigureOf(measure.Price).Missing}
	}
	var changes []string
	was := old.Graded.PriceSteps()
	for _, step := range new.Graded.PriceSteps() {
		at := slices.IndexFunc(was, func(priced grading.PriceStep) bool {
			return priced.Part == step.Part && (step.Part != rules.ConditionPart && step.Part != rules.PremiumPart || priced.Words == step.Words)
		})
		if at < 0 {
			changes = append(changes, step.Words+" "+pays(step)+" now")
			continue
		}
		before := was[at]
		was = slices.Delete(was, at, at+1)
		switch {
		case before.Words == step.Words && !before.Adjust.Number.Equal(step.Adjust.Number):
			changes = append(changes, step.Words+" "+pays(step)+", was "+signed(before))
		case !before.Adjust.Number.Equal(step.Adjust.Number):
			changes = append(changes, step.Words+" "+pays(step)+", was "+before.Words+" with "+signed(before))
		}
	}
	for _, gone := range was {
		changes = append(changes, gone.Words+" counts no more, was "+signed(gone))
	}
	return changes
}

// pays says what a step of a price does.
func pays(step grading.PriceStep) string {
	switch {
	case step.Line == nil:
		return "is " + signed(step)
	case step.Adjust.Number.IsNegative():
		return "takes " + signed(step)
	default:
		return "pays " + signed(step)
	}
}

// signed writes a step's dollars, a premium with its plus; the base price has none.
func signed(step grading.PriceStep) string {
	text := phrase.Dollars(phrase.Thousands(step.Adjust.Number.StringFixed(2)))
	if step.Line != nil && step.Adjust.Number.IsPositive() {
		return "+" + text
	}
	return text
}

// placeChange says what moved a carcass: who passed whom and by which key, or who came or went ahead of it.
func placeChange(carcass *grading.Carcass, before, after standings) string {
	was, is := before.of(carcass), after.of(carcass)
	var parts []string
	switch {
	case is.WhyNotPlaced != "" && was.WhyNotPlaced == "":
		return "not placed now: " + is.WhyNotPlaced
	case is.WhyNotPlaced == "" && was.WhyNotPlaced != "":
		parts = append(parts, "placed now; was not: "+was.WhyNotPlaced)
	case is.WhyNotPlaced == "":
		if words := movedBy(carcass, before, after); words != "" {
			parts = append(parts, words)
		}
	}
	return strings.Join(append(parts, besides(was, is)...), "; ")
}

// besides says what changed apart from the place: the group, the money, the awards.
func besides(was, is standing) []string {
	var parts []string
	if was.Shared && is.Shared && was.JudgeTie != is.JudgeTie {
		parts = append(parts, map[bool]string{true: "the judge breaks its tie now", false: "its tie is shared now"}[is.JudgeTie])
	}
	if was.Group != is.Group {
		parts = append(parts, "group "+orNone(is.Group)+", was "+orNone(was.Group))
	}
	if was.Paid != is.Paid && is.Paid {
		parts = append(parts, "in the money now")
	} else if was.Paid != is.Paid {
		parts = append(parts, "below the money now")
	}
	for _, award := range is.Awards {
		if !slices.Contains(was.Awards, award) {
			parts = append(parts, "receives "+award)
		}
	}
	for _, award := range was.Awards {
		if !slices.Contains(is.Awards, award) {
			parts = append(parts, "no longer receives "+award)
		}
	}
	return parts
}

func orNone(group string) string {
	if group == "" {
		return "none"
	}
	return group
}

// movedBy finds the carcass whose passing tells why this one stands elsewhere: the nearest it passed where it went up,
// the nearest that passed it where it went down; else one it is level with no more, or now; else who came or went.
func movedBy(carcass *grading.Carcass, before, after standings) string {
	was, is := before.of(carcass), after.of(carcass)
	var passed, passedBy, parted, joined, came, gone *grading.Graded
	for _, other := range is.class.Placed {
		old := before.of(other.Carcass)
		if other.Sequence == carcass.Sequence || old.class == nil {
			continue
		}
		together := old.Place > 0 && old.class == was.class
		switch {
		case together && old.Place < was.Place && other.Place > is.Place && passed == nil:
			passed = other.Graded
		case together && old.Place > was.Place && other.Place < is.Place:
			passedBy = other.Graded
		case together && old.Place == was.Place && other.Place != is.Place:
			parted = other.Graded
		case together && old.Place != was.Place && other.Place == is.Place:
			joined = other.Graded
		case !together && other.Place <= is.Place:
			came = other.Graded
		}
	}
	for _, other := range was.class.Placed {
		if after.of(other.Carcass).WhyNotPlaced != "" && other.Place <= was.Place && other.Sequence != carcass.Sequence {
			gone = other.Graded
		}
	}
	switch up := is.Place < was.Place; {
	case up && passed != nil:
		return "passes " + passed.Called() + ": " + overNow(is.Graded, passed, is, before, after)
	case !up && passedBy != nil:
		return passedBy.Called() + " passes it: " + overNow(passedBy, is.Graded, is, before, after)
	case parted != nil && after.of(parted.Carcass).Place > is.Place:
		return "no longer level with " + parted.Called() + ": " + overNow(is.Graded, parted, is, before, after)
	case parted != nil:
		return "no longer level with " + parted.Called() + ": " + overNow(parted, is.Graded, is, before, after)
	case joined != nil:
		return "level with " + joined.Called() + " now"
	case came != nil && !up:
		return came.Called() + " is placed ahead of it now"
	case gone != nil:
		return gone.Called() + " is no longer placed"
	case passed != nil:
		return "passes " + passed.Called() + ": " + overNow(is.Graded, passed, is, before, after)
	default:
		return ""
	}
}

// overNow says what puts one carcass over another under the new rulebook. Where that is money, it says which premium
// changed.
func overNow(upper, lower *grading.Graded, is standing, before, after standings) string {
	if under := after.of(lower.Carcass); under.After && !after.of(upper.Carcass).After {
		return lower.Called() + " is outside the limits: " + strings.Join(under.Fails, "; ")
	}
	ranker := &placing.Ranker{Book: is.Graded.Book, Ranking: is.class.Ranking}
	at := ranker.FirstDifference(upper, lower)
	if at < 0 {
		return "by the judge"
	}
	text := ranker.Over(upper, lower, at) + ranker.BothAt(upper, at)
	if !ofMoney(ranker.Ranking.Keys[at].Measure) {
		return text
	}
	var causes []string
	for _, graded := range []*grading.Graded{upper, lower} {
		if changes := priceChanges(before.of(graded.Carcass).Outcome, after.of(graded.Carcass).Outcome); len(changes) > 0 {
			causes = append(causes, "for "+graded.Called()+" "+phrase.JoinAnd(changes))
		}
	}
	if len(causes) > 0 {
		text += " (" + strings.Join(causes, "; ") + ")"
	}
	return text
}

// ofMoney reports whether a measure follows from the value grid.
func ofMoney(id measure.ID) bool {
	switch id {
	case measure.Price, measure.CarcassValue, measure.Premium, measure.ValuePerDayOnFeed:
		return true
	}
	return false
}

// lineWords names a line of the grid with its money: "the premium for Prime, +$17.54".
func lineWords(line *rules.GridLine) string {
	kind := "the premium for "
	if line.Adjust.IsNegative() {
		kind = "the discount for "
	}
	name := line.Name
	switch line.Part {
	case rules.YieldPart:
		name = "a yield grade " + grading.BandWords(line.Band, 1, "")
	case rules.WeightPart:
		name = "a weight " + grading.BandWords(line.Band, 0, "lb")
	}
	return kind + name + ", " + signed(grading.PriceStep{Line: line, Adjust: measure.NumberValue(line.Adjust)})
}

// limitWords says what a limit asks: "at least 600 lb, at most 900 lb".
func limitWords(requirement rules.Requirement) string {
	if requirement.LowestWord != "" {
		return "at least " + requirement.LowestWord
	}
	var parts []string
	for _, bound := range grading.BoundsOf(requirement) {
		parts = append(parts, bound.Words+" "+sayBound(requirement.Measure, bound.At))
	}
	text := strings.Join(parts, ", ")
	if !requirement.PerPound.IsZero() {
		text += " and " + requirement.PerPound.String() + " more for each lb"
	}
	if requirement.FromMean {
		text += " from the class mean"
	}
	return text
}

// sayBound writes a bound with at least the decimals it was written with.
func sayBound(id measure.ID, at decimal.Decimal) string {
	return grading.WithUnit(id, grading.Fixed(id, at, max(int32(grading.DefinitionOf(id).Decimals), -at.Exponent())))
}
