package workbook

import (
	"fmt"
	"slices"
	"strings"

	"railbook/grading"
	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/intake"
	"railbook/workbook/record"
	"railbook/workbook/result"
	"railbook/workbook/sheets/kit"
)

// sayWhatMoved says of each new change which carcasses it moved: undoing the changes one after another from the last, it
// grades, checks and places with and without each.
func (j *job) sayWhatMoved() {
	if len(j.newChanges) == 0 {
		return
	}
	first := len(j.results.Changes) - len(j.newChanges)
	undone := *j.results
	undone.Carcasses = make([]*result.Result, len(j.results.Carcasses))
	for i, carcass := range j.results.Carcasses {
		undone.Carcasses[i] = &result.Result{Graded: carcass.Graded}
	}
	after := standings(j.results)
	for i := len(j.results.Changes) - 1; i >= first; i-- {
		change := &j.results.Changes[i]
		if i > first && exchanged(j.results.Changes[i-1], *change) {
			j.undo(undone.Carcasses, *change)
			change.Moved = "see the line above: the two cells were exchanged"
			continue
		}
		var notThere *grading.Carcass // before an added one was
		switch {
		case change.Was == record.NotThere && change.Is == record.Added:
			notThere = j.takeAway(undone.Carcasses, *change)
		case change.Was == record.There && change.Is == record.Removed:
			undone.Carcasses = j.bringBack(undone.Carcasses, *change)
		case !j.undo(undone.Carcasses, *change):
			change.Moved = "see the placings: the carcasses are not the same as before"
			continue
		}
		findings := append(slices.Clone(j.results.Read.Findings), j.findingsOf(undone.Carcasses)...)
		findings = append(findings, unreadBefore(undone.Carcasses)...)
		undone.Findings = settle(findings, decisionsWithout(j.results.Decisions, j.results.Changes[i:]), j.decidedOn)
		undone.Placings = placing.Placings{}
		undone.Gather()
		undone.Place()
		before := standings(&undone)
		if notThere != nil {
			delete(before, notThere.Sequence)
		}
		change.Moved = moved(before, after)
		after = before
	}
}

// exchanged reports whether two changes put into each of two cells what stood in the other one.
func exchanged(a, b record.Change) bool {
	return a.Was == b.Is && a.Is == b.Was && a.Who == b.Who && a.Who != record.InTheCell && a.At != b.At
}

// unreadBefore holds the carcasses whose cell could not be read before a change was made: reading itself finds that, and it
// has read the cell as it is now.
func unreadBefore(carcasses []*result.Result) (findings []validate.Finding) {
	for _, carcass := range carcasses {
		for id, reading := range carcass.Readings() {
			if reading.Unreadable {
				findings = append(findings, validate.Finding{
					Level: validate.Hold, Code: "unreadable value", At: reading.Place, Tag: carcass.Tag, Class: carcass.Class,
					Measure: id, Read: reading.Written, Carcass: carcass.Carcass,
				})
				break
			}
		}
	}
	return findings
}

// decisionsWithout leaves out the corrections that made the changes: before them their findings were open.
func decisionsWithout(decisions []validate.Decision, changes []record.Change) []validate.Decision {
	return slices.DeleteFunc(slices.Clone(decisions), func(decision validate.Decision) bool {
		return decision.Choice == validate.Correct && slices.ContainsFunc(changes, func(change record.Change) bool {
			return change.Class == decision.Class && change.Tag == decision.Tag && change.Measure == decision.Measure
		})
	})
}

// undo puts back what a changed cell said before; false where that cannot be known (a carcass added or removed).
func (j *job) undo(carcasses []*result.Result, change record.Change) bool {
	for i, known := range carcasses {
		place, _ := cellOf(j.results.Read, j.results.Read.Carcasses[i], change.Measure)
		if place != change.At {
			continue
		}
		carcass := known.Carcass.Clone()
		value, err := intake.ReadValue(change.Measure, change.Was, j.rules)
		switch {
		case change.Was == "":
			carcass.ClearReading(change.Measure)
		case err != nil:
			carcass.SetReading(change.Measure, grading.Reading{Place: place, Written: change.Was, Unreadable: true})
		default:
			carcass.SetReading(change.Measure, grading.Reading{Value: value, Place: place, Written: change.Was})
		}
		switch change.Measure {
		case measure.Tag:
			carcass.Tag = change.Was
		case measure.ClassName:
			carcass.Class = change.Was
		}
		carcasses[i] = &result.Result{Graded: grading.Grade(carcass, j.rules)}
		return true
	}
	return false
}

// classNotThere is the class of a carcass while the results are made as they were before it was added.
const classNotThere = "\x00not there"

// takeAway lets a carcass that was added compete with none, and gives it; nil where it is not known.
func (j *job) takeAway(carcasses []*result.Result, change record.Change) *grading.Carcass {
	for i, known := range carcasses {
		if known.Tag == change.Tag && known.Class == change.Class {
			carcass := known.Carcass.Clone()
			carcass.Class = classNotThere
			carcasses[i] = &result.Result{Graded: grading.Grade(carcass, j.rules)}
			return carcass
		}
	}
	return nil
}

