package workbook

import (
	"strconv"
	"strings"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/address"
	"railbook/rules/measure"
	"railbook/workbook/intake"
	"railbook/workbook/record"
)

// pair is one carcass as it was recorded when the workbook was graded before and as it is now.

// name is what a carcass goes by.
type name struct{ class, tag string }

// identify gives the carcasses the ids by which they were recorded, and those that were not there before new ones.
func (j *job) identify(pairs []record.Pair, read *intake.Result) {
	highest := 0
	for _, kept := range j.previous.Readings {
		highest = max(highest, kept.Carcass)
	}
	given := make(map[int]int)
	for _, pair := range pairs {
		if pair.Was.ID > 0 {
			given[pair.Is.ID] = pair.Was.ID
		}
	}
	for _, carcass := range read.Carcasses {
		id, known := given[carcass.ID]
		if !known {
			highest++
			id = highest
		}
		carcass.ID = id
	}
}

// sameCarcasses pairs the carcasses with those of a record one after another; ok is false where they are not as many, in the same
// lines and of the same names. What was read of them is not looked at.
func sameCarcasses(recorded []record.Reading, read *intake.Result) (pairs []record.Pair, ok bool) {
	at := 0
	for name := range intake.EachName(read) {
		if at == len(recorded) {
			return nil, false
		}
		was := &recorded[at]
		if at++; was.Class != name.Class || was.Tag != name.Tag || was.Line != name.Line {
			return nil, false
		}
		before := record.Carcass{ID: was.Carcass, Class: was.Class, Tag: was.Tag, Sheet: was.Sheet, Row: was.Line}
		now := before
		now.ID = name.Carcass
		pairs = append(pairs, record.Pair{Was: &before, Is: &now})
	}
	return pairs, at == len(recorded)
}

// keepJudgesWords lets what the judge wrote go with its carcass to the row where that stands now and the tag it has now.
func (j *job) keepJudgesWords(pairs []record.Pair, read *intake.Result) {
	if len(j.results.Decisions)+len(j.results.Rulings)+len(j.results.Reasons)+len(j.previous.Changes) == 0 {
		return
	}
	sideways := make(map[string]bool)
	for _, block := range read.Blocks {
		sideways[block.Sheet] = block.Sideways
	}
	named := make(map[name][]record.Pair)
	for _, pair := range pairs {
		named[name{pair.Was.Class, pair.Was.Tag}] = append(named[name{pair.Was.Class, pair.Was.Tag}], pair)
	}
	byID := make(map[int]record.Pair)
	for _, pair := range pairs {
		byID[pair.Was.ID] = pair
	}
	moved := func(id int, called name, at rules.Place) (int, name, rules.Place) {
		same := named[called]
		if matched, known := byID[id]; known && id > 0 {
			same = []record.Pair{matched}
		}
		for _, pair := range same {
			here := pair.Was.Sheet == at.Sheet && lineOf(at, sideways[pair.Was.Sheet]) == pair.Was.Row
			if here || len(same) == 1 {
				id, called = pair.Was.ID, name{pair.Is.Class, pair.Is.Tag}
			}
			if here && pair.Is.Sheet == pair.Was.Sheet {
				return id, called, onLine(at, pair.Is.Row, sideways[pair.Is.Sheet])
			}
		}
		return id, called, at
	}
	for d := range j.results.Decisions {
		decision := &j.results.Decisions[d]
		id, is, at := moved(decision.Carcass, name{decision.Class, decision.Tag}, decision.Found)
		decision.Carcass, decision.Class, decision.Tag, decision.Found = id, is.class, is.tag, at
		for i := range decision.Puts {
			put := &decision.Puts[i]
			_, is, at := moved(0, name{put.Class, put.Tag}, put.At)
			put.Class, put.Tag, put.At = is.class, is.tag, at
		}
		if decision.Other.Cell != "" {
			for _, pair := range pairs {
				if pair.Was.Sheet == decision.Other.Sheet && lineOf(decision.Other, sideways[pair.Was.Sheet]) == pair.Was.Row && pair.Is.Sheet == pair.Was.Sheet {
					decision.Other = onLine(decision.Other, pair.Is.Row, sideways[pair.Is.Sheet])
					break
				}
			}
		}
	}
	if j.previous.Run.Status != record.Signed { // of a signed workbook the changes are sealed as they stand
		for c := range j.previous.Changes {
			change := &j.previous.Changes[c]
			for _, pair := range pairs {
				if change.At.File == "" && change.At.Cell != "" && pair.Was.Sheet == change.At.Sheet && pair.Is.Sheet == pair.Was.Sheet && lineOf(change.At, sideways[pair.Was.Sheet]) == pair.Was.Row {
					change.At = onLine(change.At, pair.Is.Row, sideways[pair.Is.Sheet])
					break
				}
			}
		}
	}
	j.renameAll(named)
}

