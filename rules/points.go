package rules

import (
	"strings"

	"railbook/rules/measure"
	"railbook/rules/phrase"
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
			line.pointsStep(definition, &part)
		} else if part.Target.Valid {
			line.fault("Target", "A constant has no target. Name the measure, or clear the target.")
		} else {
			line.constantAlone()
		}
		weight := line.number("Weight")
		if line.text("Weight") == "" {
			line.needed("Weight")
		}
		part.Weight = weight.Decimal
		for _, earlier := range l.book.Points {
			if earlier.Index == part.Index && earlier.Measure == part.Measure && sameNumber(earlier.Target, part.Target) &&
				earlier.Side == part.Side && earlier.Step == part.Step && earlier.Grade == part.Grade &&
				sameNumber(earlier.Band.From, part.Band.From) && sameNumber(earlier.Band.UpTo, part.Band.UpTo) {
				line.fault("Measure", "This line of the index %s is there twice; the first time in cell %s. Keep one of the two.", index, earlier.Place.Cell)
			}
		}
		l.book.Points = append(l.book.Points, part)
	}
	l.declareIndexes()
}

// constantAlone looks whether a constant has what only a measure can use.
func (n line) constantAlone() {
	for _, heading := range []string{"Side", "From", "Up to", "Grade"} {
		if n.text(heading) != "" {
			n.fault(heading, "A constant has no %q. Name the measure, or clear the cell.", heading)
			return
		}
	}
}

// pointsStep reads the side of a target and the step of a part. A grade has no number of its own that points could be taken
// of, so its scale is written in the sheet, a step for each grade.
func (n line) pointsStep(definition measure.Definition, part *PointsPart) {
	part.Side = Side(n.choice("Side", sideWords))
	part.Band = Band{From: n.number("From"), FromIsIn: true, UpTo: n.number("Up to")}
	part.Grade = n.text("Grade")
	banded := part.Band.From.Valid || part.Band.UpTo.Valid
	part.Step = banded || part.Grade != ""
	switch {
	case part.Side != "" && !part.Target.Valid:
		n.fault("Side", "There is no target on this line that a figure could be %s. Fill one in, or clear %q.", part.Side, "Side")
	case part.Step && part.Target.Valid:
		n.fault("Target", "A step adds its weight once and has no target. Clear the target, or the step.")
	case definition.Kind == measure.KindGrade && part.Grade == "":
		n.fault("Measure", "%s is a grade and has no number of its own to take points of. Write a line for each grade, with the grade under %q and its points under %q.", phrase.Capital(definition.Name), "Grade", "Weight")
	case definition.Kind != measure.KindGrade && part.Grade != "":
		n.fault("Grade", "%s is no grade. Write a band under %q and %q, or name a graded measure.", phrase.Capital(definition.Name), "From", "Up to")
	case definition.Kind == measure.KindGrade && banded:
		n.fault("From", "%s is a grade, which no band of numbers holds. Clear the band.", phrase.Capital(definition.Name))
	case part.Band.From.Valid && part.Band.UpTo.Valid && part.Band.From.Decimal.GreaterThanOrEqual(part.Band.UpTo.Decimal):
		n.fault("Up to", "This step ends at %s and begins at %s, so nothing is in it.", part.Band.UpTo.Decimal, part.Band.From.Decimal)
	}
	if part.Grade != "" && definition.Kind == measure.KindGrade {
		part.Grade = n.gradeOfStep(definition, part.Grade)
	}
}

// gradeOfStep gives a grade or a third of one as the program writes it.
func (n line) gradeOfStep(definition measure.Definition, text string) string {
	var known []string
	for _, species := range eachSpecies {
		if !definition.For(string(species)) {
			continue
		}
		if word, found := among(text, append(GradeWords(species), wholeGrades(species)...)); found {
			return word
		}
		known = append(known, wholeGrades(species)...)
	}
	n.fault("Grade", "%q is no grade. It should be %s, or a third of one such as Low Choice.", text, phrase.JoinOr(known))
	return text
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
	if name, ok = strings.CutPrefix(id.String(), PointsPrefix); !ok {
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
