package words

import (
	"fmt"
	"slices"
	"strings"

	"railbook/grading"
	"railbook/grading/placing"
	"railbook/grading/whatif"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"

	"github.com/shopspring/decimal"
)

// LimitFaults warns a board, at the limit's own cell, of limits that can never decide and of those that nobody can pass.
func LimitFaults(warnings []whatif.LimitWarning) []rules.Fault {
	var faults []rules.Fault
	for _, warning := range warnings {
		faults = append(faults, rules.Fault{Place: warning.Limit.Requirement.Place, Message: limitWarning(warning), Warning: true})
	}
	return faults
}

func limitWarning(warning whatif.LimitWarning) string {
	switch {
	case warning.Fails != nil && len(warning.Others) == 0:
		return fmt.Sprintf("No carcass can pass %s. Change it, or write whom it is for under \"Species\" or \"Class\": every carcass of %s fails.",
			boundWords(warning.Limit), classWords(*warning.Fails))
	case warning.Fails != nil:
		return fmt.Sprintf("No carcass can pass %s. Change one of them, or every carcass of %s fails.",
			boundsInWords(append(slices.Clone(warning.Others), warning.Limit)), classWords(*warning.Fails))
	}
	because := "No carcass within the limits of the Limits sheet can fail it"
	if len(warning.Others) > 0 {
		because = "Every carcass that passes " + boundsInWords(warning.Others) + " passes it too"
	}
	return fmt.Sprintf("The limit of %s can never decide anything. %s. Take it out, or change it.", boundWords(warning.Limit), because)
}

func classWords(class placing.Entries) string {
	if grading.SameName(class.Rule.Name) == placing.EveryOther {
		return string(class.Species) + " " + placing.BasisWords[class.Basis]
	}
	return "class " + class.Rule.Name
}

func boundsInWords(limits []whatif.Limit) string {
	words := make([]string, len(limits))
	for i, limit := range limits {
		words[i] = boundWords(limit)
	}
	return phrase.JoinAnd(words)
}

// boundWords names a limit by one of its bounds: "yield grade at most 3.99".
func boundWords(limit whatif.Limit) string {
	requirement := limit.Requirement
	if requirement.LowestWord != "" {
		return requirement.Measure.String() + " at least " + requirement.LowestWord
	}
	return requirement.Measure.String() + " " + strings.TrimPrefix(limit.Bound.Words, "must be ") + " " + boundAt(requirement.Measure, limit.Bound.At) + perPound(requirement)
}

// Unused says that a line of the grid or a limit decided nothing: "No beef carcass falls under the premium for Prime, +$17.54."
func Unused(unused whatif.Unused) string {
	if line := unused.Line; line != nil {
		return fmt.Sprintf("No %s carcass falls under %s.", line.Species, lineWords(line))
	}
	return fmt.Sprintf("No carcass fails the limit on %s (%s).", unused.Limit.Measure, limitWords(*unused.Limit))
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
	return kind + name + ", " + grading.SayAdjustment(line.Adjust)
}

// limitWords says what a limit asks: "at least 600 lb, at most 900 lb".
func limitWords(requirement rules.Requirement) string {
	if requirement.LowestWord != "" {
		return "at least " + requirement.LowestWord
	}
	var parts []string
	for _, bound := range grading.BoundsOf(requirement) {
		parts = append(parts, bound.Words+" "+boundAt(requirement.Measure, bound.At))
	}
	text := strings.Join(parts, ", ") + perPound(requirement)
	if requirement.FromMean {
		text += " from the class mean"
	}
	return text
}

func perPound(requirement rules.Requirement) string {
	if requirement.PerPound.IsZero() {
		return ""
	}
	return " and " + requirement.PerPound.String() + " more for each lb"
}

// boundAt writes a bound with at least the decimals it was written with.
func boundAt(id measure.ID, at decimal.Decimal) string {
	return grading.WithUnit(id, grading.Fixed(id, at, max(int32(grading.DefinitionOf(id).Decimals), -at.Exponent())))
}
