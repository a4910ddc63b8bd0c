package kit

import (
	"fmt"

	"railbook/grading/placing"
	"railbook/rules/measure"
	"railbook/workbook/result"
)

// AwayFromNumbers keeps words a little away from the number that may stand in the column before.
func AwayFromNumbers(entry Entry) Entry {
	if _, words := entry.Value.(string); words && entry.Style.Align == "" {
		entry.Style.Indent = true
	}
	return entry
}

func ClassName(name string) string {
	if name == "" {
		return "No class named"
	}
	return name
}

func PlaceEntry(placed placing.Placed) Entry {
	switch {
	case placed.JudgeTie:
		return Entry{fmt.Sprintf("%d, tied: judge decides", placed.Place), Style{Role: Flagged, Align: "left", Wrap: true}}
	case placed.Shared:
		return Entry{fmt.Sprintf("%d, tied", placed.Place), Style{Role: Strong, Align: "left"}}
	}
	return Entry{placed.Place, Style{Role: Strong, Align: "left"}}
}

func TagWords(tag string) string {
	if tag == "" {
		return "no tag"
	}
	return tag
}

func MeasureHeading(k result.KindOfClass, id measure.ID) Entry {
	if definition, _ := measure.Define(id); definition.Kind == measure.KindNumber {
		return NumberHeading(k.Heading(id))
	}
	return Entry{k.Heading(id), Style{Role: Heading, Wrap: true}}
}