// renameAll lets the places and words that the judge gave go with their carcasses, all at once: two may have changed names.
func (j *job) renameAll(named map[name][]record.Pair) {
	renames := make(map[name]name)
	for was, same := range named {
		if is := (name{same[0].Is.Class, same[0].Is.Tag}); len(same) == 1 && was != is {
			renames[was] = is
		}
	}
	j.rename(renames)
}

// rename lets the places and words that the judge gave carcasses go with them to their new classes and tags.
func (j *job) rename(renames map[name]name) {
	if len(renames) == 0 {
		return
	}
	for i, ruling := range j.results.Rulings {
		if is, there := renames[name{ruling.Class, ruling.Tag}]; there {
			j.results.Rulings[i].Class, j.results.Rulings[i].Tag = is.class, is.tag
		}
	}
	words := make(map[string]string, len(j.results.Reasons))
	for key, text := range j.results.Reasons {
		class, tag, _ := strings.Cut(key, "\t")
		if is, there := renames[name{class, tag}]; there {
			key = is.class + "\t" + is.tag
		}
		words[key] = text
	}
	j.results.Reasons = words
}

// renamed is a carcass whose tag or class a decision has corrected.
type renamed struct {
	carcass *grading.Carcass
	measure measure.ID
	text    string
}

// renameDecided lets what the judge wrote about a carcass go with it when a decision gives it another tag or class.
func (j *job) renameDecided(read *intake.Result, list []renamed) {
	if len(list) == 0 {
		return
	}
	decisions := j.results.Decisions
	about, puts := make([]*grading.Carcass, len(decisions)), make([][]*grading.Carcass, len(decisions))
	for d := range decisions {
		about[d] = carcassOf(read, &decisions[d])
		for i := range decisions[d].Puts {
			puts[d] = append(puts[d], putOn(read, &decisions[d].Puts[i]))
		}
	}
	renames := make(map[name]name)
	for _, renamed := range list {
		rename := func(class, tag *string) {
			if renamed.measure == measure.Tag {
				*tag = renamed.text
			} else {
				*class = renamed.text
			}
		}
		for d := range decisions {
			if about[d] == renamed.carcass {
				rename(&decisions[d].Class, &decisions[d].Tag)
			}
			for i := range puts[d] {
				if puts[d][i] == renamed.carcass {
					rename(&decisions[d].Puts[i].Class, &decisions[d].Puts[i].Tag)
				}
			}
		}
		was := name{renamed.carcass.Class, renamed.carcass.Tag}
		is := was
		rename(&is.class, &is.tag)
		if sharing(read, was) == 1 {
			renames[was] = is
		}
	}
	j.rename(renames)
}

func sharing(read *intake.Result, wanted name) (count int) {
	for _, carcass := range read.Carcasses {
		if carcass.Class == wanted.class && carcass.Tag == wanted.tag {
			count++
		}
	}
	return count
}

// lineOf gives the row of a cell, on a sideways sheet its column, as the Readings sheet writes it.
func lineOf(place rules.Place, sideways bool) string {
	column, row, ok := address.Parse(place.Cell)
	switch {
	case !ok:
		return ""
	case sideways:
		return strconv.Itoa(column)
	}
	return strconv.Itoa(row)
}

// onLine gives the place of the cell beside it that stands on another carcass's line.
func onLine(place rules.Place, line string, sideways bool) rules.Place {
	column, row, ok := address.Parse(place.Cell)
	number, err := strconv.Atoi(line)
	if !ok || err != nil {
		return place
	}
	if sideways {
		column = number
	} else {
		row = number
	}
	place.Cell = address.Cell(column, row)
	return place
}
