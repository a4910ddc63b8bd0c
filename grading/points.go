package grading

import (
	"strings"

	"github.com/shopspring/decimal"

	"railbook/rules"
)

// Points computes an index of the rulebook's Points table for a carcass: the sum of its parts, to 6 decimals. An empty
// name means the rulebook's only index. The figure is missing where a part's measure is.
func Points(carcass *Graded, index string, book *rules.Rulebook) Figure {
	parts := partsOf(pointsMeasure(index), book)
	if len(parts) == 0 {
		return Figure{Missing: "the rulebook has no index of points called " + quote(index)}
	}
	figure := Figure{}
	sum := decimal.Zero
	for _, part := range parts {
		term, missing := pointsTerm(carcass, part, book)
		if missing != "" {
			return Figure{Missing: missing}
		}
		sum = sum.Add(term)
		figure.Terms = append(figure.Terms, Term{Measure: part.Measure, Value: rules.NumberValue(term)})
	}
	figure.Value = rules.NumberValue(sum.Round(comparedDecimals))
	return figure
}

// pointsTerm gives what one part adds: a constant, weight × measure, or weight × |measure − target|.
func pointsTerm(carcass *Graded, part rules.PointsPart, book *rules.Rulebook) (term decimal.Decimal, missing string) {
	if part.Measure == "" {
		return part.Weight, ""
	}
	if _, index := pointsIndex(part.Measure); index {
		return term, "an index of points can't be a part of another"
	}
	value, missing := figureFor(carcass, part.Measure, book)
	if missing != "" {
		return term, missing
	}
	if part.Target.Valid {
		return part.Weight.Mul(value.Number.Sub(part.Target.Decimal).Abs()), ""
	}
	return part.Weight.Mul(value.Number), ""
}

// pointsIndex tells which index a measure such as "points carcass merit" names.
func pointsIndex(measure rules.Measure) (index string, ok bool) {
	name := sameName(string(measure))
	if name == string(rules.Points) {
		return "", true
	}
	return strings.CutPrefix(name, string(rules.Points)+" ")
}

// pointsMeasure gives the measure that names an index.
func pointsMeasure(index string) rules.Measure {
	return rules.Measure(strings.TrimSpace(string(rules.Points) + " " + index))
}

// partsOf gives the parts of the index a measure names; none for a measure that is no index.
func partsOf(measure rules.Measure, book *rules.Rulebook) []rules.PointsPart {
	name, ok := pointsIndex(measure)
	if !ok {
		return nil
	}
	var parts []rules.PointsPart
	for _, part := range book.Points {
		if name == "" && sameName(part.Index) != sameName(book.Points[0].Index) {
			return nil // several indexes: "points" alone does not say which
		}
		if name == "" || sameName(part.Index) == name {
			parts = append(parts, part)
		}
	}
	return parts
}

// figureFor gives a figure or reading of a carcass, or a rulebook's index of points, or in a few words why it has none.
func figureFor(carcass *Graded, measure rules.Measure, book *rules.Rulebook) (value rules.Value, missing string) {
	if index, ok := pointsIndex(measure); ok {
		figure := Points(carcass, index, book)
		return figure.Value, figure.Missing
	}
	if figure, found := carcass.Figures[measure]; found {
		return figure.Value, figure.Missing
	}
	reading, found := carcass.Readings[measure]
	definition, _ := rules.Define(measure)
	switch {
	case found && reading.Unreadable:
		return value, string(measure) + " " + quote(reading.Written) + " can't be read"
	case found:
		return reading.Value, ""
	case definition.Kind == rules.KindMark:
		return rules.Value{Text: "no"}, "" // a mark nobody set is a no
	default:
		return value, "no " + string(measure)
	}
}

// sameName gives the form in which names are compared: letter case and spacing do not count.
func sameName(name string) string {
	if isSimple(name) {
		return name
	}
	return strings.ToLower(strings.Join(strings.Fields(name), " "))
}
