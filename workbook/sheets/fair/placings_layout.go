package fair

import (
	"slices"
	"strings"

	"railbook/rules/measure"
	"railbook/workbook/result"
	"railbook/workbook/sheets/kit"
)

func (p *Writer) planPlacings() *placingsTable {
	t := &placingsTable{
		Writer: p, measures: make(map[result.KindOfClass][]measure.ID), shared: true, accepted: result.AcceptedBeyond(p.Findings),
	}
	for _, class := range p.Placings.Classes {
		for _, graded := range result.EveryCarcass(class) {
			_, priced := graded.Figure(measure.CarcassValue)
			t.names, t.prices = t.names || result.TextOf(graded, measure.Exhibitor) != "", t.prices || priced
		}
	}
	var first []measure.ID
	for i, class := range p.Placings.Classes {
		kind := result.KindOfClass{Species: class.Species, Basis: class.Basis}
		if t.measures[kind] == nil {
			t.measures[kind] = t.fitting(kind)
		}
		if i == 0 {
			first = t.measures[kind]
		}
		t.shared = t.shared && slices.Equal(first, t.measures[kind]) && class.Basis == p.Placings.Classes[0].Basis
		t.slots = max(t.slots, len(t.measures[kind]))
	}
	t.shared = t.shared && len(p.Placings.Classes) > 0
	return t
}

// The widths of the columns that every class has.
const (
	placeColumnWidth     = 6
	tagColumnWidth       = 7
	exhibitorColumnWidth = 18
	valueColumnWidth     = 9
	gradeColumnWidth     = 16
)

// beforeMeasures gives the widths of the columns on the left: place, tag and, where somebody's is known, exhibitor.
func (t *placingsTable) beforeMeasures() []float64 {
	widths := []float64{placeColumnWidth, tagColumnWidth}
	if t.names {
		widths = append(widths, exhibitorColumnWidth)
	}
	return widths
}

// fitting gives the measures that a kind of class shows: as many as fit on the page at full size. The weight, the grades and
// what the classes are ranked by go last.
func (t *placingsTable) fitting(kind result.KindOfClass) []measure.ID {
	measures := t.ShownMeasures(kind)
	room := kit.PortraitWidth - valueColumnWidth
	for _, width := range t.beforeMeasures() {
		room -= width
	}
	for len(measures) > 1 {
		sum := 0.0
		for _, id := range measures {
			sum += measureWidth(kind, id)
		}
		if sum <= room {
			break
		}
		out, least := 0, t.weightOf(kind, measures[0], measures)
		for i, id := range measures {
			if weight := t.weightOf(kind, id, measures); weight <= least {
				out, least = i, weight
			}
		}
		measures = slices.Delete(slices.Clone(measures), out, out+1)
	}
	return measures
}

// weightOf is how much a measure belongs on the placings: 0 goes first.
func (t *placingsTable) weightOf(kind result.KindOfClass, id measure.ID, measures []measure.ID) int {
	for _, class := range t.Placings.Classes {
		if (result.KindOfClass{Species: class.Species, Basis: class.Basis}) != kind {
			continue
		}
		for at, key := range class.Ranking.Keys {
			if key.Measure == id {
				return 100 - at
			}
		}
	}
	switch {
	case id == measure.QualityGrade, id == measure.YieldGrade, id == measure.HotCarcassWeight:
		return 3
	case id == measure.MarblingScore && slices.Contains(measures, measure.QualityGrade), id == measure.InternalFat:
		return 0
	}
	return 2
}

func (t *placingsTable) widths() []float64 {
	widths := t.beforeMeasures()
	for i := range t.slots {
		widths = append(widths, t.slotWidth(i))
	}
	if t.prices {
		widths = append(widths, valueColumnWidth)
	}
	sum := 0.0
	for _, width := range widths {
		sum += width
	}
	if left := kit.PortraitWidth - sum; left > 0 {
		widest := min(2, len(widths)-1) // the exhibitor, where there is one
		widths[widest] += left
	}
	return widths
}

// slotWidth is wide enough for what any class shows in that column.
func (t *placingsTable) slotWidth(slot int) float64 {
	widest := 0.0
	for kind, measures := range t.measures {
		if slot < len(measures) {
			widest = max(widest, measureWidth(kind, measures[slot]))
		}
	}
	return widest
}

// measureWidth is wide enough for a grade's words, or for a number and the longest word of its heading.
func measureWidth(kind result.KindOfClass, id measure.ID) float64 {
	if definition, _ := measure.Define(id); definition.Kind != measure.KindNumber {
		return gradeColumnWidth
	}
	widest := 0.0
	for _, word := range strings.Fields(kind.Heading(id)) {
		widest = max(widest, kit.WidthFor(word, kit.Heading))
	}
	return max(7.2, widest)
}
