package grading

import (
	"strings"

	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"

	"github.com/shopspring/decimal"
)

// Points computes an index of the rulebook's Points table for a carcass: the sum of its parts, to 6 decimals. An empty
// name means the rulebook's only index. The figure is missing where a part's measure is.
func Points(carcass *Graded, index string, book *rules.Rulebook) Figure {
	parts := partsOfIndex(index, book)
	if len(parts) == 0 {
		return Figure{Missing: "the rulebook has no index of points called " + phrase.Quote(index)}
	}
	sum := decimal.Zero
	for _, part := range parts {
		term, missing := pointsTerm(carcass, part, book)
		if missing != "" {
			return Figure{Missing: missing}
		}
		sum = sum.Add(term)
	}
	return Figure{Value: measure.NumberValue(sum.Round(ComparedDecimals))}
}

// pointsTerm gives what one part adds: a constant, weight × measure, weight × |measure − target| on the sides that count, or
// the weight of the step that the figure is in.
func pointsTerm(carcass *Graded, part rules.PointsPart, book *rules.Rulebook) (term decimal.Decimal, missing string) {
	if part.Measure == measure.None {
		return part.Weight, ""
	}
	if _, index := book.Index(part.Measure); index {
		return term, "an index of points can't be a part of another"
	}
	value, missing := FigureFor(carcass, part.Measure, book)
	if missing != "" {
		return term, missing
	}
	if part.Step {
		if part.Grade != "" && (value.Text == part.Grade || rules.WholeGrade(value.Text) == part.Grade) ||
			part.Grade == "" && part.Band.Holds(value.Number.Round(ComparedDecimals)) {
			return part.Weight, ""
		}
		return decimal.Zero, ""
	}
	if part.Target.Valid {
		distance := value.Number.Sub(part.Target.Decimal)
		if part.Side == rules.SideAbove && distance.IsNegative() || part.Side == rules.SideBelow && distance.IsPositive() {
			return decimal.Zero, ""
		}
		return part.Weight.Mul(value.Number.Sub(part.Target.Decimal).Abs()), ""
	}
	return part.Weight.Mul(value.Number), ""
}

// PartsOf gives the parts of the index a measure names; none for a measure that is no index.
func PartsOf(id measure.ID, book *rules.Rulebook) []rules.PointsPart {
	index, ok := book.Index(id)
	if !ok {
		return nil
	}
	return partsOfIndex(index, book)
}

// partsOfIndex gives the parts of an index; an empty name means the rulebook's only index.
func partsOfIndex(index string, book *rules.Rulebook) []rules.PointsPart {
	name := SameName(index)
	var parts []rules.PointsPart
	for _, part := range book.Points {
		if name == "" && SameName(part.Index) != SameName(book.Points[0].Index) {
			return nil // several indexes: "points" alone does not say which
		}
		if name == "" || SameName(part.Index) == name {
			parts = append(parts, part)
		}
	}
	return parts
}

// FigureFor gives a figure or reading of a carcass, or a rulebook's index of points, or in a few words why it has none.
func FigureFor(carcass *Graded, id measure.ID, book *rules.Rulebook) (value measure.Value, missing string) {
	if index, ok := book.Index(id); ok {
		figure := Points(carcass, index, book)
		return figure.Value, figure.Missing
	}
	if figure, found := carcass.figures.Get(id); found {
		return figure.value, figure.missing()
	}
	if reason, skipped := carcass.skipped(id); skipped {
		return value, reason
	}
	if IsCondition(id) {
		return carcass.ConditionValue(id)
	}
	reading, found := carcass.readings.Get(id)
	definition, _ := measure.Define(id)
	switch {
	case found && reading.of.unreadable:
		return value, id.String() + " " + phrase.Quote(reading.of.written) + " can't be read"
	case found:
		return reading.of.value, ""
	case definition.Kind == measure.KindMark:
		return measure.Value{Text: "no"}, "" // a mark nobody set is a no
	default:
		return value, absent(id)
	}
}

// SameName gives the form in which names are compared: letter case and spacing do not count.
func SameName(name string) string {
	if isSimple(name) {
		return name
	}
	return strings.ToLower(strings.Join(strings.Fields(name), " "))
}

// isSimple reports whether a name has nothing but small letters and single spaces between them, as most names of measures.
func isSimple(name string) bool {
	previous := byte(' ')
	for i := range len(name) {
		letter := name[i]
		if (letter < 'a' || letter > 'z') && (letter != ' ' || previous == ' ') {
			return false
		}
		previous = letter
	}
	return previous != ' '
}
