package validate

import (
	"maps"
	"slices"
	"strings"

	"railbook/grading"
	"railbook/rules"
)

// lacking gives the first measure that a carcass lacks and can't be placed without, with why.
func lacking(graded *grading.Graded) (measure rules.Measure, why string, lacks bool) {
	for _, measure := range grading.Needed(graded.Species, graded.Basis) {
		if _, ok := graded.Figure(measure); !ok {
			return measure, graded.Figures[measure].Missing, true
		}
	}
	return "", "", false
}

// missingColumn says once for a sheet what none of its carcasses has and none can be placed without.
func missingColumn(s *survey) []Finding {
	var findings []Finding
	for i := range s.Sheets {
		sheet := &s.Sheets[i]
		figure, why, all := s.lackedByAll(s.sheets[sheet])
		if !all {
			continue
		}
		finding := Finding{Level: Hold, Code: "column missing", At: sheet.Heading}
		words := "none of the carcasses here has a " + called(figure)
		if why != "" {
			words += " (" + why + ")"
		}
		findings = append(findings, finding.say(words+
			", so none can be placed. Add the column, or name the one that holds it if the program did not recognise its heading."))
		for _, r := range s.sheets[sheet] {
			r.unplaceable = true
		}
	}
	return findings
}

// lackedByAll gives the figure that at least two carcasses, and all of them, lack for the same reason.
func (s *survey) lackedByAll(rows []*row) (figure rules.Measure, why string, all bool) {
	asked := 0
	for _, r := range rows {
		if r.passed {
			continue
		}
		lacked, reason, lacks := lacking(r.Graded)
		if !lacks || asked > 0 && (lacked != figure || reason != why) {
			return "", "", false
		}
		figure, why = lacked, reason
		asked++
	}
	return figure, why, asked > 1
}

// missingValue holds a carcass with a blank where a figure it is placed by needs a value. A blank is never read as zero.
// A live weight left blank is only noted, since no place depends on it.
func missingValue(s *survey) []Finding {
	var findings []Finding
	for _, r := range s.rows {
		if r.passed || r.unplaceable {
			continue
		}
		findings = append(findings, s.missingOf(r)...)
	}
	return findings
}

func (s *survey) missingOf(r *row) []Finding {
	figure, why, lacks := lacking(r.Graded)
	if !lacks {
		return s.missingLiveWeight(r)
	}
	needed := s.blanksNeeded(r)
	if len(needed) > 0 && !slices.ContainsFunc(needed, func(measure rules.Measure) bool { return !s.blank(r, measure) }) &&
		!s.measured(r) {
		return []Finding{s.aboutRow(Hold, "nothing measured", r).say("nothing is measured of this carcass. Fill in the row, or " +
			"leave the carcass out in the Judge review sheet.")}
	}
	var findings []Finding
	for _, measure := range needed {
		finding := s.about(Hold, "value missing", r, measure)
		finding.At = s.cellFor(r, measure)
		findings = append(findings, finding.say(called(measure)+" is blank, and the carcass can't be placed without it. "+
			"Fill in the cell, or leave the carcass out in the Judge review sheet."))
	}
	if len(needed) == 0 && !r.hasUnreadable() {
		words := "no " + called(figure)
		if why != "" {
			words += " (" + why + ")"
		}
		findings = append(findings, s.aboutRow(Hold, "can't be placed", r).say(words+
			", so the carcass can't be placed. Complete the row, or leave the carcass out in the Judge review sheet."))
	}
	return findings
}

// missingLiveWeight notes a blank live weight in a sheet that has a column for it.
func (s *survey) missingLiveWeight(r *row) []Finding {
	if r.sheet == nil || !s.blank(r, rules.LiveWeight) {
		return nil
	}
	if _, ok := r.Figure(rules.DressingPercent); ok {
		return nil
	}
	if _, has := r.sheet.Columns[rules.LiveWeight]; !has || s.donor(r, rules.LiveWeight) == nil {
		return nil
	}
	finding := s.about(Note, "live weight missing", r, rules.LiveWeight)
	finding.At = s.cellFor(r, rules.LiveWeight)
	return []Finding{finding.say("live weight is blank, so there is no dressing percent to check the carcass weight by.")}
}

// blanksNeeded gives the blank cells of a carcass that a decisive figure waits for: filled as another carcass of the sheet
// has them the figures are there, and without that one cell they are not.
func (s *survey) blanksNeeded(r *row) []rules.Measure {
	filling := map[rules.Measure]rules.Value{}
	if r.sheet == nil {
		return nil
	}
	for measure := range r.sheet.Columns {
		if donor := s.donor(r, measure); donor != nil && s.blank(r, measure) {
			filling[measure] = donor.Readings[measure].Value
		}
	}
	lacksWith := func(values map[rules.Measure]rules.Value) bool {
		_, _, lacks := lacking(s.with(r, values).Graded)
		return lacks
	}
	if len(filling) == 0 || lacksWith(filling) && !r.hasUnreadable() {
		return nil
	}
	var needed []rules.Measure
	for _, measure := range slices.Sorted(maps.Keys(filling)) {
		without := maps.Clone(filling)
		delete(without, measure)
		if lacksWith(without) {
			needed = append(needed, measure)
		}
	}
	return needed
}

func (s *survey) blank(r *row, measure rules.Measure) bool {
	_, written := r.Readings[measure]
	return !written
}

// donor gives another carcass of the sheet, of the same species and basis, that has the measure.
func (s *survey) donor(r *row, measure rules.Measure) *row {
	key := donorKey{sheetMeasure{r.sheet, measure}, r.Species, r.Basis}
	donor, known := s.donors[key]
	if !known {
		for _, other := range s.sheets[r.sheet] {
			if _, ok := other.Reading(measure); ok && other.Species == r.Species && other.Basis == r.Basis {
				donor = other
				break
			}
		}
		s.donors[key] = donor
	}
	if donor == r {
		return nil
	}
	return donor
}

// donorKey names a column of a sheet and a kind of animal in it.
type donorKey struct {
	sheetMeasure
	species rules.Species
	basis   rules.Basis
}

// measured reports whether any limited measure but live weight was read of the carcass.
func (s *survey) measured(r *row) bool {
	for _, measure := range s.limited(r.Species) {
		if measure != rules.LiveWeight && !s.blank(r, measure) {
			return true
		}
	}
	return false
}

func (r *row) hasUnreadable() bool {
	for _, reading := range r.Readings {
		if reading.Unreadable {
			return true
		}
	}
	return false
}

// cellFor gives the cell where a measure of the carcass stands or, where it is blank, would stand.
func (s *survey) cellFor(r *row, measure rules.Measure) rules.Place {
	if reading, written := r.Readings[measure]; written {
		return reading.Place
	}
	if r.sheet == nil {
		return r.Place
	}
	heading, has := r.sheet.Columns[measure]
	if !has {
		return r.Place
	}
	place := r.Place
	if r.sheet.sideways() {
		place.Cell = letters(r.Place.Cell) + strings.TrimLeft(heading.Cell, alphabet)
	} else {
		place.Cell = letters(heading.Cell) + strings.TrimLeft(r.Place.Cell, alphabet)
	}
	return place
}

const alphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"

func letters(cell string) string {
	return cell[:len(cell)-len(strings.TrimLeft(cell, alphabet))]
}

// sideways reports whether measures run down the sheet and animals across: all headings stand in one column.
func (sheet *Sheet) sideways() bool {
	column := ""
	for _, heading := range sheet.Columns {
		if column != "" && letters(heading.Cell) != column {
			return false
		}
		column = letters(heading.Cell)
	}
	return len(sheet.Columns) > 1
}
