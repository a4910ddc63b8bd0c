package workbook

import (
	"path/filepath"
	"slices"

	"railbook/rules"
	"railbook/validate"
	"railbook/workbook/intake"
	"railbook/workbook/record"
	"railbook/workbook/result"
	"railbook/workbook/xlsx"
)

// read reads the carcasses, puts in the judge's corrections and, where there were any, reads again: a corrected
// workbook is from then on the same as one that had the right values from the start.
func (j *job) read() error {
	j.results = &result.Results{Book: j.book, Rules: j.rules, Carried: j.carried, LastYear: j.lastYear}
	if j.previous != nil {
		if j.previous.Damage != nil {
			j.previous.Run.Damage = j.previous.Damage.Words
		}
		j.results.Rulings = j.previous.Rulings
		j.results.Reasons = j.previous.Reasons
		j.results.Findings = j.previous.Findings
		j.results.Decisions = decisionsNow(j.previous.Kept, j.previous.Decisions, j.previous.Asked)
	}
	j.forgetWithdrawn()
	if err := j.takeOver(); err != nil {
		return err
	}
	j.refuseContradictions()
	j.refuseRulings()
	if j.previous != nil {
		j.toBeConfirmed()
	}
	read, err := j.readBooks()
	if err != nil {
		return err
	}
	if j.previous != nil {
		var retyped []record.Change
		asBefore := false
		if !j.trusted {
			j.results.Findings = append(j.results.Findings, alteredFindings(j.previous.Altered)...)
		}
		j.results.Findings = append(j.results.Findings, damageFindings(j.previous.Run.Damage)...)
		if !j.trusted && len(j.previous.Readings) > 0 {
			var pairs []record.Pair
			if j.remaking {
				pairs, asBefore = sameCarcasses(j.previous.Readings, read)
			} else {
				pairs, asBefore = record.Unchanged(j.previous.Readings, intake.EachRecord(read))
			}
			if !asBefore {
				retyped, pairs = record.Diff(j.previous.Readings, withoutTakenIn(intake.Records(read), j.previous.Readings, takenIn(j.results.Decisions)))
			}
			j.identify(pairs, read)
			j.keepJudgesWords(pairs, read)
			beside := alteredBeside(j.previous.Beside, pairs)
			j.results.Findings = append(j.results.Findings, alteredFindings(beside)...)
			j.previous.Altered = append(j.previous.Altered, beside...)
		}
		for i := range retyped {
			retyped[i].When = j.options.Date
		}
		corrected, err := j.applyDecisions(read)
		if err != nil {
			return err
		}
		if len(corrected) > 0 {
			before := read.Carcasses
			if read, err = j.readBooks(); err != nil {
				return err
			}
			for i := range min(len(before), len(read.Carcasses)) { // a correction neither adds nor moves one
				read.Carcasses[i].ID = before[i].ID
			}
		}
		if asBefore && len(corrected) == 0 {
			j.readAsBefore, j.previous.Readings = true, nil // one list is enough
		}
		j.overlayDecisions(read)
		j.newChanges = append(retyped, corrected...)
		if !j.trusted && j.previous.Damage == nil {
			j.ruleChanges = rulebookChanges(j.previous.GradedBy, j.rules.Tables)
			for i := range j.ruleChanges {
				j.ruleChanges[i].When = j.options.Date
			}
		}
		j.results.Changes = slices.Concat(j.previous.Changes, j.ruleChanges, j.newChanges)
		j.results.Findings = append(j.results.Findings, retypedFindings(read, j.results.Changes)...)
	}
	j.results.Read = read
	j.results.OfFile = j.notedOfFile()
	j.results.Findings = append(j.results.Findings, ofFile(j.results.OfFile)...)
	j.results.Findings = append(j.results.Findings, fairNotSaid(read, j.rules)...)
	return nil
}

// readBefore gives what was read when the workbook was graded before.
func (j *job) readBefore() []record.Reading {
	if j.readAsBefore {
		return intake.Records(j.results.Read)
	}
	return j.previous.Readings
}

// retypedSince gives the cells that say something else than when the workbook was graded before.
func (j *job) retypedSince() []record.Change {
	if j.readAsBefore {
		return nil
	}
	retyped, _ := record.Diff(j.previous.Readings, intake.Records(j.results.Read))
	return retyped
}

// notedOfFile gives what is missing, damaged or in another form in the file, and before that what was in the file that was graded
// first: in results of ours it is made good, and stays said.
func (j *job) notedOfFile() (noted []record.Noted) {
	if j.previous != nil {
		noted = slices.Clone(j.previous.OfFile)
	}
	if j.trusted {
		return noted // results that are made again as they were
	}
	for _, note := range j.book.Notes() {
		if found := record.Noted(note); !slices.Contains(noted, found) {
			noted = append(noted, found)
		}
	}
	return noted
}

