package intake

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/validate"
	"railbook/workbook/xlsx"
)

// consentGiven and consentRefused are the answers that can be read, folded to lower case and without marks around them.
// Anything else is no yes: it is asked about, and the name is withheld meanwhile.
var (
	consentGiven = []string{
		"yes", "y", "true", "1", "x", "xx", "✓", "✔", "√", "☑", "ok", "okay", "signed", "on file", "given", "granted", "agreed",
	}
	consentRefused = []string{
		"no", "n", "false", "0", "none", "f", "☐", "-", "–", "—", "n/a", "na", "n.a", "refused", "withheld", "not given", "unsigned",
		"not signed", "declined", "denied", "revoked", "withdrawn", "opt out", "opted out", "opt-out", "no photo", "no photos",
		"no name", "no names", "no media", "no consent", "do not publish", "do not print", "do not use", "dnp", "not allowed",
	}
)

// consent reads whether a family lets the exhibitor's name be published. What can't be read as a yes is no yes.
func (q *question) consent(cell xlsx.Cell) told {
	unread := told{problem: "can't be read as a yes"}
	if cell.Date || cell.Kind == xlsx.Number && cell.Raw != "0" && cell.Raw != "1" {
		return unread
	}
	word := strings.ToLower(clean(strings.Trim(cell.Raw, ".()[] ")))
	yes := slices.Contains(consentGiven, word)
	switch {
	case !yes && !slices.Contains(consentRefused, word) && word != "":
		return unread
	case q.asksForRefusal() && yes:
		yes = false
	case q.asksForRefusal():
		return unread
	}
	answer := told{reading: grading.Reading{Value: markValue(yes), Plain: cell.Kind == xlsx.Number}}
	if word != "yes" && word != "y" && word != "no" && word != "n" {
		answer.note = phrase.Quote(cell.Raw) + " read as " + answer.reading.Value.Text
	} else {
		answer.reading.Plain = true
	}
	return answer
}

// asksForRefusal reports whether a heading asks the other way round, so that yes means: withhold ("No photo").
func (q *question) asksForRefusal() bool {
	words := strings.Fields(strings.ToLower(q.heading))
	return slices.ContainsFunc(words, func(word string) bool {
		word = strings.Trim(word, ".,:;()?!\"'")
		return slices.ContainsFunc([]string{"no", "not", "don't", "don’t", "dont", "never", "without"}, func(no string) bool { return word == no }) ||
			strings.HasPrefix(word, "withh") || strings.HasPrefix(word, "refus") || strings.HasPrefix(word, "declin") ||
			strings.HasPrefix(word, "opt") || strings.HasPrefix(word, "restrict")
	})
}

// consentWord is what a heading that asks for consent in words of its own holds: "Photo OK?", "Web/print?".
var consentWord = regexp.MustCompile(`(?i)\b(?:photos?|pictures?|pics?|consent|releases?|publish(?:ed|ing)?|publication|publicity|media|press|print(?:ed)?|web ?site|web|online|newspaper|permission)\b`)

// takeConsent takes a column whose heading speaks of consent for that of the consent, where there is no other and most of its
// answers are a yes or a no: unread, it would let out names that were refused.
func (r *reader) takeConsent(t *table) {
	if t.has(measure.Consent) {
		return
	}
	for i := range t.columns {
		column := &t.columns[i]
		if len(column.meaning.candidates) > 0 || !consentWord.MatchString(column.text) {
			continue
		}
		filled, answers := 0, 0
		for _, line := range t.page.lines {
			cell := line.at(column.number)
			if line.number <= t.bottom || line.number > t.lastLine || nothing(cell) || formulaText(cell) {
				continue
			}
			filled++
			word := strings.ToLower(clean(strings.Trim(cell.Raw, ".()[] ")))
			if slices.Contains(consentGiven, word) || slices.Contains(consentRefused, word) {
				answers++
			}
		}
		if answers > 0 && answers*2 >= filled {
			column.meaning = meaning{candidates: []rules.Heading{{Measure: measure.Consent, Text: column.text}}, because: "its words speak of consent, and its values are answers"}
			return
		}
	}
}

// doubtConsent remembers an answer to consent that can't be read, for one question about them all. It costs no place.
func (tr *tableReader) doubtConsent(reading grading.Reading) {
	tr.doubtful = append(tr.doubtful, reading)
}

// reportConsent asks once for a table about the answers to consent that can't be read as a yes.
func (tr *tableReader) reportConsent() {
	if len(tr.doubtful) == 0 {
		return
	}
	var cells, written []string
	for _, reading := range tr.doubtful {
		cells = append(cells, reading.Place.Cell+" "+phrase.Quote(reading.Written))
		written = append(written, reading.Written)
	}
	tr.find(validate.Finding{
		Level: validate.Look, Code: "consent unclear", At: tr.doubtful[0].Place, Measure: measure.Consent, Read: strings.Join(slices.Compact(written), ", "),
		Message: fmt.Sprintf("%s can't be read as a yes (%s), so these exhibitors' names are not published. Write yes where the family has agreed, or accept as is.",
			phrase.Plural(len(tr.doubtful), "answer to consent", "answers to consent"), strings.Join(phrase.Examples(cells, examples), ", ")),
	})
}
