package workbook

import (
	"fmt"
	"path/filepath"

	"railbook/rules"
	"railbook/validate"
	"railbook/workbook/intake"
)

// takeOver merges what another judge decided in a copy of these results: what these lack is taken over, and what differs is
// held until one of the two is cleared.
func (j *job) takeOver() error {
	path := j.options.Decisions
	if path == "" {
		return nil
	}
	book, err := openBook(path, j.options)
	if err != nil {
		return err
	}
	other, err := intake.ReadPrevious(book)
	switch {
	case err != nil:
		return err
	case j.previous == nil || other == nil:
		return fmt.Errorf("decisions are taken over from one results workbook into another, and %s is none: grade it first", noResults(j, path))
	case other.Run.InputSHA256 != j.previous.Run.InputSHA256:
		return fmt.Errorf("%s was not made from the same workbook as %s: take decisions over from a copy of the same results", path, j.path)
	}
	from := filepath.Base(path)
	about := make(map[intake.Decided]int)
	for d := range j.results.Decisions {
		about[intake.DecidedBy(&j.results.Decisions[d])] = d
	}
	base := make(map[intake.Decided]*validate.Decision)
	for d := range j.previous.Kept {
		base[intake.DecidedBy(&j.previous.Kept[d])] = &j.previous.Kept[d]
	}
	for _, decision := range decisionsNow(other.Kept, other.Decisions, other.Asked) {
		key := intake.DecidedBy(&decision)
		known := base[key]
		if decision.Choice == validate.Withdraw || known != nil && same(&decision, known) {
			continue // as it was when the copy was made
		}
		decision.At.File, decision.Carcass = from, 0
		d, there := about[key]
		switch {
		case there && j.results.Decisions[d].Choice == validate.Withdraw:
			decision.Puts = j.results.Decisions[d].Puts
			j.results.Decisions[d] = decision
		default:
			decision.Puts = nil
			j.results.Decisions = append(j.results.Decisions, decision)
		}
	}
	j.results.Rulings = append(j.results.Rulings, other.Rulings...)
	for carcass, words := range other.Reasons {
		if j.results.Reasons == nil {
			j.results.Reasons = make(map[string]string)
		}
		if j.results.Reasons[carcass] == "" {
			j.results.Reasons[carcass] = words
		}
	}
	for _, finding := range other.Findings {
		finding.At.File = from
		j.results.Findings = append(j.results.Findings, finding)
	}
	return nil
}

func noResults(j *job, path string) string {
	if j.previous == nil {
		return j.path
	}
	return path
}

// rowWords names the row where a decision stands.
func rowWords(at rules.Place) string {
	words := fmt.Sprintf("row %d", rowNumber(at))
	if at.File != "" {
		words += " of " + at.File
	}
	return words
}
