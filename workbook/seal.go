package workbook

import (
	"fmt"
	"iter"
	"slices"
	"strings"

	"railbook/grading"
	"railbook/grading/placing"
	"railbook/workbook/record"
	"railbook/workbook/result"
)

// outcomes gives what the results say of each carcass, its place and every figure, in the order in which they are sealed.
func outcomes(results *result.Results) iter.Seq[record.SealedLine] {
	type outcome struct {
		start  string // of its lines' texts
		class  *placing.ClassPlacing
		graded *grading.Graded
		place  string
	}
	var list []outcome
	for c := range results.Placings.Classes {
		class := &results.Placings.Classes[c]
		add := func(graded *grading.Graded, place string) {
			start := record.SealedLine{Kind: record.PlacingLine, Class: class.Class, Tag: graded.Tag}
			list = append(list, outcome{start.Canonical(), class, graded, place})
		}
		for _, placed := range class.Placed {
			add(placed.Graded, fmt.Sprint(placed.Place))
		}
		for _, notPlaced := range class.NotPlaced {
			add(notPlaced.Graded, "not placed: "+notPlaced.Reason)
		}
	}
	slices.SortStableFunc(list, func(a, b outcome) int { return strings.Compare(a.start, b.start) })
	return func(yield func(record.SealedLine) bool) {
		var lines []record.SealedLine // of all carcasses of one class and tag
		for from := 0; from < len(list); {
			lines = lines[:0]
			for start := list[from].start; from < len(list) && list[from].start == start; from++ {
				lines = appendOutcomes(lines, list[from].class, list[from].graded, list[from].place)
			}
			record.OrderAlike(lines)
			for _, line := range lines {
				if !yield(line) {
					return
				}
			}
		}
	}
}

// appendOutcomes adds what the results say of one carcass.
func appendOutcomes(lines []record.SealedLine, class *placing.ClassPlacing, graded *grading.Graded, place string) []record.SealedLine {
	add := func(item, value string) {
		lines = append(lines, record.SealedLine{Kind: record.PlacingLine, Class: class.Class, Tag: graded.Tag, Item: item, Value: value})
	}
	add("place", place)
	for _, column := range grading.ColumnsWith(class.Species, class.Basis, []*grading.Graded{graded}) {
		if value, ok := graded.Figure(column.Measure); ok {
			add(column.Measure.String(), value.Text)
		}
	}
	return lines
}

// aboutFair is what the printed pages say of the fair as a whole.
func aboutFair(results *result.Results) string {
	about := result.WithSettings(results.Read.About, results.Rules)
	return strings.Join([]string{about.Fair, about.Place, about.Date, about.Judge, about.Plant}, " | ")
}

// changedSinceGraded reports whether the workbook has another state than when it was graded, or its pages another head. What was
// written before the heads were kept is taken to have had the same.
func (j *job) changedSinceGraded(state string) bool {
	return j.previous.Run.State != state || j.otherFair()
}

// otherFair reports whether the pages would say something else of the fair as a whole.
func (j *job) otherFair() bool {
	was := j.previous.Run.About
	return was != "" && was != aboutFair(j.results)
}

// stateSHA256 tells one state from another: of what the results were computed from.
func stateSHA256(results *result.Results) string {
	return results.State().InputsSeal()
}

// outcomesOf gives the places and figures among sealed lines.
func outcomesOf(sealed []record.SealedLine) []record.SealedLine {
	return slices.DeleteFunc(slices.Clone(sealed), func(line record.SealedLine) bool { return line.Kind != record.PlacingLine })
}

// on says the day of a signature behind the judge's name; nothing where there is no day.
func on(date string) string {
	if date == "" {
		return ""
	}
	return " on " + date
}
