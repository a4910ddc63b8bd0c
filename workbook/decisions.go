package workbook

import (
	"fmt"
	"slices"
	"strings"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/validate"
	"railbook/workbook/intake"
	"railbook/workbook/record"
	"railbook/workbook/xlsx"
)

// edits are the cells that decisions change, with what the Change record says of them.
type edits struct {
	cells   map[string]map[string]xlsx.CellChange // by sheet and cell
	changes []record.Change
	names   []renamed
}

// set gives a cell another value. Its carcass is called otherwise from then on where it is a tag or a class.
func (e *edits) set(carcass *grading.Carcass, cell xlsx.CellChange, change record.Change) {
	if e.cells[change.At.Sheet] == nil {
		e.cells[change.At.Sheet] = make(map[string]xlsx.CellChange)
	}
	e.cells[change.At.Sheet][change.At.Cell] = cell
	e.changes = append(e.changes, change)
	if change.Measure == measure.Tag || change.Measure == measure.ClassName {
		e.names = append(e.names, renamed{carcass, change.Measure, cell.Value})
	}
}

// applyDecisions makes the data say what the judge decided: it puts corrections into their cells, exchanges cells, and puts
// back what the plant wrote where a correction does not stand any more. It returns the changes it made in cells, and so
// whether the workbook must be read again. What has no cell is laid beside the data: see overlayDecisions.
func (j *job) applyDecisions(read *intake.Result) (changes []record.Change, err error) {
	edits := &edits{cells: make(map[string]map[string]xlsx.CellChange)}
	for d := range j.results.Decisions {
		decision := &j.results.Decisions[d]
		switch {
		case decision.Refused: // what an earlier decision put into the cell stays until this one can be used
			continue
		case decision.Choice == validate.Correct:
			j.correct(read, d, edits)
			continue
		case decision.Choice == validate.Exchange:
			j.exchange(read, d, edits)
			continue
		case decision.Choice == validate.LeaveOut && decision.Tag != "" && carcassOf(read, decision) == nil:
			j.refuse(decision, "there is no such carcass to leave out")
		case decision.Choice == validate.Accept:
			j.accept(read, decision)
		}
		if !decision.Refused {
			j.putBack(read, d, edits)
		}
	}
	j.renameDecided(read, edits.names)
	for sheet, values := range edits.cells {
		if err := j.book.SetCells(sheet, values); err != nil {
			return nil, err
		}
	}
	return edits.changes, nil
}

// correct puts a corrected value into its cell.
func (j *job) correct(read *intake.Result, d int, edits *edits) {
	decision := &j.results.Decisions[d]
	identity := decision.Measure == measure.Tag || decision.Measure == measure.ClassName
	if identity && decision.Applied && len(decision.Puts) == 0 {
		return // by a program that did not keep what it put there: the carcass has another name since
	}
	decision.Applied = false
	carcass := carcassOf(read, decision)
	if carcass == nil {
		j.refuse(decision, "no carcass has this tag in this class any more")
		return
	}
	if len(decision.Puts) == 2 {
		j.putBack(read, d, edits) // an exchange that this correction takes the place of
	}
	place, block := cellOf(read, carcass, decision.Measure)
	if place.Cell == "" {
		return // beside the data: see overlayDecisions
	}
	now, found := carcass.Written(decision.Measure)
	corrected, err := intake.ReadValue(decision.Measure, decision.Value, j.rules)
	if err != nil {
		j.refuse(decision, err.Error())
		return
	}
	put := decision.PutInto(decision.Measure)
	if found && !now.Unreadable && sameValue(now.Value, corrected) {
		decision.Applied = true
		return
	}
	if now.Written != decision.Was && (put == nil || now.Written != put.Is) && !stillFound(read, carcass, decision) && decision.Code != record.JudgesCall {
		j.refuse(decision, fmt.Sprintf("it was made about %q, and the cell now says %q", decision.Was, now.Written))
		return
	}
	if put == nil {
		decision.Puts = append(decision.Puts, j.plantWrote(carcass, decision.Measure, place))
		put = &decision.Puts[len(decision.Puts)-1]
	}
	cell := cellChange(corrected, put.Was, decision, block)
	put.Is = cell.Value
	edits.set(carcass, cell, j.changed(decision, carcass, decision.Measure, place, now.Written, corrected.Text))
	decision.Applied = true
}

