package rules

import "strings"

func (l *loading) points() {
	for _, line := range l.lines(PointsTable) {
		index, ok := line.needed("Index")
		if !ok {
			continue
		}
		part := PointsPart{Index: index, Target: line.number("Target"), Place: line.place("Index")}
		if text := line.text("Measure"); text != "" {
			definition, ok := line.measure("")
			if !ok || !line.compares(definition, KindNumber, KindMarbling, KindMaturity, KindGrade, KindMark) {
				continue
			}
			part.Measure = definition.Measure
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
func (l *loading) indexMeasures(key Measure) []Measure {
	var measures []Measure
	name, _ := strings.CutPrefix(string(key), PointsPrefix)
	for _, part := range l.book.Points {
		if fold(part.Index) == fold(name) && part.Measure != "" {
			measures = append(measures, part.Measure)
		}
	}
	return measures
}
