package result

import (
	"fmt"

	"railbook/rules/phrase"
	"railbook/validate"
	"railbook/workbook/record"
)

func (r *Results) Status() string {
	if r.Run.Status == record.Signed {
		return record.Signed
	}
	return record.Provisional
}

// StatusWords says what the status means for whoever reads the sheet.
func (r *Results) StatusWords() string {
	if r.Status() == record.Signed {
		words := "Signed by " + r.Run.Judge
		if r.Run.Date != "" {
			words += ", " + r.Run.Date
		}
		if until := r.Rules.Settings.QuestionsUntil; until != "" {
			words += ". Questions may be put until " + until
		}
		return words + "."
	}
	holds, looks := r.openCounts()
	if holds+looks == 0 {
		return "Provisional: nothing is open in the Judge review sheet. Not final until the judge has signed."
	}
	return fmt.Sprintf("Provisional: %s on hold and %s open in the Judge review sheet. Not final until the judge has signed.",
		phrase.Plural(holds, "finding", "findings"), phrase.Plural(looks, "to look at", "to look at"))
}

// openCounts counts what the judge has still to settle.
func (r *Results) openCounts() (holds, looks int) {
	for _, finding := range r.Findings {
		if finding.Settled != nil {
			continue
		}
		switch finding.Level {
		case validate.Hold:
			holds++
		case validate.Look:
			looks++
		}
	}
	return holds, looks
}

// placedCounts counts the carcasses with and without a place.
func (r *Results) placedCounts() (placed, left int) {
	for _, class := range r.Placings.Classes {
		placed += len(class.Placed)
		left += len(class.NotPlaced)
	}
	return placed, left
}

func (r *Results) FairWords() string {
	placed, left := r.placedCounts()
	words := fmt.Sprintf("%s · %d placed, %d not placed", r.Run.InputName, placed, left)
	if r.Run.Rulebook != "" {
		words += " · rulebook " + r.Run.Rulebook
	}
	return words
}

// AcceptedBeyond gives the findings of values that the judge accepted past what the rulebook holds possible.
func AcceptedBeyond(findings []validate.Finding) (accepted []*validate.Finding) {
	for i := range findings {
		if finding := &findings[i]; finding.Beyond && finding.Settled != nil && finding.Settled.Choice == validate.Accept {
			accepted = append(accepted, finding)
		}
	}
	return accepted
}
