package validate

import (
	"fmt"
	"slices"
	"strings"

	"railbook/grading"
	"railbook/rules/measure"
	"railbook/rules/phrase"
)

const nothingFilledIn = "nothing filled in"

// missingColumn says once for a sheet what none of its carcasses has and none can be placed without.
func missingColumn(s *checker) []Finding {
	var findings []Finding
	for i := range s.Sheets {
		sheet := &s.Sheets[i]
		lacked := slices.DeleteFunc(lackedByAll(sheet.rows), func(id measure.ID) bool { return s.standsUnreadable(sheet, id) })
		if len(lacked) == 0 {
			continue
		}
		finding := s.lackOf(sheet, lacked)
		findings = append(findings, finding)
		for _, r := range sheet.rows {
			r.unplaceable = true
			r.passed = r.passed || finding.Code == nothingFilledIn
		}
	}
	return findings
}

// standsUnreadable reports whether every carcass lacks a figure because what is written for it can't be read, which is said
// cell by cell.
func (s *checker) standsUnreadable(sheet *Sheet, id measure.ID) bool {
	return !slices.ContainsFunc(sheet.rows, func(r *row) bool {
		return !r.passed && !slices.ContainsFunc(inputsOf(r.Graded, id), func(from measure.ID) bool {
			reading, written := r.Written(from)
			return written && reading.Unreadable
		})
	})
}

// lackOf says what a sheet lacks, and what to do: fill in what has a column, or else add the column. A sheet on which
// nothing was filled in yet is told so; and where all is filled in, what keeps the figure from being worked out.
func (s *checker) lackOf(sheet *Sheet, lacked []measure.ID) Finding {
	rows := sheet.rows
	var words []string
	blank := 0
	for _, id := range lacked {
		words = append(words, called(id))
		if hasColumnFor(sheet, rows[0].Graded, id) {
			blank++
		}
	}
	finding := Finding{Level: Hold, Code: "column missing", At: sheet.Heading}
	none := "none of the carcasses here has a " + strings.Join(words, " or a ") + ", so none can be placed. "
	switch {
	case blank > 0 && !slices.ContainsFunc(rows, s.measured):
		finding.Code = nothingFilledIn
		return finding.say("nothing is measured of any carcass here yet, so none can be placed. Fill in the sheet and grade it again.")
	case refused(rows[0].Graded, lacked) != "":
		return finding.say(none + "It can't be worked out: " + refused(rows[0].Graded, lacked) +
			". Correct what the sheet says, or have the class placed by something else in the rulebook.")
	case blank == len(lacked):
		return finding.say(none + "The columns are there and blank: fill them in.")
	}
	if slices.Equal(lacked, []measure.ID{measure.MarblingScore}) && slices.ContainsFunc(rows, plantGraded) {
		none += `The sheet has the plant's own quality grade: to place by it, set "quality grade without marbling" to "plant's own" in the Settings of the rulebook. `
	}
	for _, id := range lacked {
		none += mayBe(sheet, inputsOf(rows[0].Graded, id)...)
	}
	return finding.say(none + "Add the column, or name the one that holds it if the program did not recognise its heading.")
}

func plantGraded(r *row) bool {
	grade, given := r.Written(measure.SheetQualityGrade)
	return given && !grade.Unreadable
}

// mayBe names the unread columns whose values can be one of the measures, ready to be read as it.
func mayBe(sheet *Sheet, measures ...measure.ID) string {
	for _, id := range measures {
		headings := sheet.Unread[id]
		if at := sheet.Unheaded[id]; at != "" && len(headings) == 0 {
			return "No heading stands in cell " + at + ", and the values below it can be " + called(id) + ": if they are that, write " + fmt.Sprintf("%q", phrase.Capital(id.String())) + " there. "
		}
		if len(headings) == 0 {
			continue
		}
		var quoted []string
		for _, heading := range headings {
			quoted = append(quoted, fmt.Sprintf("%q", heading))
		}
		option := fmt.Sprintf("--column %q", id.String()+"="+headings[0])
		if len(headings) == 1 {
			return quoted[0] + " was not read, and its values can be " + called(id) + ": if it is that, use " + option + ". "
		}
		return "These were not read, and the values of each can be " + called(id) + ": " + strings.Join(quoted, ", ") + ". If it is the first, use " + option + ". "
	}
	return ""
}

// inputsOf gives what is read from a sheet for a figure, the figure itself first.
func inputsOf(graded *grading.Graded, id measure.ID) (inputs []measure.ID) {
	inputs = append(inputs, id)
	for _, way := range grading.Ways(graded.Species, graded.Basis, id) {
		for _, from := range way {
			if from != id && !slices.Contains(inputs, from) {
				inputs = append(inputs, inputsOf(graded, from)...)
			}
		}
	}
	return inputs
}

// refused says why the one figure that is lacked can't be worked out although nothing it rests on is missing; empty where
// that is not so.
func refused(graded *grading.Graded, lacked []measure.ID) string {
	if len(lacked) != 1 {
		return ""
	}
	why, from := graded.FigureOf(lacked[0]).Missing, lacked[0]
	for _, way := range grading.Ways(graded.Species, graded.Basis, from) {
		for _, under := range way {
			if figure, computed := graded.Computed(under); computed && figure.Missing != "" {
				why = figure.Missing
			}
		}
	}
	if strings.HasPrefix(why, "no ") || strings.Contains(why, "; no ") {
		return ""
	}
	return why
}

// hasColumnFor reports whether a sheet has a column for a measure, or those for what it is worked out from.
func hasColumnFor(sheet *Sheet, graded *grading.Graded, id measure.ID) bool {
	if _, has := sheet.Columns[id]; has {
		return true
	}
	return slices.ContainsFunc(grading.Ways(graded.Species, graded.Basis, id), func(way []measure.ID) bool {
		return len(way) > 0 && !slices.ContainsFunc(way, func(from measure.ID) bool {
			return from == id || !hasColumnFor(sheet, graded, from)
		})
	})
}

// lackedByAll names what at least two carcasses, and all of them, lack; what is only worked out from that is left out.
func lackedByAll(rows []*row) []measure.ID {
	asked := 0
	var common []measure.ID
	for _, r := range rows {
		if r.passed {
			continue
		}
		asked++
		lacked := lackedOf(r.Graded)
		if len(lacked) == 0 {
			return nil
		}
		if asked == 1 {
			common = lacked
			continue
		}
		common = slices.DeleteFunc(common, func(id measure.ID) bool { return !slices.Contains(lacked, id) })
	}
	if asked < 2 {
		return nil
	}
	return common
}

// lackedOf gives every measure that a carcass lacks and can't be placed without, but not what would be worked out from
// another of them.
func lackedOf(graded *grading.Graded) []measure.ID {
	var lacked []measure.ID
	for _, id := range grading.Needed(graded.Species, graded.Basis) {
		if !graded.Without(id) {
			continue
		}
		ways := grading.Ways(graded.Species, graded.Basis, id)
		follows := slices.ContainsFunc(ways, func(way []measure.ID) bool {
			return slices.ContainsFunc(way, func(from measure.ID) bool { return slices.Contains(lacked, from) })
		})
		if !follows {
			lacked = append(lacked, id)
		}
	}
	return lacked
}

// lacking gives the first measure that a carcass lacks and can't be placed without, with why.
func lacking(graded *grading.Graded) (id measure.ID, why string, lacks bool) {
	for _, id := range grading.Needed(graded.Species, graded.Basis) {
		if graded.Without(id) {
			return id, graded.FigureOf(id).Missing, true
		}
	}
	return measure.None, "", false
}
