package record

import (
	"cmp"
	"iter"
	"slices"
	"strconv"
	"strings"

	"railbook/rules"
	"railbook/rules/measure"
)

// What the Change record says of a carcass that was added or removed.
const (
	NotThere, Added = "not there", "added"
	There, Removed  = "there", "removed"
)

// Carcass is one carcass as its readings tell it.
type Carcass struct {
	ID                     int // 0 for one that was recorded before carcasses had any
	Class, Tag, Sheet, Row string
	readings               []*Reading // one of a measure
	matched                bool
}

// Reading gives what was read of a measure; nil where nothing was.
func (c *Carcass) Reading(id measure.ID) *Reading {
	for _, kept := range c.readings {
		if kept.Measure == id {
			return kept
		}
	}
	return nil
}

// EachReading gives what was read of the carcass.
func (c *Carcass) EachReading() iter.Seq[*Reading] { return slices.Values(c.readings) }

// add puts a reading in, in place of an earlier one of its measure.
func (c *Carcass) add(kept *Reading) {
	if at := slices.IndexFunc(c.readings, func(known *Reading) bool { return known.Measure == kept.Measure }); at >= 0 {
		c.readings[at] = kept
		return
	}
	c.readings = append(c.readings, kept)
}

// Pair is a carcass as it was and as it is.
type Pair struct{ Was, Is *Carcass }

// Diff compares what was read before with what is read now and gives every value that differs, so that a correction typed
// straight into the data is recorded too; grading again and verifying both rest on it. Carcasses are matched by class and tag, of several with the same
// by their values, then by the row they stand in, so that a retyped tag is a changed tag and an inserted row no change.
func Diff(before, now []Reading) (changes []Change, pairs []Pair) {
	old, fresh := carcassesOf(before), carcassesOf(now)
	compare := func(was, is *Carcass) {
		was.matched, is.matched = true, true
		changes = append(changes, changesOf(was, is)...)
		pairs = append(pairs, Pair{was, is})
	}
	byName := make(map[string][]*Carcass)
	for _, carcass := range old {
		byName[carcass.Class+"\x00"+carcass.Tag] = append(byName[carcass.Class+"\x00"+carcass.Tag], carcass)
	}
	for _, alike := range []bool{true, false} {
		for _, carcass := range fresh {
			if carcass.matched {
				continue
			}
			for _, same := range byName[carcass.Class+"\x00"+carcass.Tag] {
				if !same.matched && (!alike || len(changesOf(same, carcass)) == 0) {
					compare(same, carcass)
					break
				}
			}
		}
	}
	byRow := make(map[string]*Carcass)
	for _, carcass := range old {
		if !carcass.matched {
			byRow[carcass.Sheet+"\x00"+carcass.Row] = carcass
		}
	}
	for _, carcass := range fresh {
		if carcass.matched {
			continue
		}
		if same := byRow[carcass.Sheet+"\x00"+carcass.Row]; same != nil && !same.matched {
			compare(same, carcass)
			continue
		}
		changes = append(changes, wholeCarcass(carcass, NotThere, Added))
	}
	for _, carcass := range old {
		if !carcass.matched {
			changes = append(changes, wholeCarcass(carcass, There, Removed))
		}
	}
	return changes, pairs
}

