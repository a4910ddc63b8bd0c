package workbook

import (
	"fmt"
	"slices"
	"strconv"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/intake"
	"railbook/workbook/record"
	"railbook/workbook/xlsx"
)

// applyDecisions puts the judge's corrections into the data cells, or beside them where the sheet has no column for the
// measure. It returns the changes it made in cells, and so whether the workbook must be read again.
func (j *job) applyDecisions(read *intake.Result) (changes []record.Change, err error) {
	cells := make(map[string]map[string]xlsx.CellChange)
	var names []renamed
	for d := range j.results.Decisions {
		decision := &j.results.Decisions[d]
		if decision.Choice == validate.LeaveOut && !decision.Refused && decision.Tag != "" && carcassOf(read, decision) == nil {
			j.refuse(decision, "there is no such carcass to leave out")
		}
		if decision.Choice != validate.Correct || decision.Refused {
			continue
		}
		identity := decision.Measure == measure.Tag || decision.Measure == measure.ClassName
		if identity && decision.Applied {
			continue // the carcass has another name since, and another one may have its old name
		}
		decision.Applied = false
		carcass := carcassOf(read, decision)
		if carcass == nil {
			j.refuse(decision, "no carcass has this tag in this class any more")
			continue
		}
		place, block := cellOf(read, carcass, decision.Measure)
		if place.Cell == "" {
			continue // beside the data: see overlayDecisions
		}
		now, found := carcass.Written(decision.Measure)
		corrected, err := intake.ReadValue(decision.Measure, decision.Value, j.rules)
		if err != nil {
			j.refuse(decision, err.Error())
			continue
		}
		if found && !now.Unreadable && sameValue(now.Value, corrected) {
			decision.Applied = true
			continue
		}
		if now.Written != decision.Was && !stillFound(read, carcass, decision) {
			j.refuse(decision, fmt.Sprintf("it was made about %q, and the cell now says %q", decision.Was, now.Written))
			continue
		}
		change := record.Change{
			At: place, Class: decision.Class, Tag: decision.Tag, Measure: decision.Measure,
			Was: now.Written, Is: corrected.Text, Who: decision.Initials, When: decision.Date,
		}
		if change.When == "" {
			change.When = j.options.Date
		}
		if cells[place.Sheet] == nil {
			cells[place.Sheet] = make(map[string]xlsx.CellChange)
		}
		cells[place.Sheet][place.Cell] = cellChange(corrected, now.Written, decision, block)
		decision.Applied = true
		changes = append(changes, change)
		if identity {
			names = append(names, renamed{carcass, d, decision.Measure, corrected.Text})
		}
	}
	j.renameDecided(read, names)
	for sheet, values := range cells {
		if err := j.book.SetCells(sheet, values); err != nil {
			return nil, err
		}
	}
	return changes, nil
}

// refuseToLeaveOut refuses to leave out what is no carcass, nor several, nor a sheet: a question about a heading.
func (j *job) refuseToLeaveOut(findings []validate.Finding) {
	for d := range j.results.Decisions {
		decision := &j.results.Decisions[d]
		if decision.Choice != validate.LeaveOut || decision.Refused || decision.Tag != "" || j.decidedOn(decision) != nil || decision.Code == intake.SheetSetAside {
			continue
		}
		if !slices.ContainsFunc(findings, func(finding validate.Finding) bool { return len(finding.Lot) > 0 && settles(decision, &finding) }) {
			j.refuse(decision, "there is no such carcass to leave out")
		}
	}
}

// stillFound reports whether reading still finds what the decision is about. That may stand in another cell than the
// measure's own: in a remark, or in a second column of the measure.
func stillFound(read *intake.Result, carcass *grading.Carcass, decision *validate.Decision) bool {
	return slices.ContainsFunc(read.Findings, func(finding validate.Finding) bool {
		return finding.Carcass == carcass && finding.Code == decision.Code && finding.Measure == decision.Measure && finding.Read == decision.Was
	})
}

// overlayDecisions gives carcasses the values the judge wrote for measures their sheet has no column for: a quality call,
// a dark-cutter lowering.
func (j *job) overlayDecisions(read *intake.Result) {
	for d := range j.results.Decisions {
		decision := &j.results.Decisions[d]
		if decision.Choice != validate.Correct || decision.Refused || decision.Applied {
			continue
		}
		carcass := carcassOf(read, decision)
		value, err := intake.ReadValue(decision.Measure, decision.Value, j.rules)
		if err != nil {
			j.refuse(decision, err.Error())
			continue
		}
		carcass.SetReading(decision.Measure, grading.Reading{Value: value, Place: decision.At, Written: decision.Value})
		decision.Applied = true
	}
}

// refuse keeps a decision from being applied and says why, at the cell where the judge wrote it.
func (j *job) refuse(decision *validate.Decision, why string) {
	decision.Refused = true
	j.results.Findings = append(j.results.Findings, validate.Finding{
		Level: validate.Look, Code: record.NotApplied, At: decision.At, Tag: decision.Tag, Class: decision.Class,
		Measure: decision.Measure, Read: decision.Value,
		Message: fmt.Sprintf("%s: the judge's decision on %s of tag %s was not applied: %s. Decide again in the Judge review sheet.",
			sentenceStart(decision.At), decision.Measure, decision.Tag, why),
	})
}

// carcassOf finds the carcass a decision is about: by tag and class, and where several have both, by the cell; without a
// tag by the cell alone.
func carcassOf(read *intake.Result, decision *validate.Decision) *grading.Carcass {
	var found *grading.Carcass
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
	for _, block := range read.Blocks {
		if line, here := block.Rows[carcass]; here && block.Sheet == place.Sheet && lineOf(place, block.Sideways) == strconv.Itoa(line) {
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
			if _, here := read.Blocks[b].Rows[carcass]; here {
				return now.Place, &read.Blocks[b]
			}
		}
	}
	for b := range read.Blocks {
		block := &read.Blocks[b]
		line, here := block.Rows[carcass]
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
	text := place.String()
	if text == "" {
		return "Workbook"
	}
	return "S" + text[1:]
}
