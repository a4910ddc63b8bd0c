package cards

import (
	"fmt"
	"slices"
	"strings"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/result"
)

// onHold reports whether something must be settled before a carcass can have a place.
func (c *cards) onHold(carcass *grading.Carcass) bool {
	return c.Of(carcass).Status.State == result.OnHold
}

// inDoubt reports whether a figure rests on what is on hold, or on what the judge left the carcass out for.
func (c *card) inDoubt(figure measure.ID) bool {
	if left := c.leftOut(); left != nil && c.RestsOn(figure, left.InDoubt(c.Carcass)...) {
		return true
	}
	return c.Of(c.Carcass).Doubt(figure) != nil
}

// leftOut gives the finding by which the judge left the carcass out; nil where it was not left out so.
func (c *card) leftOut() *validate.Finding {
	for _, finding := range c.Of(c.Carcass).Findings {
		if finding.Settled != nil && finding.Settled.Choice == validate.LeaveOut {
			return finding
		}
	}
	return nil
}

// standing says where the carcass stands, beside where the live animal stood, or kindly why it has no place.
func (c *card) standing() string {
	live := result.TextOf(c.Graded, measure.LivePlacing)
	if c.placed == nil {
		words := c.withoutPlace()
		if live != "" {
			words += " The live animal was placed " + live + "."
		}
		return words
	}
	where := "On the rail"
	if c.class.Basis == rules.LiveScan {
		where = "By ultrasound"
	}
	words := fmt.Sprintf(where+": place %d of %d", c.placed.Place, len(c.class.Placed))
	if c.placed.Shared {
		words += ", shared"
	}
	if c.placed.JudgeTie {
		words += "; the judge has still to decide the tie"
	}
	if live != "" {
		words += ". In the live show: place " + live
	}
	more := filled(c.placed.Group)
	if c.placed.Paid {
		more = append(more, "in the money")
	}
	if more = append(more, c.Of(c.Carcass).Standing.Awards...); len(more) > 0 {
		words += ". " + strings.Join(more, " · ")
	}
	return words + "."
}

func (c *card) withoutPlace() string {
	left := c.leftOut()
	switch {
	case c.keptBack():
		return "This carcass is not placed. The plant's inspector alone decides which carcasses are fit for food, and the sheet says that this one " +
			"was kept back. The fair office can tell more."
	case left != nil:
		return "This carcass is not placed: the judge left it out of the placings. The fair office can tell what was noted."
	case c.onHold(c.Carcass):
		return "This carcass has no place yet. Before it can have one, something on the sheet has to be settled: " +
			c.doubts() + ". That is a question about what was written down, and no mark against the animal. The fair office can tell how it stands."
	}
	return "This carcass is not placed, by a rule of the class: " + strings.TrimRight(c.reason, ".") + ". Its figures stand below all the same."
}

// keptBack reports whether a mark of the inspector's, or a finding about one, is why the carcass has no place.
func (c *card) keptBack() bool {
	doubtful := c.doubtful()
	for _, mark := range []measure.ID{measure.Condemned, measure.Retained} {
		if slices.Contains(doubtful, mark) {
			return true
		}
		if c.Is(mark) {
			return true
		}
		if left := c.leftOut(); left != nil && left.Measure == mark {
			return true
		}
	}
	return false
}

// doubtful gives the measures that open holds on the carcass ask about.
func (c *card) doubtful() (measures []measure.ID) {
	for _, finding := range c.Findings {
		if finding.Level == validate.Hold && finding.Settled == nil && slices.Contains(finding.Carcasses(), c.Carcass) && !slices.Contains(measures, finding.Measure) {
			measures = append(measures, finding.Measure)
		}
	}
	return measures
}

func (c *card) doubts() string {
	var words []string
	for _, id := range c.doubtful() {
		switch definition, _ := measure.Define(id); {
		case id == measure.None:
		case definition.Kind == measure.KindMark:
			words = append(words, "whether it is to be marked as "+id.String())
		default:
			words = append(words, "the "+id.String())
		}
	}
	if len(words) == 0 {
		return "one of its figures"
	}
	return strings.Join(words, " and ")
}
