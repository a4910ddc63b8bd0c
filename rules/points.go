package rules

import (
	"strings"

	"railbook/rules/measure"
)

func (l *loading) points() {
	for _, line := range l.lines(PointsTable) {
		index, ok := line.needed("Index")
		if !ok {
			continue
		}
		part := PointsPart{Index: index, Target: line.number("Target"), Place: line.place("Index")}
		if text := line.text("Measure"); text != "" {
			definition, ok := line.measure("")
			if !ok || !line.compares(definition, measure.KindNumber, measure.KindMarbling, measure.KindMaturity, measure.KindGrade, measure.KindMark) {
				continue
			}
			part.Measure = definition.ID
		} else if part.Target.Valid {
			line.fault("Target", "A constant has no target. Name the measure, or clear the target.")
		}
		weight := line.number("Weight")
		if line.text("Weight") == "" {
			line.needed("Weight")
		}
		part.Weight = weight.Decimal
		for _, earlier := range l.book.Points {
			if earlier.Index == part.Index && earlier.Measure == part.Measure && sameNumber(earlier.Target, part.Target) {
				line.fault("Measure", "This line of the index %s is there twice; the first time in cell %s. Keep one of the two.", index, earlier.Place.Cell)
			}
		}
		l.book.Points = append(l.book.Points, part)
	}
	l.declareIndexes()
}

// declareIndexes makes a measure of each index, "points carcass index", which rankings then compare like any other.
func (l *loading) declareIndexes() {
	points, _ := measure.Define(measure.Points)
	for _, index := range l.indexNames() {
		own := points
		own.Name, own.Heading = PointsPrefix+index, "Points "+index
		table, err := l.book.Measures.With(own)
		if err != nil {
			l.fault(Place{Sheet: PointsTable}, "The index %s cannot be kept, because %v. Take a line out of the sheet.", index, err)
			return
		}
		l.book.Measures = table
	}
}

// Index gives the index of the Points table that a measure names: empty, with ok, for plain "points", which is a
// rulebook's only index.
func (b *Rulebook) Index(id measure.ID) (name string, ok bool) {
	if id == measure.Points {
		return "", true
	}
	if name, ok = strings.CutPrefix(b.Measures.Name(id), PointsPrefix); !ok {
		return "", false
	}
	return name, true
}

// indexNames gives the names of the indexes, each once.
func (l *loading) indexNames() []string {
	var names []string
	for _, part := range l.book.Points {
		if _, found := among(part.Index, names); !found {
			names = append(names, part.Index)
		}
	}
	return names
}

// indexMeasures gives the measures that an index adds up.
func (l *loading) indexMeasures(key measure.ID) []measure.ID {
	var measures []measure.ID
	name, _ := l.book.Index(key)
	for _, part := range l.book.Points {
		if fold(part.Index) == fold(name) && part.Measure != measure.None {
			measures = append(measures, part.Measure)
		}
	}
	return measures
}
