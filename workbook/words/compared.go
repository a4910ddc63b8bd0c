package words

import (
	"fmt"
	"slices"
	"strings"

	"railbook/grading"
	"railbook/grading/whatif"
	"railbook/rules/phrase"
)

// Moved says in two words how a carcass moved; empty where it did not.
func Moved(row whatif.Compared) string {
	was, is := row.Old.Place, row.New.Place
	switch {
	case !row.Moved():
		return ""
	case was == 0:
		return "now placed"
	case is == 0:
		return "now left out"
	case is < was:
		return fmt.Sprintf("up %d", was-is)
	case is > was:
		return fmt.Sprintf("down %d", is-was)
	case row.New.Shared && !row.Old.Shared:
		return "now shared"
	case row.Old.Shared && !row.New.Shared:
		return "now alone"
	}
	return "same place"
}

// Eligibility says whether the limits let in or keep out a carcass of which only one rulebook's do, and what kept it out.
func Eligibility(row whatif.Compared) string {
	if row.Old.Eligible() {
		return "is eligible no more: " + whyNotEligible(row.New)
	}
	return "becomes eligible; was not: " + whyNotEligible(row.Old)
}

func whyNotEligible(outcome whatif.Outcome) string {
	if outcome.WhyNotPlaced != "" {
		return outcome.WhyNotPlaced
	}
	return strings.Join(outcome.Fails, "; ")
}

// WhyOtherwise says in sentences what moved a carcass and what changed its price. What of the price is told with the place is not
// told twice.
func WhyOtherwise(row whatif.Compared) string {
	var sentences []string
	if row.Old.WhyNotPlaced != "" && row.New.WhyNotPlaced != "" {
		sentences = append(sentences, phrase.Sentence("left out: "+row.New.WhyNotPlaced))
	}
	moved := PlaceWhy(row)
	if moved != "" {
		sentences = append(sentences, phrase.Sentence(moved))
	}
	for _, change := range PriceWhy(row) {
		if !strings.Contains(moved, change) {
			sentences = append(sentences, phrase.Sentence(change))
		}
	}
	return strings.Join(sentences, " ")
}

// PlaceWhy says what moved a carcass under a new rulebook: who passed whom and by which key, or who came or went ahead of it, and
// what else changed with the place. Empty for one that stands as it did.
func PlaceWhy(row whatif.Compared) string {
	was, is := row.Old, row.New
	if !row.Moved() {
		return ""
	}
	var parts []string
	switch {
	case is.WhyNotPlaced != "" && was.WhyNotPlaced == "":
		return "not placed now: " + is.WhyNotPlaced
	case is.WhyNotPlaced == "" && was.WhyNotPlaced != "":
		parts = append(parts, "placed now; was not: "+was.WhyNotPlaced)
	case row.Passing != nil:
		parts = append(parts, passingWords(*row.Passing))
	}
	return strings.Join(append(parts, besides(was, is)...), "; ")
}

func passingWords(passing whatif.Passing) string {
	other := passing.Other.Called()
	switch passing.Kind {
	case whatif.Passes:
		return "passes " + other + ": " + overNow(*passing.Over)
	case whatif.PassedBy:
		return other + " passes it: " + overNow(*passing.Over)
	case whatif.Parted:
		return "no longer level with " + other + ": " + overNow(*passing.Over)
	case whatif.Joined:
		return "level with " + other + " now"
	case whatif.Came:
		return other + " is placed ahead of it now"
	case whatif.Gone:
	}
	return other + " is no longer placed"
}

// overNow says what puts one carcass over another under the new rulebook. Where that is money, it says which premium changed.
func overNow(over whatif.Over) string {
	if len(over.Limits) > 0 {
		return over.Lower.Called() + " is outside the limits: " + strings.Join(over.Limits, "; ")
	}
	if over.Key < 0 {
		return "by the judge"
	}
	text := overWith(over.Ranker, over.Upper, over.Lower, over.Key)
	var causes []string
	for _, cause := range over.Causes {
		causes = append(causes, "for "+cause.Of.Called()+" "+phrase.JoinAnd(priceChanges(cause.Changes)))
	}
	if len(causes) > 0 {
		text += " (" + strings.Join(causes, "; ") + ")"
	}
	return text
}

// besides says what changed apart from the place: the group, the money, the awards.
func besides(was, is whatif.Outcome) []string {
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

// PriceWhy says, part by part, what makes a carcass's price another than it was: "Choice pays +$2.00, was $0.00".
func PriceWhy(row whatif.Compared) []string { return priceChanges(row.PriceChanges) }

func priceChanges(changes []whatif.PriceChange) []string {
	said := make([]string, len(changes))
	for i, change := range changes {
		said[i] = priceChange(change)
	}
	return said
}

func priceChange(change whatif.PriceChange) string {
	was, is := change.Old, change.New
	switch change.Kind {
	case whatif.HeldNow:
		return "on hold now, and without a price"
	case whatif.HeldBefore:
		return "on hold before, and without a price"
	case whatif.NoPriceNow:
		return "no price now: " + change.Why
	case whatif.PricedNow:
		return "priced now; before: " + change.Why
	case whatif.StepAdded:
		return is.Words + " " + pays(is) + " now"
	case whatif.StepChanged:
		if was.Words == is.Words {
			return is.Words + " " + pays(is) + ", was " + signed(was)
		}
		return is.Words + " " + pays(is) + ", was " + was.Words + " with " + signed(was)
	case whatif.StepGone:
	}
	return was.Words + " counts no more, was " + signed(was)
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
	if step.Line == nil {
		return phrase.Dollars(phrase.Thousands(step.Adjust.Number.StringFixed(2)))
	}
	return grading.SayAdjustment(step.Adjust.Number)
}
