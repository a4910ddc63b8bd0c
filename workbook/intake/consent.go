package intake

import (
	"fmt"
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
func (p *cellParser) consent(cell xlsx.Cell) parsedCell {
	unread := parsedCell{problem: "can't be read as a yes"}
	if cell.Date {
		return unread
	}
	word := answerIn(cell)
	yes := slices.Contains(consentGiven, word)
	switch {
	case !yes && !slices.Contains(consentRefused, word) && word != "":
		return unread
	case p.asksForRefusal() && yes:
		yes = false
	case p.asksForRefusal():
		return unread
	}
	parsed := parsedCell{reading: grading.Reading{Value: markValue(yes), Plain: cell.Kind == xlsx.Number}}
	if word != "yes" && word != "y" && word != "no" && word != "n" {
		parsed.note = phrase.Quote(cell.Raw) + " read as " + parsed.reading.Value.Text
	} else {
		parsed.reading.Plain = true
	}
	return parsed
}

// answerIn gives an answer without the marks round it. A point in front stays: .1 is no 1.
func answerIn(cell xlsx.Cell) string {
	return strings.ToLower(clean(strings.TrimRight(strings.TrimLeft(cell.Raw, "([ "), ".)] ")))
}

// asksForRefusal reports whether a heading asks the other way round, so that yes means: withhold ("No photo").
func (p *cellParser) asksForRefusal() bool {
	words := strings.Fields(strings.ToLower(p.heading))
	return slices.ContainsFunc(words, func(word string) bool {
		word = strings.Trim(word, ".,:;()?!\"'")
		return slices.ContainsFunc([]string{"no", "not", "don't", "don’t", "dont", "never", "without"}, func(no string) bool { return word == no }) ||
			strings.HasPrefix(word, "withh") || strings.HasPrefix(word, "refus") || strings.HasPrefix(word, "declin") ||
			strings.HasPrefix(word, "opt") || strings.HasPrefix(word, "restrict")
	})
}

// consentWord is what a heading that asks for consent in words of its own holds: "Photo OK?", "Web/print?".
var consentWord = phrase.NewPattern(`(?i)\b(?:photos?|pictures?|pics?|consent|releases?|publish(?:ed|ing)?|publication|publicity|media|press|print(?:ed)?|web ?site|web|online|newspaper|permission)\b`)

var (
	// asksConsent is a heading that asks for nothing but consent, in whatever words it is answered: "Media release signed (Y/N)".
	asksConsent = phrase.NewPattern(`(?i)\b(?:consent|permission|publish|publicity|media|releases?|(?:ok(?:ay)?|may|can|allow(?:ed)?) (?:to|we|for) |opt(?:ed)?[ -]?out)|\(? ?y ?/ ?n ?\)?|\?\s*$`)
	// countsConsent is a column of the numbers or days of papers.
	countsConsent = phrase.NewPattern(`(?i)#|\b(?:number|date|id)\b`)
	ofPictures    = phrase.NewPattern(`(?i)\b(?:photos?|pictures?|pics?)\b`)
	ofNames       = phrase.NewPattern(`(?i)\bnames?\b`)
)

// takeConsent takes a column whose heading speaks of consent for that of the consent, where most of its answers are a yes or a
// no, or the heading asks for nothing else and is answered in words: unread, it would let out names that were refused. A
// second such column counts as well, but one of pictures beside one of names: only what is a yes in both is one.
func (r *reader) takeConsent(t *table) {
	names := slices.ContainsFunc(t.columns, func(column column) bool {
		return column.meaning.is(measure.Consent) && ofNames.MatchString(column.text)
	})
	for i := range t.columns {
		column := &t.columns[i]
		if len(column.meaning.candidates) > 0 || !consentWord.MatchString(column.text) || names && ofPictures.MatchString(column.text) {
			continue
		}
		filled, answers, inWords := 0, 0, 0
		for _, line := range t.page.lines {
			cell := line.at(column.number)
			if line.number <= t.bottom || line.number > t.lastLine || nothing(cell) || formulaText(cell) {
				continue
			}
			filled++
			word := answerIn(cell)
			if slices.Contains(consentGiven, word) || slices.Contains(consentRefused, word) {
				answers++
			}
			if cell.Kind == xlsx.Text && hasLetter(cell.Raw) {
				inWords++
			}
		}
		if answers > 0 && answers*2 >= filled || asksConsent.MatchString(column.text) && !countsConsent.MatchString(column.text) && inWords > 0 && (answers+inWords)*2 >= filled {
			column.meaning = meaning{candidates: []rules.Heading{{Measure: measure.Consent, Text: column.text}}, because: "its words speak of consent, and its values are answers"}
			names = names || ofNames.MatchString(column.text)
		}
	}
}

// againstConsent are words beside an animal that speak against publishing the exhibitor's name.
var againstConsent = phrase.NewRarePattern(`(?i)\b(?:do not|don['’]?t|not|no|never|without|withhold|refuse[sd]?|declin\w+|against)\b[^.;]{0,25}\b(?:photo\w*|pictures?|pics?|publish\w*|publi\w+|print|media|press|names?|newspaper|web ?site|online|facebook|social|post|consent|release)\b|` +
	`\bopt(?:ed|s|ing)?[ -]?out\b|\bfoster\b|\bconfidential\b|\bprotective order\b|\bcustody\b|\banonym\w*`)

// refusedInWords withholds a name that words on the animal's line, or behind the name itself, speak against publishing.
func (tr *tableReader) refusedInWords(carcass *grading.Carcass) {
	for _, words := range tr.remarked {
		if againstConsent.MatchString(words.text) {
			tr.refuse(carcass, grading.Reading{Place: words.at, Written: words.text})
			return
		}
	}
	for _, id := range []measure.ID{measure.Exhibitor, measure.Family, measure.Club} {
		if text := carcass.WordsOf(id); text != "" && againstConsent.MatchString(text) {
			tr.refuse(carcass, grading.Reading{Place: carcass.ReadingOf(id).Place, Written: text})
			return
		}
	}
}

// refuse takes words for a refusal of consent, unless it was refused already.
func (tr *tableReader) refuse(carcass *grading.Carcass, words grading.Reading) {
	answer, answered := carcass.Written(measure.Consent)
	if answered && !answer.Unreadable && !answer.Value.Number.IsPositive() {
		return
	}
	if !answered {
		answer = grading.Reading{Place: words.Place}
	}
	carcass.SetReading(measure.Consent, noConsent(answer))
	tr.refused = append(tr.refused, words)
}

// doubtConsent remembers an answer to consent that can't be read, for one question about them all. It costs no place.
func (tr *tableReader) doubtConsent(reading grading.Reading) {
	tr.doubtful = append(tr.doubtful, reading)
}

// reportConsent asks once for a table about the answers to consent that can't be read as a yes, and once about the words that
// speak against one.
func (tr *tableReader) reportConsent() {
	if len(tr.refused) > 0 {
		cells, written := firstCells(tr.refused)
		tr.find(validate.Finding{
			Level: validate.Look, Code: "words against consent", At: tr.refused[0].Place, Measure: measure.Consent, Read: written,
			Message: fmt.Sprintf("The words beside %s speak against publishing a name (%s), so the exhibitor's name is not published, whatever a consent column says. Take the words out where the family has agreed, or accept as is.",
				phrase.Plural(len(tr.refused), "animal", "animals"), cells),
		})
	}
	if len(tr.doubtful) == 0 {
		return
	}
	cells, written := firstCells(tr.doubtful)
	tr.find(validate.Finding{
		Level: validate.Look, Code: "consent unclear", At: tr.doubtful[0].Place, Measure: measure.Consent, Read: written,
		Message: fmt.Sprintf("%s can't be read as a yes (%s), so these exhibitors' names are not published. Write yes where the family has agreed, or accept as is.",
			phrase.Plural(len(tr.doubtful), "answer to consent", "answers to consent"), cells),
	})
}

// firstCells names the first of the cells that a question is about, and gives what is written in all of them.
func firstCells(readings []grading.Reading) (cells, written string) {
	var named, texts []string
	for _, reading := range readings {
		named = append(named, reading.Place.Cell+" "+phrase.Quote(reading.Written))
		texts = append(texts, reading.Written)
	}
	return strings.Join(phrase.Examples(named, examples), ", "), strings.Join(slices.Compact(texts), ", ")
}
