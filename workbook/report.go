package workbook

import (
	"fmt"
	"path/filepath"
	"strings"

	"railbook/grading/placing"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/validate"
	"railbook/workbook/record"
	"railbook/workbook/result"
)

// reportWidth keeps every printed line within a terminal of 80 columns.
const reportWidth = 79

// Tally counts what a set of results holds.
type Tally struct {
	Carcasses, Placed, OnHold, LeftOut int
	Holds, Looks, Notes                int // open findings
}

// Count tallies the results.
func Count(results *result.Results) (tally Tally) {
	tally.Carcasses = len(results.Carcasses)
	for _, class := range results.Placings.Classes {
		tally.Placed += len(class.Placed)
	}
	for _, carcass := range results.Carcasses {
		if carcass.Status.State == result.OnHold {
			tally.OnHold++
		}
	}
	for i := range results.Findings {
		switch finding := &results.Findings[i]; {
		case finding.Settled != nil:
		case finding.Level == validate.Hold:
			tally.Holds++
		case finding.Level == validate.Look:
			tally.Looks++
		default:
			tally.Notes++
		}
	}
	tally.LeftOut = tally.Carcasses - tally.Placed - tally.OnHold
	return tally
}

// Report is the short summary for the person who ran the program: what was read, who leads, what to do next.
func (o *Outcome) Report() string {
	var text strings.Builder
	tally := Count(o.Results)
	fmt.Fprintf(&text, "%s: %s read, %d placed, %d on hold%s.\n", filepath.Base(o.Results.Book.Path),
		phrase.Plural(tally.Carcasses, "carcass", "carcasses"), tally.Placed, tally.OnHold, leftOut(tally.LeftOut))
	fmt.Fprintf(&text, "Findings: %s, %s, %s.\n", phrase.Plural(tally.Holds, "hold", "holds"),
		phrase.Plural(tally.Looks, "to look at", "to look at"), phrase.Plural(tally.Notes, "note", "notes"))
	unused := 0
	for _, finding := range o.Results.Findings {
		if finding.Code == record.NotApplied {
			unused++
		}
	}
	if unused > 0 {
		fmt.Fprintf(&text, "%s could not be used:\n", phrase.Plural(unused, "decision", "decisions"))
	}
	text.WriteString(acceptedBeyond(o.Results))
	for _, finding := range o.Results.Findings {
		if finding.Code == record.SheetAltered {
			text.WriteString(Wrapped(finding.Message, "  "))
		}
		if finding.Code == record.NotApplied {
			text.WriteString(Wrapped("Decided, but without effect: "+finding.Message, "  "))
		}
	}
	for _, class := range o.Results.Placings.Classes {
		text.WriteString(Wrapped("  "+leader(class), "    "))
	}
	for _, warning := range o.Warnings {
		text.WriteString(Wrapped("Warning: "+warning, "  "))
	}
	switch {
	case o.Same:
		text.WriteString(Wrapped("Nothing has changed since this workbook was graded, so nothing was written.", ""))
	case o.Written:
		fmt.Fprintf(&text, "Results: %s\n", o.Path)
	default:
		fmt.Fprintf(&text, "Results: %s (the very same were there already)\n", o.Path)
	}
	text.WriteString(Wrapped("Next: "+o.next(tally, o.Path), "  "))
	text.WriteString(Wrapped("Grades are computed estimates for a youth contest; only the official grader assigns an official grade.", ""))
	return text.String()
}

// leader says in a line who stands first in a class, all of them where the place is shared.
func leader(class placing.ClassPlacing) string {
	var names []string
	for _, placed := range class.Placed {
		if placed.Place == 1 {
			names = append(names, strings.TrimSpace("tag "+placed.Tag+" "+placed.ReadingOf(measure.Exhibitor).Value.Text))
		}
	}
	if len(names) == 0 {
		return class.Class + ": nobody is placed"
	}
	return fmt.Sprintf("%s (%d placed): first is %s", class.Class, len(class.Placed), strings.Join(names, " and "))
}

// acceptedBeyond names the values that the judge accepted past what the rulebook holds possible.
func acceptedBeyond(results *result.Results) string {
	var text strings.Builder
	for _, finding := range result.AcceptedBeyond(results.Findings) {
		text.WriteString(Wrapped(fmt.Sprintf("To look at: %s %s of tag %s (%s) is past what the rulebook holds possible, and was accepted by %s: %s.",
			finding.Measure, finding.Read, orBlank(finding.Tag), finding.At.Cell, finding.Settled.Initials, finding.Settled.Remark), "  "))
	}
	return text.String()
}

func (o *Outcome) next(tally Tally, path string) string {
	switch {
	case o.Same && o.Signed != "":
		return fmt.Sprintf("this workbook is signed by %s, and there is nothing to do. Grading it again after a value, a decision or the rulebook was changed would undo the signature: the results would be provisional, and to be signed anew.", o.Signed)
	case o.Signed != "":
		return fmt.Sprintf("the workbook was signed by %s and has been changed since, so these results are provisional. Look at the Change record, and sign them anew.", o.Signed)
	case tally.Carcasses == 0:
		return "there is nothing to do."
	case tally.Holds+tally.Looks == 0:
		return "the judge may sign: railbook sign " + quoted(path) + ` --judge "NAME"`
	default:
		return "open the results, settle each row of the Judge review sheet (or correct the cell named in the Error log), save, and grade them again: railbook grade " + quoted(path)
	}
}

func leftOut(count int) string {
	if count == 0 {
		return ""
	}
	return fmt.Sprintf(", %d not placed for another reason", count)
}

// Wrapped breaks a line at spaces to fit a terminal, indenting what follows.
func Wrapped(line, indent string) string { return WrappedAt(reportWidth, line, indent) }

// WrappedAt breaks a line at spaces to fit so many columns.
func WrappedAt(columns int, line, indent string) string {
	var text strings.Builder
	length := 0
	leading := len(line) - len(strings.TrimLeft(line, " "))
	text.WriteString(line[:leading])
	length = leading
	for i, word := range strings.Fields(line) {
		if i > 0 && length+1+len([]rune(word)) > columns {
			text.WriteString("\n" + indent)
			length = len(indent)
		} else if i > 0 {
			text.WriteByte(' ')
			length++
		}
		text.WriteString(word)
		length += len([]rune(word))
	}
	return text.String() + "\n"
}
