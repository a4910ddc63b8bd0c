package workbook

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"railbook/rules"
	"railbook/rules/phrase"
	"railbook/validate"
	"railbook/workbook/intake"
	"railbook/workbook/plant"
	"railbook/workbook/record"
)

// openAnswers reads the list of questions that the plant has answered.
func (j *job) openAnswers() error {
	if j.options.Answers == "" {
		return nil
	}
	book, err := openBook(j.options.Answers, j.options)
	if err != nil {
		return err
	}
	j.answers, err = plant.ReadAnswers(book)
	return err
}

// takeAnswers puts the plant's answers before the judge: each becomes a decision without initials, which is not applied until
// the judge confirms it. What the judge has decided already stays as it is. The finding it gives keeps the results from being
// signed meanwhile.
func (j *job) takeAnswers(findings []validate.Finding) []validate.Finding {
	names := []string{filepath.Base(j.path)}
	if j.previous != nil {
		names = append(names, j.previous.Run.InputName)
	}
	waiting := 0
	for _, answer := range plant.For(j.answers, names...) {
		at := slices.IndexFunc(findings, func(finding validate.Finding) bool { return answer.Fits(&finding) })
		switch {
		case at < 0:
			j.leaveAnswer(answer, "nothing is asked there any more, or the cell says something else since")
		case slices.ContainsFunc(j.results.Decisions, func(decision validate.Decision) bool { return settles(&decision, &findings[at]) }):
			j.leaveAnswer(answer, "the judge has decided it")
		default:
			j.replaceWaiting(answer.Decision(&findings[at], j.rules))
			waiting++
		}
	}
	if waiting == 0 {
		return nil
	}
	finding := validate.Finding{Level: validate.Look, Code: record.NotApplied, At: rules.Place{Sheet: record.JudgeReviewSheet}}
	finding.Message = fmt.Sprintf("%s: %s before the judge. Confirm each with initials, or decide otherwise; until then none is applied.",
		sentenceStart(finding.At), phrase.Plural(waiting, "answer of the plant waits", "answers of the plant wait"))
	return []validate.Finding{finding}
}

// leaveAnswer says of an answer that it was not taken over, and why.
func (j *job) leaveAnswer(answer plant.Answer, why string) {
	about := strings.TrimSpace("tag " + answer.Tag + " " + answer.Measure.String())
	j.answersLeft = append(j.answersLeft, fmt.Sprintf("%s, row %d: the answer %q about %s was not taken over: %s",
		filepath.Base(j.options.Answers), answer.Row, answer.Text, about, why))
}

// replaceWaiting keeps a decision that waits, in place of an earlier one about the same that nobody has confirmed.
func (j *job) replaceWaiting(decision validate.Decision) {
	j.results.Decisions = slices.DeleteFunc(j.results.Decisions, func(decided validate.Decision) bool {
		waits := decided.Refused && decided.Initials == "" || decided.Choice == validate.Withdraw
		return waits && intake.DecidedBy(&decided) == intake.DecidedBy(&decision)
	})
	j.results.Decisions = append(j.results.Decisions, decision)
}