// plantWrote remembers a cell before a decision first changes it.
func (j *job) plantWrote(carcass *grading.Carcass, id measure.ID, at rules.Place) validate.Put {
	put := validate.Put{Class: carcass.Class, Tag: carcass.Tag, Measure: id, At: at}
	if cell, found := j.cellAt(at); found {
		put.Was, put.Text = cell.Raw, cell.Kind == xlsx.Text
	}
	return put
}

// exchange puts into each of two cells what stands in the other one.
func (j *job) exchange(read *intake.Result, d int, edits *edits) {
	decision := &j.results.Decisions[d]
	if len(decision.Puts) == 2 && decision.Applied {
		return
	}
	decision.Applied = false
	first, second := carcassOf(read, decision), readAt(read, decision.Other)
	if first == nil || second.carcass == nil {
		j.refuse(decision, "one of the two cells is not there any more")
		return
	}
	j.putBack(read, d, edits)
	place, _ := cellOf(read, first, decision.Measure)
	puts := []validate.Put{j.plantWrote(first, decision.Measure, place), j.plantWrote(second.carcass, second.measure, decision.Other)}
	if edited, again := edits.cells[place.Sheet][place.Cell]; again {
		puts[0].Was, puts[0].Text = edited.Value, edited.Kind == xlsx.Text // a correction that was put back just now
	}
	now, _ := first.Written(decision.Measure)
	switch {
	case puts[0].Was == "" || puts[1].Was == "":
		j.refuse(decision, "one of the two cells is blank")
		return
	case now.Written != decision.Was && puts[0].Was != decision.Was:
		j.refuse(decision, fmt.Sprintf("it was made about %q, and the cell now says %q", decision.Was, now.Written))
		return
	}
	for i, carcass := range []*grading.Carcass{first, second.carcass} {
		put, from := &puts[i], puts[1-i]
		put.Is = from.Was
		hint := fmt.Sprintf("Was %s. Exchanged with cell %s by %s.", put.Was, from.At.Cell, decision.Initials)
		edits.set(carcass, asStored(from.Was, from.Text, hint), j.changed(decision, carcass, put.Measure, put.At, put.Was, put.Is))
	}
	decision.Puts, decision.Applied = puts, true
}

// accept lets stand what was read when it was decided; of another value nothing is accepted.
func (j *job) accept(read *intake.Result, decision *validate.Decision) {
	carcass := carcassOf(read, decision)
	if carcass == nil || decision.Measure == measure.None {
		return
	}
	now, found := carcass.Written(decision.Measure)
	put := decision.PutInto(decision.Measure)
	switch {
	case !found || now.Place != decision.Found, now.Written == decision.Was, put != nil && now.Written == put.Is:
	case !stillFound(read, carcass, decision):
		j.refuse(decision, fmt.Sprintf("it was made about %q, and the cell now says %q", decision.Was, now.Written))
	}
}

// putBack gives the cells that a decision has changed what the plant wrote there; a cell that says something else by now is
// left alone.
func (j *job) putBack(read *intake.Result, d int, edits *edits) {
	decision := &j.results.Decisions[d]
	if decision.Choice == validate.Accept && len(decision.Puts) == 1 && decision.Puts[0].Is == decision.Was {
		return // what the judge put there is what is accepted
	}
	decision.Applied = false
	for i := range decision.Puts {
		put := &decision.Puts[i]
		carcass := putOn(read, put)
		if carcass == nil {
			continue
		}
		now, found := carcass.Written(put.Measure)
		if !found || now.Written != put.Is || now.Place.File != "" {
			continue
		}
		change := j.changed(decision, carcass, put.Measure, now.Place, now.Written, put.Was)
		if decision.Choice == validate.Withdraw {
			change.Who = strings.TrimSpace(change.Who + " (taken back: " + decision.Why + ")")
		}
		edits.set(carcass, asStored(put.Was, put.Text, fmt.Sprintf("Was corrected to %s; that was taken back.", put.Is)), change)
	}
	decision.Puts = nil
}