// ofFile puts what is noted of the file among the findings.
func ofFile(noted []record.Noted) (findings []validate.Finding) {
	for _, note := range noted {
		at := rules.Place{Sheet: note.Sheet}
		findings = append(findings, validate.Finding{Level: validate.Note, Code: note.Code, At: at, Message: sentenceStart(at) + ": " + note.Words})
	}
	return findings
}

// fairNotSaid asks once for what is printed on every page and nothing says.
func fairNotSaid(read *intake.Result, book *rules.Rulebook) []validate.Finding {
	missing := result.NotSaid(result.WithSettings(read.About, book))
	if missing == "" || len(read.Blocks) == 0 {
		return nil
	}
	at := rules.Place{Sheet: read.Blocks[0].Sheet}
	return []validate.Finding{{
		Level: validate.Note, Code: "fair not said", At: at,
		Message: sentenceStart(at) + ": nothing says " + missing + ", which every printed page gives. Write it above the headings, such as " +
			`"Judge: NAME", or into the settings of the rulebook.`,
	}}
}

func (j *job) readBooks() (*intake.Result, error) {
	books := append([]*xlsx.Book{j.book}, j.others...)
	read, err := intake.Read(books, j.rules, intake.Options{Columns: j.options.Columns, Species: j.options.Species, TakeIn: takenIn(j.results.Decisions), Hidden: j.hidden})
	if err != nil || j.second == nil {
		return read, err
	}
	second, err := intake.Read([]*xlsx.Book{j.second}, j.rules, intake.Options{Columns: j.options.Columns, Species: j.options.Species})
	if err != nil {
		return nil, err
	}
	read.Findings = append(read.Findings, intake.Differences(read, second, filepath.Base(j.second.Path))...)
	return read, nil
}

// takenIn gives the sheets that look like another year's or a copy and that the judge decided to take in.
func takenIn(decisions []validate.Decision) (sheets []string) {
	for i := range decisions {
		if decision := &decisions[i]; decision.Code == intake.SheetSetAside && decision.Choice == validate.Accept && !decision.Refused {
			sheets = append(sheets, decision.Was)
		}
	}
	return sheets
}

// withoutTakenIn leaves out the readings of sheets that are taken in for the first time: nobody has retyped them.
func withoutTakenIn(now, before []record.Reading, sheets []string) []record.Reading {
	sheets = slices.DeleteFunc(sheets, func(sheet string) bool {
		return slices.ContainsFunc(before, func(kept record.Reading) bool { return kept.Sheet == sheet })
	})
	return slices.DeleteFunc(now, func(kept record.Reading) bool { return slices.Contains(sheets, kept.Sheet) })
}

// recordDamaged is the code of the finding that what the program remembered is lost or changed.
const recordDamaged = "record damaged"

// damageFindings keeps a workbook from being signed whose record is gone or was changed, until the judge accepts it.
func damageFindings(damage string) []validate.Finding {
	if damage == "" {
		return nil
	}
	at := rules.Place{Sheet: record.StateSheet}
	return []validate.Finding{{
		Level: validate.Hold, Code: recordDamaged, At: at, Message: sentenceStart(at) + ": " + damage + ".",
	}}
}

// valueRetyped is the code of the finding that somebody retyped a value without a decision.
const valueRetyped = "value retyped"

// retypedFindings asks the judge to look at every value that somebody retyped in the data without a decision.
func retypedFindings(read *intake.Result, changes []record.Change) (findings []validate.Finding) {
	for _, change := range changes {
		if change.Who != record.InTheCell {
			continue
		}
		finding := validate.Finding{
			Level: validate.Look, Code: valueRetyped, At: change.At, Tag: change.Tag, Class: change.Class,
			Measure: change.Measure, Read: change.Is, Message: retypedMessage(change),
		}
		for _, carcass := range read.Carcasses {
			if carcass.Tag == change.Tag && carcass.Class == change.Class {
				finding.Carcass = carcass
			}
		}
		if finding.Carcass == nil && change.Is != record.Removed {
			finding.Level = validate.Note // the carcass is no longer there to be looked at
		}
		findings = append(findings, finding)
	}
	return findings
}

func retypedMessage(change record.Change) string {
	switch {
	case change.Is == record.Removed && change.Was == record.There:
		return sentenceStart(change.At) + ": the carcass of tag " + orBlank(change.Tag) + ", which stood here when the workbook was graded before, was taken out of the sheet " +
			"without a decision. Accept as is if it was not to be there; otherwise put its row back."
	case change.Is == record.Added && change.Was == record.NotThere:
		return sentenceStart(change.At) + ": the carcass of tag " + orBlank(change.Tag) + " was not there when the workbook was graded before. Say in the Judge review sheet whether it stands."
	}
	return sentenceStart(change.At) + ": " + change.Measure.String() + " of tag " + change.Tag + " was " + orBlank(change.Was) +
		" when the workbook was graded before and was retyped to " + orBlank(change.Is) +
		" without a decision. Say in the Judge review sheet whether it stands."
}
