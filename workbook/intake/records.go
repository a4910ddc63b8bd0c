package intake

import (
	"iter"
	"maps"
	"slices"
	"strconv"
	"strings"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/workbook/record"
)

// Records gives every cell that was read, as EachRecord does.
func Records(result *Result) []record.Reading {
	count := 0
	for _, carcass := range result.Carcasses {
		count += carcass.CountReadings() + 2 // a class and a tag without a cell of their own
	}
	return slices.AppendSeq(make([]record.Reading, 0, count), EachRecord(result))
}

// EachRecord gives every cell that was read, carcass by carcass and in the order of the measures' table: what the Readings
// sheet holds. A carcass whose class or tag stands in no cell of its own (the class in a title row or the sheet's name)
// still has a record of it.
func EachRecord(result *Result) iter.Seq[record.Reading] {
	return func(yield func(record.Reading) bool) {
		lines := linesOf(result)
		order := measuresRead(result.Carcasses)
		for _, carcass := range result.Carcasses {
			line := lineOfCarcass(carcass, lines)
			for i := range order {
				kept, ok := recordOf(carcass, &order[i])
				kept.Line = line
				if ok && !yield(kept) {
					return
				}
			}
		}
	}
}

// EachName gives of every carcass, in its turn, what EachRecord says of all its cells: its number, class, tag and line.
func EachName(result *Result) iter.Seq[record.Reading] {
	return func(yield func(record.Reading) bool) {
		lines := linesOf(result)
		for _, carcass := range result.Carcasses {
			name := record.Reading{Carcass: carcass.ID, Class: carcass.Class, Tag: carcass.Tag, Line: lineOfCarcass(carcass, lines)}
			if !yield(name) {
				return
			}
		}
	}
}

// lineOfCarcass gives the line a carcass stands in, which is that of its first cell where its block knows none.
func lineOfCarcass(carcass *grading.Carcass, lines []string) string {
	if carcass.Sequence < len(lines) && lines[carcass.Sequence] != "" {
		return lines[carcass.Sequence]
	}
	return strings.TrimLeft(carcass.Place.Cell, "ABCDEFGHIJKLMNOPQRSTUVWXYZ")
}

// linesOf gives the line each carcass stands in, by its Sequence.
func linesOf(result *Result) []string {
	lines := make([]string, len(result.Carcasses))
	for _, block := range result.Blocks {
		for i, carcass := range block.Carcasses {
			lines[carcass.Sequence] = strconv.Itoa(block.Lines[i])
		}
	}
	return lines
}

// measuresRead gives the measures that some carcass has, and those that every carcass has a record of, in the order of their table.
func measuresRead(carcasses []*grading.Carcass) (measures []measure.Definition) {
	read := map[measure.ID]bool{measure.Tag: true, measure.ClassName: true}
	for _, carcass := range carcasses {
		for id := range carcass.MeasuresRead() {
			if !read[id] {
				read[id] = true
			}
		}
	}
	for _, id := range slices.SortedFunc(maps.Keys(read), measure.ID.Compare) {
		definition, _ := measure.Define(id)
		measures = append(measures, definition)
	}
	return measures
}

func recordOf(carcass *grading.Carcass, definition *measure.Definition) (record.Reading, bool) {
	kept := record.Reading{Carcass: carcass.ID, Class: carcass.Class, Tag: carcass.Tag, Measure: definition.ID}
	reading, found := carcass.Written(definition.ID)
	switch {
	case found && strings.HasPrefix(reading.Place.Sheet, record.JudgeReviewSheet):
		return kept, false // a decision of the judge's, not a cell of the data
	case found:
		at(&kept, reading.Place)
		kept.Written = reading.Written
		if !reading.Unreadable {
			kept.Value = canonical(reading.Value, definition.Kind)
		}
		return kept, true
	case definition.ID == measure.Tag && carcass.Tag != "":
		kept.Value = carcass.Tag
	case definition.ID == measure.ClassName && carcass.Class != "":
		kept.Value = carcass.Class
	default:
		return kept, false
	}
	at(&kept, carcass.Place)
	kept.Written = kept.Value
	return kept, true
}

func at(r *record.Reading, place rules.Place) {
	r.File, r.Sheet, r.Cell = place.File, place.Sheet, place.Cell
}

// canonical is the one text of a value, so that 0.40 and .4 are the same.
func canonical(value measure.Value, kind measure.Kind) string {
	if kind == measure.KindNumber {
		return measure.NumberText(value.Number)
	}
	return value.Text
}

// SplitReasonsKey parts a key of Previous.Reasons into the class and the tag.
func SplitReasonsKey(key string) (class, tag string) {
	class, tag, _ = strings.Cut(key, "\t")
	return class, tag
}