// changed begins the line of the Change record about a cell that a decision changes.
func (j *job) changed(decision *validate.Decision, carcass *grading.Carcass, id measure.ID, at rules.Place, was, is string) record.Change {
	change := record.Change{At: at, Class: carcass.Class, Tag: carcass.Tag, Measure: id, Was: was, Is: is, Who: decision.Initials, When: decision.Date}
	if change.When == "" {
		change.When = j.options.Date
	}
	return change
}

// refuseToLeaveOut refuses to leave out what is no carcass, nor several, nor a sheet: a question about a heading.
func (j *job) refuseToLeaveOut(findings []validate.Finding) {
	for d := range j.results.Decisions {
		decision := &j.results.Decisions[d]
		if decision.Choice != validate.LeaveOut || decision.Refused || decision.Tag != "" || j.decidedOn(decision) != nil || decision.Code == intake.SheetSetAside {
			continue
		}
		if !slices.ContainsFunc(findings, func(finding validate.Finding) bool { return len(finding.Others) > 0 && settles(decision, &finding) }) {
			j.refuse(decision, "there is no such carcass to leave out")
		}
	}
}

// stillFound reports whether reading still finds what the decision is about. That may stand in another cell than the
// measure's own: in a remark, or in a second column of the measure.
func stillFound(read *intake.Result, carcass *grading.Carcass, decision *validate.Decision) bool {
	return slices.ContainsFunc(read.Findings, func(finding validate.Finding) bool {
		return finding.Carcass == carcass && finding.Measure == decision.Measure && decision.Answers(&finding)
	})
}

// overlayDecisions gives carcasses the values the judge wrote for measures their sheet has no column for: a quality call,
// a dark-cutter lowering.
func (j *job) overlayDecisions(read *intake.Result) {
	for d := range j.results.Decisions {
		decision := &j.results.Decisions[d]
		if decision.Choice != validate.Correct || decision.Refused {
			continue
		}
		carcass := carcassOf(read, decision)
		if decision.Then != "" && carcass != nil {
			j.overlay(carcass, decision, measure.DarkCutterLowering, decision.Then)
		}
		if decision.Applied {
			continue
		}
		value, err := intake.ReadValue(decision.Measure, decision.Value, j.rules)
		if err != nil {
			j.refuse(decision, err.Error())
			continue
		}
		carcass.SetReading(decision.Measure, grading.Reading{Value: value, Place: decision.At, Written: decision.Value})
		decision.Applied = true
	}
}

// overlay gives a carcass the answer to what would be asked next.
func (j *job) overlay(carcass *grading.Carcass, decision *validate.Decision, id measure.ID, text string) {
	if value, err := intake.ReadValue(id, text, j.rules); err == nil {
		carcass.SetReading(id, grading.Reading{Value: value, Place: decision.At, Written: text})
	}
}

// refuse keeps a decision from being applied and says why, at the cell where the judge wrote it.
func (j *job) refuse(decision *validate.Decision, why string) {
	decision.Refused, decision.Why = true, why
	j.results.Findings = append(j.results.Findings, validate.Finding{
		Level: validate.Look, Code: record.NotApplied, At: decision.At, Tag: decision.Tag, Class: decision.Class,
		Measure: decision.Measure, Read: decision.Value,
		Message: fmt.Sprintf("%s: the judge's decision on %s of tag %s was not applied: %s. Decide again in the Judge review sheet.",
			sentenceStart(decision.At), decision.Measure, decision.Tag, why),
	})
}

// sentenceStart begins a sentence with a place: Sheet "Steers", cell G14.
func sentenceStart(place rules.Place) string {
	if text := place.String(); text != "" {
		return phrase.Capital(text)
	}
	return "Workbook"
}
