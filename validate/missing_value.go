package validate

import (
	"maps"
	"slices"

	"railbook/rules"
	"railbook/rules/measure"
)

// missingValue holds a carcass with a blank where a figure it is placed by needs a value. A blank is never read as zero.
// A live weight left blank is only noted, since no place depends on it.
func missingValue(s *checker) []Finding {
	var findings []Finding
	for _, r := range s.rows {
		if r.passed || r.unplaceable {
			continue
		}
		findings = append(findings, s.missingOf(r)...)
	}
	return findings
}

func (s *checker) missingOf(r *row) []Finding {
	figure, why, lacks := lacking(r.Graded)
	if !lacks {
		return s.missingLiveWeight(r)
	}
	needed := s.blanksNeeded(r)
	if len(needed) > 0 && !slices.ContainsFunc(needed, func(id measure.ID) bool { return !s.blank(r, id) }) &&
		!s.measured(r) {
		r.passed = true
		return []Finding{s.aboutRow(Hold, "nothing measured", r).say("nothing is measured of this carcass. Fill in the row, or " +
			"leave the carcass out in the Judge review sheet.")}
	}
	var findings []Finding
	for _, id := range needed {
		finding := s.about(Hold, ValueMissing, r, id)
		finding.At = s.cellFor(r, id)
		findings = append(findings, finding.say(called(id)+" is blank, and the carcass can't be placed without it. "+
			"Fill in the cell, or leave the carcass out in the Judge review sheet."))
	}
	if len(needed) == 0 && !r.HasUnreadable() && !r.held {
		words := "no " + called(figure)
		if why != "" && why != "no "+figure.String() {
			words += " (" + why + ")"
		}
		findings = append(findings, s.aboutRow(Hold, "can't be placed", r).say(words+
			", so the carcass can't be placed. Complete the row, or leave the carcass out in the Judge review sheet."))
	}
	return findings
}

// missingLiveWeight notes a blank live weight in a sheet that has a column for it.
func (s *checker) missingLiveWeight(r *row) []Finding {
	if r.sheet == nil || !s.blank(r, measure.LiveWeight) {
		return nil
	}
	if _, ok := r.Figure(measure.DressingPercent); ok {
		return nil
	}
	if _, has := r.sheet.Columns[measure.LiveWeight]; !has || s.donor(r, measure.LiveWeight) == nil {
		return nil
	}
	finding := s.about(Note, "live weight missing", r, measure.LiveWeight)
	finding.At = s.cellFor(r, measure.LiveWeight)
	return []Finding{finding.say("live weight is blank, so there is no dressing percent to check the carcass weight by.")}
}

// blanksNeeded gives the blank cells of a carcass that a decisive figure waits for: filled as another carcass of the sheet
// has them the figures are there, and without that one cell they are not. What is written but unreadable is filled the
// same way throughout, for it is told of elsewhere.
func (s *checker) blanksNeeded(r *row) []measure.ID {
	filling, unreadable := map[measure.ID]measure.Value{}, map[measure.ID]measure.Value{}
	if r.sheet == nil {
		return nil
	}
	for id := range r.sheet.Columns {
		donor := s.donor(r, id)
		switch {
		case donor == nil:
		case s.blank(r, id):
			filling[id] = donor.ReadingOf(id).Value
		case r.ReadingOf(id).Unreadable:
			unreadable[id] = donor.ReadingOf(id).Value
		}
	}
	lacksWith := func(values map[measure.ID]measure.Value) bool {
		values = maps.Clone(values)
		maps.Copy(values, unreadable)
		_, _, lacks := lacking(s.with(r, values).Graded)
		return lacks
	}
	if len(filling) == 0 || lacksWith(filling) {
		return nil
	}
	var needed []measure.ID
	for _, id := range slices.SortedFunc(maps.Keys(filling), measure.CompareNames) {
		without := maps.Clone(filling)
		delete(without, id)
		if lacksWith(without) {
			needed = append(needed, id)
		}
	}
	return needed
}

func (s *checker) blank(r *row, id measure.ID) bool {
	return !r.HasWritten(id)
}

// donor gives another carcass of the sheet, of the same species and basis, that has the measure.
func (s *checker) donor(r *row, id measure.ID) *row {
	key := donorKey{sheetMeasure{r.sheet, id}, r.Species, r.Basis}
	donor, known := s.donors[key]
	if !known && r.sheet != nil {
		for _, other := range r.sheet.rows {
			if _, ok := other.Value(id); ok && other.Species == r.Species && other.Basis == r.Basis {
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
func (s *checker) measured(r *row) bool {
	for _, id := range r.kind.measures {
		if !slices.Contains(beforeTheRail, id) && !s.blank(r, id) {
			return true
		}
	}
	return false
}

// beforeTheRail is what entries and the fair's own scales give of an animal that nobody has measured yet.
var beforeTheRail = []measure.ID{measure.LiveWeight, measure.FairWeight, measure.StartWeight, measure.LivePlacing}

// ValueMissing is the code of the finding that a needed cell is blank.
const ValueMissing = "value missing"