// Unchanged pairs the carcasses of a workbook that was only read again: whose readings are, one after another and down to their cells,
// those that were recorded. ok is false where any is not, and where a record tells its carcasses apart in another way: Diff looks
// further.
func Unchanged(before []Reading, now iter.Seq[Reading]) (pairs []Pair, ok bool) {
	readings, known, at := make([]*Reading, 0, len(before)), make(map[int]bool), 0
	readCell := func() bool { // moves past what the judge wrote beside the data
		for at < len(before) && before[at].Sheet == JudgeReviewSheet {
			at++
		}
		return at < len(before)
	}
	var was, is *Carcass
	for kept := range now {
		if !readCell() {
			return nil, false
		}
		same := &before[at]
		if was == nil || is.ID != kept.Carcass {
			if same.Carcass == 0 || known[same.Carcass] {
				return nil, false
			}
			known[same.Carcass] = true
			was = &Carcass{ID: same.Carcass, Class: kept.Class, Tag: kept.Tag, Row: kept.Line}
			is = &Carcass{ID: kept.Carcass, Class: kept.Class, Tag: kept.Tag, Row: kept.Line}
			pairs = append(pairs, Pair{was, is})
		}
		if kept.Carcass = was.ID; kept != *same || kept.Sheet == JudgeReviewSheet {
			return nil, false
		}
		if was.Sheet == "" || kept.Measure == measure.Tag {
			was.Sheet, is.Sheet = kept.Sheet, kept.Sheet
		}
		at++
		readings = append(readings, same)
		was.readings = readings[len(readings)-1-len(was.readings) : len(readings) : len(readings)]
		is.readings = was.readings
	}
	return pairs, !readCell()
}

func wholeCarcass(carcass *Carcass, was, is string) Change {
	change := Change{Class: carcass.Class, Tag: carcass.Tag, Measure: measure.Tag, Was: was, Is: is, Who: InTheCell}
	for kept := range carcass.EachReading() {
		change.At = rules.Place{Sheet: kept.Sheet}
	}
	if kept := carcass.Reading(measure.Tag); kept != nil {
		change.At.Cell = kept.Cell
	}
	return change
}

// carcassesOf gathers readings by carcass: those of one class, tag and line. What the judge wrote
// beside the data is no reading of it.
func carcassesOf(readings []Reading) []*Carcass {
	var list []*Carcass
	known := make(map[string]*Carcass)
	var carcass *Carcass
	var previous *Reading
	for i := range readings {
		kept := &readings[i]
		if kept.Sheet == JudgeReviewSheet {
			continue
		}
		if previous == nil || !sameCarcass(previous, kept) {
			key := strings.Join([]string{kept.Class, kept.Tag, kept.Line, strconv.Itoa(kept.Carcass)}, "\x00")
			if carcass = known[key]; carcass == nil {
				carcass = &Carcass{ID: kept.Carcass, Class: kept.Class, Tag: kept.Tag, Row: kept.Line, readings: make([]*Reading, 0, usualReadings)}
				known[key] = carcass
				list = append(list, carcass)
			}
		}
		previous = kept
		if carcass.Sheet == "" || kept.Measure == measure.Tag {
			carcass.Sheet = kept.Sheet
		}
		carcass.add(kept)
	}
	return list
}

// usualReadings is how many readings most carcasses have at most.
const usualReadings = 16

// nothingRead stands for what was not read.
var nothingRead Reading

// changesOf gives the measures whose value differs, in the order of the measures' table.
func changesOf(was, is *Carcass) (changes []Change) {
	var differing []measure.ID
	for before := range was.EachReading() {
		if !sameReading(before, cmp.Or(is.Reading(before.Measure), &nothingRead)) {
			differing = append(differing, before.Measure)
		}
	}
	for after := range is.EachReading() {
		if was.Reading(after.Measure) == nil && !sameReading(&nothingRead, after) {
			differing = append(differing, after.Measure)
		}
	}
	slices.SortFunc(differing, measure.ID.Compare)
	for _, id := range differing {
		before, after := cmp.Or(was.Reading(id), &nothingRead), cmp.Or(is.Reading(id), &nothingRead)
		at := rules.Place{Sheet: after.Sheet, Cell: after.Cell}
		if after == &nothingRead {
			at = rules.Place{Sheet: before.Sheet, Cell: before.Cell}
		}
		changes = append(changes, Change{
			At: at, Class: is.Class, Tag: is.Tag, Measure: id,
			Was: before.Written, Is: after.Written, Who: InTheCell,
		})
	}
	return changes
}

// sameReading compares the values, so that 0.40 re-saved as 0.4 is no change; what could not be read is compared as written.
func sameReading(a, b *Reading) bool {
	if a.Value == "" && b.Value == "" {
		return a.Written == b.Written
	}
	return a.Value == b.Value
}