// bringBack adds a carcass that was removed, as it was recorded, to those of its class.
func (j *job) bringBack(carcasses []*result.Result, change record.Change) []*result.Result {
	var like *grading.Carcass
	for _, carcass := range carcasses {
		if like == nil || carcass.Class == change.Class && like.Class != change.Class {
			like = carcass.Carcass
		}
	}
	if like == nil {
		return carcasses
	}
	carcass := like.Clone()
	for id := range like.Readings() {
		carcass.ClearReading(id)
	}
	carcass.Class, carcass.Tag, carcass.Place, carcass.Sequence = change.Class, change.Tag, change.At, len(carcasses)
	for _, kept := range j.readBefore() {
		if kept.Class != change.Class || kept.Tag != change.Tag {
			continue
		}
		reading := grading.Reading{Place: rules.Place{File: kept.File, Sheet: kept.Sheet, Cell: kept.Cell}, Written: kept.Written}
		value, err := intake.ReadValue(kept.Measure, kept.Written, j.rules)
		reading.Value, reading.Unreadable = value, err != nil
		carcass.SetReading(kept.Measure, reading)
	}
	return append(carcasses, &result.Result{Graded: grading.Grade(carcass, j.rules)})
}

// standing is what a correction can move of a carcass.
type standing struct {
	name    string
	figures []moving
	place   string
}

// moving is a figure that a correction can move, as it is printed.
type moving struct{ what, text string }

// onHoldPlace is written in place of the place of a carcass on hold.
const onHoldPlace = "on hold"

// standings gives what stands of each carcass, by its Sequence.
func standings(results *result.Results) map[int]standing {
	list := make(map[int]standing)
	var measures []measure.ID
	add := func(class string, graded *grading.Graded, place string) {
		words := standing{name: graded.Tag + " (" + class + ")", place: place}
		for _, id := range measures {
			text := kit.FigureText(graded, id)
			if text == "" || results.Of(graded.Carcass).Doubt(id) != nil { // what rests on a hold is shown nowhere
				text = "none"
			}
			words.figures = append(words.figures, moving{id.String(), text})
		}
		list[graded.Sequence] = words
	}
	for _, class := range results.Placings.Classes {
		measures = movable(class)
		for _, placed := range class.Placed {
			add(class.Class, placed.Graded, fmt.Sprint(placed.Place))
		}
		for _, notPlaced := range class.NotPlaced {
			place := "not placed"
			if notPlaced.OnHold {
				place = onHoldPlace
			}
			add(class.Class, notPlaced.Graded, place)
		}
	}
	return list
}

// movable are the figures of a class that a correction is said to have moved: the yield grade, the grades of the species,
// what else the class is ranked by first, and the value.
func movable(class placing.ClassPlacing) []measure.ID {
	var measures []measure.ID
	add := func(id measure.ID) {
		if !slices.Contains(measures, id) {
			measures = append(measures, id)
		}
	}
	for _, column := range grading.Columns(class.Species, class.Basis) {
		if definition, _ := measure.Define(column.Measure); definition.Kind == measure.KindGrade || column.Measure == measure.YieldGrade {
			add(column.Measure)
		}
	}
	if keys := class.Ranking.Keys; len(keys) > 0 && keys[0].Measure != measure.WholeYieldGrade {
		add(keys[0].Measure)
	}
	add(measure.CarcassValue)
	return measures
}

// moved names every carcass whose grade, value or place is not the same, in the order of their names.
func moved(before, after map[int]standing) string {
	var list []string
	for key, is := range after {
		was, known := before[key]
		if !known {
			was.place = "not there"
		}
		words := movedFigures(was, is)
		if len(words) > 0 {
			list = append(list, is.name+": "+strings.Join(words, ", "))
		}
	}
	for key, was := range before {
		if _, stays := after[key]; !stays {
			list = append(list, was.name+": "+strings.Join(movedFigures(was, standing{place: "not there"}), ", "))
		}
	}
	if len(list) == 0 {
		return "nothing"
	}
	slices.Sort(list)
	return strings.Join(list, "; ")
}

func movedFigures(was, is standing) (words []string) {
	if len(is.figures) == 0 { // it is not there any more
		for _, figure := range was.figures {
			if figure.what == measure.CarcassValue.String() && figure.text != "none" {
				words = append(words, fmt.Sprintf("%s %s to none", figure.what, figure.text))
			}
		}
	}
	for _, now := range is.figures {
		before := "none"
		for _, figure := range was.figures {
			if figure.what == now.what {
				before = figure.text
			}
		}
		if before != now.text {
			words = append(words, fmt.Sprintf("%s %s to %s", now.what, before, now.text))
		}
	}
	if was.place != is.place {
		words = append(words, fmt.Sprintf("place %s to %s", was.place, is.place))
	}
	return words
}
