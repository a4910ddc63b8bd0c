package workbook

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/address"
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

// cellAt gives a cell as it is stored; found is false for a blank one.
func (j *job) cellAt(at rules.Place) (cell xlsx.Cell, found bool) {
	column, number, ok := address.Parse(at.Cell)
	if !ok {
		return cell, false
	}
	grid, err := j.book.Scan(at.Sheet)
	if err != nil {
		return cell, false // a sheet that was read can be read again
	}
	for _, row := range grid.Rows {
		for _, cell := range row.Cells {
			if row.Number == number && cell.Column == column {
				return cell, cell.Raw != ""
			}
		}
	}
	return cell, false
}

// asStored is a cell that says what a text says that was stored before.
func asStored(text string, isText bool, hint string) xlsx.CellChange {
	change := xlsx.CellChange{Kind: xlsx.Text, Value: text, Hint: hint}
	if text == "" {
		change.Kind = xlsx.Blank
	} else if _, err := decimal.NewFromString(text); err == nil && !isText {
		change.Kind = xlsx.Number
	}
	return change
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

// putOn finds the carcass whose cell a decision has changed: by its name now, of several with one name by the row.
func putOn(read *intake.Result, put *validate.Put) *grading.Carcass {
	return carcassOf(read, &validate.Decision{Class: put.Class, Tag: put.Tag, Found: put.At})
}

// readCell is a measure of a carcass.
type readCell struct {
	carcass *grading.Carcass
	measure measure.ID
}

// readAt finds what was read from a cell.
func readAt(read *intake.Result, at rules.Place) (cell readCell) {
	for _, carcass := range read.Carcasses {
		for id, reading := range carcass.Readings() {
			// A class that a title gives has its carcass's place, where the tag stands.
			if reading.Place == at && (cell.carcass == nil || cell.measure == measure.ClassName) {
				cell = readCell{carcass: carcass, measure: id}
			}
		}
	}
	return cell
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

// carcassOf finds the carcass a decision is about: by its id where that is known; else by tag and class, and where several have both, by the cell; without a
// tag by the cell alone.
func carcassOf(read *intake.Result, decision *validate.Decision) *grading.Carcass {
	var found *grading.Carcass
	for _, carcass := range read.Carcasses {
		if decision.Carcass > 0 && carcass.ID == decision.Carcass {
			return carcass
		}
	}
	for _, carcass := range read.Carcasses {
		if carcass.Tag != decision.Tag || carcass.Class != decision.Class {
			continue
		}
		if found == nil && decision.Tag != "" || standsAt(read, carcass, decision.Found) {
			found = carcass
		}
	}
	return found
}

// standsAt reports whether a place is on a carcass's line.
func standsAt(read *intake.Result, carcass *grading.Carcass, place rules.Place) bool {
	for b := range read.Blocks {
		block := &read.Blocks[b]
		if line, here := block.Line(carcass); here && block.Sheet == place.Sheet && lineOf(place, block.Sideways) == strconv.Itoa(line) {
			return true
		}
	}
	return carcass.Place == place
}

// cellOf gives the cell in which a carcass's measure stands or would stand; an empty place where its block has no
// heading for the measure.
func cellOf(read *intake.Result, carcass *grading.Carcass, id measure.ID) (rules.Place, *intake.Block) {
	if now, found := carcass.Written(id); found && now.Place.File == "" {
		for b := range read.Blocks {
			if _, here := read.Blocks[b].Line(carcass); here {
				return now.Place, &read.Blocks[b]
			}
		}
	}
	for b := range read.Blocks {
		block := &read.Blocks[b]
		line, here := block.Line(carcass)
		if !here {
			continue
		}
		for _, heading := range block.Headings {
			if heading.Measure == id {
				return rules.Place{Sheet: block.Sheet, Cell: block.CellAt(heading, line)}, block
			}
		}
		return rules.Place{}, block
	}
	return rules.Place{}, nil
}

// cellChange writes a corrected value so that it is read as meant whatever unit the column is in: a plain number where
// the column has the measure's own unit, else the number with its unit.
func cellChange(value measure.Value, was string, decision *validate.Decision, block *intake.Block) xlsx.CellChange {
	hint := fmt.Sprintf("Was %s. Corrected by %s.", orBlank(was), decision.Initials)
	definition, _ := measure.Define(decision.Measure)
	if definition.Kind != measure.KindNumber {
		return xlsx.CellChange{Kind: xlsx.Text, Value: value.Text, Hint: hint}
	}
	if block.OwnUnit(decision.Measure) {
		return xlsx.CellChange{Kind: xlsx.Number, Value: value.Number.String(), Hint: hint}
	}
	return xlsx.CellChange{Kind: xlsx.Text, Value: value.Number.String() + " " + definition.Unit, Hint: hint}
}

func orBlank(text string) string {
	if text == "" {
		return "blank"
	}
	return text
}

func sameValue(a, b measure.Value) bool { return a.Number.Equal(b.Number) && a.Text == b.Text }

// sentenceStart begins a sentence with a place: Sheet "Steers", cell G14.
func sentenceStart(place rules.Place) string {
	if text := place.String(); text != "" {
		return phrase.Capital(text)
	}
	return "Workbook"
}
